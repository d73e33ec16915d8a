/** Windows and other openings in the walls: at night they swallow light. */

import { html, type TemplateResult } from "lit";
import { metresOf } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { lengthField, textField } from "../../components/fields.ts";
import { shareField } from "../../components/share-field.ts";
import { freshName, openingName, type RawOpening } from "../../edits/raw-study.ts";
import { wallLength } from "../../edits/room-contents.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { item, openAdded, part } from "./part.ts";
import { SHORT_WALL_NAMES, WALL_NAMES } from "./walls.ts";

/** Where an opening's distance along its wall begins, by wall. */
const FROM_WALL = SHORT_WALL_NAMES.map((_, wall) => SHORT_WALL_NAMES.at(wall - 1));

export function openingsPart(app: AppView): TemplateResult {
  const openings = app.study.room.openings ?? [];
  return part(
    "openings",
    "Windows",
    html`${openings.map((opening, index) => openingItem(app, opening, index))}
    <p class="row-of-actions"><button type="button" @click=${() => {
      openAdded(`opening-${openings.length}`);
      app.edit(addWindow(app, openings));
    }}>Add a window</button></p>`,
  );
}

function openingItem(app: AppView, opening: RawOpening, index: number): TemplateResult {
  const path: Path = ["room", "openings", index];
  const name = openingName(opening, index);
  const length = (key: string, label: string): TemplateResult =>
    lengthField(app, { label, path: [...path, key], change: `${name} ${label.toLowerCase()}` });
  return item(
    "opening",
    index,
    html`${name} <span class="what">${WALL_NAMES[opening.wall as 0]}</span>`,
    html`<div class="fields">
        ${textField(app, { label: "Name", path: [...path, "name"], change: "rename", optional: true })}
        <div class="field">
          <label for="wall-of-opening-${index}">Wall</label>
          <select id="wall-of-opening-${index}" @change=${(event: Event) => {
            const wall = Number((event.target as HTMLSelectElement).value);
            app.edit({ name: `${name} in wall ${wall}`, edits: [{ path: [...path, "wall"], value: wall }] });
          }}>
            ${WALL_NAMES.map((words, wall) => html`<option value=${wall} .selected=${wall === opening.wall}>${words}</option>`)}
          </select>
        </div>
        ${length("from", `From ${FROM_WALL[opening.wall]}`)} ${length("length", "Length")} ${length("sill", "Sill above the floor")}
        ${length("height", "Height of it")}
        ${shareField(app, {
          label: "Light reflected at night",
          path: [...path, "reflectance"],
          change: `${name} reflect`,
          as: "ratio",
        })}
      </div>
      <p class="row-of-actions"><button type="button" @click=${() =>
        app.edit({
          name: `remove ${name}`,
          edits: [{ path, value: undefined }],
        })}>Remove ${name}</button></p>`,
  );
}

/** A window of ordinary size in the first wall that has room for it. */
function addWindow(app: AppView, openings: readonly RawOpening[]) {
  const { study } = app;
  const size = 1.2;
  const wall = [0, 3, 1, 2].find((each) => !openings.some((opening) => opening.wall === each)) ?? 0;
  const length = Math.min(size, wallLength(study, wall));
  const ceiling = metresOf(study.room.ceilingHeight) ?? 2.6;
  const name = freshName(
    "window",
    openings.flatMap((each) => each.name ?? []),
  );
  const opening = {
    name,
    wall,
    from: Math.round(((wallLength(study, wall) - length) / 2) * 1000) / 1000,
    length,
    sill: 0.9,
    height: Math.round(Math.min(1.2, ceiling - 1) * 1000) / 1000,
  };
  return {
    name: `add ${name}`,
    edits: [{ path: ["room", "openings"], value: [...openings, opening] as unknown as Json }],
  };
}
