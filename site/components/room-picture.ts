/** The room as it will be lit: the option on screen, and another beside it if wanted. */

import { html, nothing, type TemplateResult } from "lit";
import "../../src/elements/plan/plan.ts";
import "../../src/preview/preview.ts";
import { EVIDENCE } from "../../src/app.ts";

import type { AppView } from "../app-view.ts";
import type { ShownRoom } from "../light/room-light-state.ts";
import type { TaskState } from "../light/worker-task.ts";
import { taskPart } from "./task-part.ts";

const WAITING = "Computing the light on every surface…";

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

function valueIn<T>(state: TaskState<T> | undefined): T | undefined {
  return state?.status === "complete" ? state.value : undefined;
}

export function roomPicture(app: AppView): TemplateResult {
  const { arrangements } = app.study;
  if (beside === app.arrangement || (beside !== undefined && arrangements[beside] === undefined))
    beside = undefined;
  const { results } = app;
  const current = valueIn(results?.room.state);
  if (current !== undefined) last = { arrangement: app.arrangement, room: current };
  const room = current ?? (last?.arrangement === app.arrangement ? last.room : undefined);
  const other = beside === undefined ? undefined : valueIn(results?.otherRoom.state);
  const waiting = room === undefined ? WAITING : "The study has changed; its light is being computed.";
  const state = current === undefined ? taskPart(results?.room, waiting, () => html``) : nothing;
  if (room === undefined) return html`${state}`;
  return html`
    ${
      arrangements.length < 2
        ? nothing
        : html`<p class="row-of-actions"><label>Beside it
            <select @change=${(event: Event) => {
              const { value } = event.target as HTMLSelectElement;
              beside = value === "" ? undefined : Number(value);
              if (beside === undefined) results?.release("otherRoom");
              else results?.need("otherRoom", beside);
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
    ${state} ${results?.otherRoom.state.status === "error" ? taskPart(results.otherRoom, "", () => html``) : nothing}
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
