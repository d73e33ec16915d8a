/** Cupboards, larder, hood and whatever else stands or hangs in the room: listed, sized, placed, removed, added. */

import { html, nothing, type TemplateResult } from "lit";
import { metresOf } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { lengthField, numberField, textField } from "../../components/fields.ts";
import { shareField } from "../../components/share-field.ts";
import { lengthText } from "../../components/words.ts";
import { BODY_KINDS, newBody, placeBody, sizeBody } from "../../edits/bodies.ts";
import type { RawBody } from "../../edits/raw-study.ts";
import { stripUnder, takesStrip } from "../../edits/strip-under.ts";
import type { Path } from "../../store/pointer.ts";
import { item, openAdded, part } from "./part.ts";
import { LEFT_WALL, NEAR_WALL } from "./walls.ts";

export function bodiesPart(app: AppView): TemplateResult {
  const bodies = app.study.bodies ?? [];
  return part(
    "bodies",
    "Cupboards, larder, hood",
    html`${bodies.map((body, index) => bodyItem(app, body, index))}
    <p class="row-of-actions">
      ${BODY_KINDS.map(
        (kind) =>
          html`<button type="button" @click=${() => {
            openAdded(`body-${bodies.length}`);
            app.edit(newBody(app.study, kind));
          }}>Add ${kind}</button>`,
      )}
    </p>`,
  );
}

function bodyItem(app: AppView, body: RawBody, index: number): TemplateResult {
  const path: Path = ["bodies", index];
  const [a, b] = body.box.map((corner) => corner.map((each) => metresOf(each) ?? 0));
  const low = a.map((value, axis) => Math.min(value, b[axis]));
  const size = a.map((value, axis) => Math.abs(b[axis] - value));
  const place = (axis: 0 | 1 | 2, label: string): TemplateResult =>
    lengthField(app, {
      label,
      path: [...path, "place", axis],
      change: `${body.name} ${label.toLowerCase()}`,
      derived: low[axis],
      edits: (value) => placeBody(app.study, index, axis, metresOf(value) as number),
    });
  const extent = (axis: 0 | 1 | 2, label: string): TemplateResult =>
    lengthField(app, {
      label,
      path: [...path, "size", axis],
      change: `${body.name} ${label.toLowerCase()}`,
      derived: size[axis],
      edits: (value) => sizeBody(app.study, index, axis, metresOf(value) as number),
    });
  return item(
    "body",
    index,
    html`${body.name} <span class="what">${size.map((each) => lengthText(app, each)).join(" × ")}</span>`,
    html`<div class="fields">
        ${textField(app, { label: "Name", path: [...path, "name"], change: "rename" })}
        ${extent(0, "Along the room")} ${extent(1, "Across the room")} ${extent(2, "Height of it")}
        ${place(0, `From ${LEFT_WALL}`)} ${place(1, `From ${NEAR_WALL}`)} ${place(2, "Above the floor")}
        ${numberField(app, {
          label: "Turned by",
          path: [...path, "turn"],
          change: `${body.name} turned by`,
          from: -360,
          to: 360,
          unit: "°",
          fallback: 0,
          optional: true,
        })}
        ${shareField(app, {
          label: "Light reflected",
          path: [...path, "reflectance"],
          change: `${body.name} reflect`,
          as: "ratio",
        })}
      </div>
      <p class="row-of-actions">${stripButton(app, body, index)}<button type="button" @click=${() =>
        app.edit({
          name: `remove ${body.name}`,
          edits: [{ path, value: undefined }],
        })}>Remove ${body.name}</button></p>`,
  );
}

/** Typical, to be changed in its fields. */
function stripButton(app: AppView, body: RawBody, index: number): TemplateResult | typeof nothing {
  if (!takesStrip(body)) return nothing;
  return html`<button type="button" @click=${() => {
    const edit = stripUnder(app.study, app.arrangement, index);
    if (edit === undefined) return;
    app.edit(edit);
    app.say(`${edit.name}: a typical one, in a layer of its own; the counter below it is judged.`);
  }}>Hang a strip under ${body.name}</button>`;
}
