/** What stands on the sheet: the drawings, the whole room in plan, or the room as it will be lit. */

import { html, nothing, type TemplateResult } from "lit";
import type { ResolvedStudy } from "../../src/app.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import type { RawArrangement } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import type { SheetContent } from "../store/screen-store.ts";
import type * as Drawn from "./also-drawn.ts";
import type * as Room from "./room-picture.ts";
import type * as Plan from "./room-plan.ts";
import type * as Setting from "./setting-choice.ts";

let room: typeof Room | undefined;
let plan: typeof Plan | undefined;
let drawn: typeof Drawn | undefined;
let setting: typeof Setting | undefined;

/** The switch over the sheet. */
export function drawingsOrRoom(app: AppView): TemplateResult {
  const choice = (name: string, content: SheetContent): TemplateResult => html`<button
    type="button"
    aria-pressed=${app.sheetContent === content ? "true" : "false"}
    @click=${() => app.showOnSheet(content)}
  >${name}</button>`;
  return html`<div class=${settingsOf(app) === undefined ? "switches" : "switches with-settings"}>
    <div class="shown" role="group" aria-label="On the sheet">
      ${choice("Drawings", "drawings")}${choice("Floor plan", "floor plan")}${choice("Room", "room")}${drawnPart(app)}
    </div>
    ${settingPart(app)}
  </div>`;
}

function settingsOf(app: AppView): RawArrangement["settings"] {
  return app.study.arrangements[app.arrangement].settings;
}

/** Loads with what comes after the first light. */
function settingPart(app: AppView): TemplateResult | typeof nothing {
  const settings = settingsOf(app);
  if (settings === undefined || app.results === undefined) return nothing;
  if (setting !== undefined) return setting.settingChoice(app, settings);
  void import("./setting-choice.ts").then((loaded) => {
    setting = loaded;
    app.redraw();
  });
  return nothing;
}

/** Likewise. Its room is kept until then. */
function drawnPart(app: AppView): TemplateResult {
  if (drawn !== undefined) return drawn.besideSwitch(app);
  if (app.results !== undefined)
    void import("./also-drawn.ts").then((loaded) => {
      drawn = loaded;
      app.redraw();
    });
  return html`<button class="absent">Also draw…</button><button class="absent">Figures</button>`;
}

/** What plan and profile draw beside the usual. */
export function alsoDrawn(session: StudySession) {
  return drawn?.alsoDrawnOf(session);
}

/** The whole room in plan; it and what edits it load when somebody first wants to see it. */
export function roomPlanPart(
  session: StudySession,
  study: ResolvedStudy,
  light: LightAnswer,
  height: number | undefined,
): TemplateResult {
  if (plan !== undefined) return plan.roomPlan(session, study, light, height);
  void import("./room-plan.ts").then((loaded) => {
    plan = loaded;
    session.redraw();
  });
  return html`<p class="hint">Loading…</p>`;
}

/** The picture of the room; it and what draws it load when somebody first wants to see it. */
export function roomPart(app: StudySession): TemplateResult {
  if (room !== undefined) return room.roomPicture(app);
  void import("./room-picture.ts").then((loaded) => {
    room = loaded;
    app.redraw();
  });
  return html`<p class="hint">Loading…</p>`;
}
