/** What stands on the sheet: the drawings, or the room as it will be lit. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";
import type * as Room from "./room-picture.ts";

let room: typeof Room | undefined;

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
    ${settingChoice(app)}
  </div>`;
}

/** Which setting of the dimmers is lit, where the option has any. */
function settingChoice(app: AppView): TemplateResult | typeof nothing {
  const { settings = [] } = app.study.arrangements[app.arrangement];
  if (settings.length === 0) return nothing;
  const choice = (words: string, name: string | undefined): TemplateResult => html`<button
    type="button"
    aria-pressed=${app.setting === name ? "true" : "false"}
    @click=${() => app.showSetting(name)}
  >${words}</button>`;
  return html`<div class="shown" role="group" aria-label="Setting of the dimmers">
    ${choice("As dimmed", undefined)}${settings.map(({ name }) => choice(name, name))}
  </div>`;
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
