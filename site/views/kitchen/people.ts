/** People: where they stand or sit, how tall and how old, and whether they stand in the light. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { choiceField, lengthField, numberField, textField } from "../../components/fields.ts";
import { freshName, type RawPerson } from "../../edits/raw-study.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { item, openAdded, part } from "./part.ts";
import { seatOffer } from "./seat-offer.ts";
import { LEFT_WALL, NEAR_WALL } from "./walls.ts";

const POSTURES = [
  { value: "standing", words: "standing" },
  { value: "leaning", words: "leaning over the top" },
  { value: "seated", words: "seated" },
];

export function peoplePart(app: AppView): TemplateResult {
  const people = app.study.people ?? [];
  const check = (words: string, isOn: boolean, turn: (on: boolean) => void): TemplateResult =>
    html`<label class="check"><input type="checkbox" .checked=${isOn} @change=${(event: Event) =>
      turn((event.target as HTMLInputElement).checked)}> ${words}</label>`;
  return part(
    "people",
    "People",
    html`${people.map((person, index) => personItem(app, person, index))}
    ${check("They stand in the light: every figure with them there", app.withPeople === true, (on) => app.standPeople(on))}
    ${check(
      "Show on the plan what their bodies shade, and what they see mirrored in the top",
      app.showPeople,
      (on) => app.turnPeople(on),
    )}
    ${app.showPeople ? html`<p class="hint">Dotted: the light their own bodies take. Crossed ring: the image of a luminaire in the top, with its box (P pendant, R in the ceiling) and to whose eye.</p>` : nothing}
    ${seatOffer(app)}
    <p class="row-of-actions"><button type="button" @click=${() => {
      openAdded(`person-${people.length}`);
      app.edit(addPerson(app, people));
    }}>Add a person</button></p>`,
  );
}

function personItem(app: AppView, person: RawPerson, index: number): TemplateResult {
  const path: Path = ["people", index];
  return item(
    "person",
    index,
    person.name,
    html`<div class="fields">
        ${textField(app, { label: "Name", path: [...path, "name"], change: "rename" })}
        ${lengthField(app, { label: "Height", path: [...path, "stature"], change: `${person.name} height`, fallback: 1.7 })}
        ${lengthField(app, { label: `Feet, from ${LEFT_WALL}`, path: [...path, "at", 0], change: `${person.name} from the left wall` })}
        ${lengthField(app, { label: `Feet, from ${NEAR_WALL}`, path: [...path, "at", 1], change: `${person.name} from the near wall` })}
        ${numberField(app, {
          label: "Facing",
          path: [...path, "facing"],
          change: `${person.name} facing`,
          from: -360,
          to: 360,
          unit: "°",
          fallback: 0,
          hint: "0° faces wall 1 (right), 90° wall 2 (head of the plan).",
        })}
        ${choiceField(app, {
          label: "Posture",
          path: [...path, "posture"],
          change: `${person.name}`,
          choices: POSTURES,
          fallback: "standing",
        })}
        ${numberField(app, { label: "Age", path: [...path, "age"], change: `${person.name} age`, from: 0, to: 130, optional: true })}
      </div>
      <p class="row-of-actions"><button type="button" @click=${() =>
        app.edit({
          name: `remove ${person.name}`,
          edits: [{ path, value: undefined }],
        })}>Remove ${person.name}</button></p>`,
  );
}

/** Somebody at the far side of the island, beside whoever stands there already. */
function addPerson(app: AppView, people: readonly RawPerson[]) {
  const name = freshName(
    "cook",
    people.map((each) => each.name),
  );
  const island = app.light?.scene.island;
  const room = app.light?.scene.room;
  const y = island === undefined ? 1 : Math.min(island.centre[1] + island.width / 2 + 0.2, room?.width ?? 99);
  const middle = island?.centre[0] ?? 1;
  const places = (app.light?.scene.people ?? []).map(({ at }) => at);
  // Shoulders are half a metre wide: the nearest place to the middle that leaves them room.
  const x = [0, 0.6, -0.6, 1.2, -1.2, 1.8, -1.8]
    .map((step) => middle + step)
    .find(
      (each) =>
        each > 0 &&
        each < (room?.length ?? 99) &&
        places.every(([px, py]) => Math.hypot(px - each, py - y) > 0.5),
    );
  const at = [x ?? middle, y].map((each) => Math.round(each * 1000) / 1000);
  const person = { name, stature: 1.7, at, facing: 270, posture: "standing" };
  return {
    name: `add ${name}`,
    edits: [{ path: ["people"], value: [...people, person] as unknown as Json }],
  };
}
