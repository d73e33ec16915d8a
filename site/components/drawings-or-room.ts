/** What stands on the sheet: the drawings, or the room as it will be lit. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";
import type * as Room from "./room-picture.ts";
import type * as Setting from "./setting-choice.ts";

let room: typeof Room | undefined;
let setting: typeof Setting | undefined;

/** The switch over the sheet. */
export function drawingsOrRoom(app: AppView): TemplateResult {
  const choice = (name: string, isRoom: boolean): TemplateResult => html`<button
    type="button"
    aria-pressed=${app.showRoom === isRoom ? "true" : "false"}
    @click=${() => app.turnRoom(isRoom)}
  >${name}</button>`;
  return html`<div class="switches">
    <div class="shown" role="group" aria-label="On the sheet">
      ${choice("Drawings", false)}${choice("Room", true)}
    </div>
    ${settingPart(app)}
  </div>`;
}

/** Loads with what comes after the first light. */
function settingPart(app: AppView): TemplateResult | typeof nothing {
  const { settings } = app.study.arrangements[app.arrangement];
  if (settings === undefined || app.results === undefined) return nothing;
  if (setting !== undefined) return setting.settingChoice(app, settings);
  void import("./setting-choice.ts").then((loaded) => {
    setting = loaded;
    app.redraw();
  });
  return nothing;
}

/** The picture of the room; it and what draws it load when somebody first wants to see it. */
export function roomPart(app: AppView): TemplateResult {
  if (room !== undefined) return room.roomPicture(app);
  void import("./room-picture.ts").then((loaded) => {
    room = loaded;
    app.redraw();
  });
  return html`<p class="hint">Loading…</p>`;
}
