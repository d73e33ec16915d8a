/** Seats that nobody sits on: without people nothing is said of glare, heads and shadows. */

import { html, nothing, type TemplateResult } from "lit";
import { seatPlaces } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import type { NamedEdit } from "../../edits/named-edit.ts";
import { freshName, type RawPerson } from "../../edits/raw-study.ts";
import type { Json } from "../../store/pointer.ts";

/** Offers to seat somebody on each seat, in one step; nothing where somebody sits or no seat is stated. */
export function seatOffer(app: AppView): TemplateResult | typeof nothing {
  const scene = app.light?.scene;
  if (scene === undefined || scene.people.some(({ posture }) => posture === "seated")) return nothing;
  const places = seatPlaces(scene);
  if (places.length === 0) return nothing;
  const seats = places.length === 1 ? "the seat" : `the ${places.length} seats`;
  return html`<p class="hint">Nobody sits on ${seats}: what may glare, hang at heads or lie in shadow there is not looked at.
    <button type="button" class="text" @click=${() => app.edit(seated(app.study.people ?? [], places))}>Seat somebody on
      ${places.length === 1 ? "it" : "each"}</button></p>`;
}

function seated(people: readonly RawPerson[], places: ReturnType<typeof seatPlaces>): NamedEdit {
  const all = [...people];
  for (const { at, facing } of places)
    all.push({
      name: freshName(
        "guest",
        all.map(({ name }) => name),
      ),
      at: at.map((metres) => Math.round(metres * 1000) / 1000) as [number, number],
      facing: Math.round(facing * 10) / 10,
      posture: "seated",
    } as RawPerson);
  return {
    name: `seat ${places.length === 1 ? "a guest" : `${places.length} guests`}`,
    edits: [{ path: ["people"], value: all as unknown as Json }],
  };
}
