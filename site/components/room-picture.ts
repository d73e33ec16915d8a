/** The room as it will be lit: the option on screen, and another beside it if wanted. */

import { html, nothing, type TemplateResult } from "lit";
import "../../src/elements/plan/plan.ts";
import "../../src/preview/preview.ts";
import { EVIDENCE } from "../../src/app.ts";

import type { AppView } from "../app-view.ts";
import type { ShownRoom } from "../light/room-light-state.ts";

let beside: number | undefined;
/** The last picture, which stays while the next is computed: whoever walks about in it keeps their place. */
let last: { readonly arrangement: number; readonly room: ShownRoom } | undefined;

/** What the luminaires' light rests on, in words. */
function inputsOf({ scene }: ShownRoom): string {
  const words = scene.layers.map(({ name, luminaires }) => {
    const [first] = luminaires;
    return first === undefined ? "" : `${name}: ${EVIDENCE[first.luminaire.evidence].words}`;
  });
  return words.filter((each) => each !== "").join(", ");
}

export function roomPicture(app: AppView): TemplateResult {
  const { arrangements } = app.study;
  if (beside === app.arrangement || (beside !== undefined && arrangements[beside] === undefined))
    beside = undefined;
  const found = app.room(app.arrangement);
  if (found !== undefined) last = { arrangement: app.arrangement, room: found };
  const room = found ?? (last?.arrangement === app.arrangement ? last.room : undefined);
  const other = beside === undefined ? undefined : app.room(beside, true);
  if (room === undefined) return html`<p class="hint">Computing the light on every surface…</p>`;
  return html`
    ${
      arrangements.length < 2
        ? nothing
        : html`<p class="row-of-actions"><label>Beside it
            <select @change=${(event: Event) => {
              const { value } = event.target as HTMLSelectElement;
              beside = value === "" ? undefined : Number(value);
              app.redraw();
            }}>
              <option value="" ?selected=${beside === undefined}>nothing</option>
              ${arrangements.map((each, i) =>
                i === app.arrangement
                  ? nothing
                  : html`<option value=${i} ?selected=${i === beside}>${each.name}</option>`,
              )}
            </select>
          </label></p>`
    }
    ${found === undefined ? html`<p class="hint" role="status">The study has changed; its light is being computed.</p>` : nothing}
    <candlespan-preview
      .side=${room}
      .other=${other}
      .unit=${app.display.illuminance}
      ?people=${room.people}
      .date=${new Date().toISOString().slice(0, 10)}
      .inputs=${inputsOf(room)}
    ></candlespan-preview>
  `;
}
