/** From where a layer is switched: places in plan, in the order of their wiring. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { askedMark, defaultMark, lengthField } from "../../components/fields.ts";
import { capital } from "../../components/words.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import { addSwitch, placeOfAdded, removeSwitch } from "../../edits/switches.ts";
import type { Path } from "../../store/pointer.ts";
import { LEFT_WALL, NEAR_WALL } from "../kitchen/walls.ts";

export function switchFields(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const { switches = [] } = layer;
  const path: Path = ["arrangements", app.arrangement, "layers", index, "switches"];
  const hasDimmer = layer.dimmer !== undefined;
  const isAssumed = switches.some(({ at }) => at === undefined);
  const mark = askedMark(
    app,
    path,
    switches.length > 0 && !isAssumed,
    isAssumed ? ": a corner stands in for the place; type it or set it" : "",
  );
  const add = (): void => {
    app.edit(addSwitch(app.study, app.arrangement, index));
    app.showField([...path, placeOfAdded(switches), "at"]);
  };
  return html`<section aria-label="Switches of ${layer.name}">
    ${switches.map((_, i) => {
      const at: Path = [...path, i, "at"];
      const name = hasDimmer && i === 0 ? "dimmer" : `switch ${i + 1}`;
      const change = `${layer.name}: ${name}`;
      const place = (axis: 0 | 1, from: string): TemplateResult =>
        lengthField(app, {
          label: `${capital(name)}, from ${from}`,
          path: [...at, axis],
          change,
          isMarkedApart: true,
        });
      return html`<div class="fields">
        ${place(0, LEFT_WALL)} ${place(1, NEAR_WALL)}
        ${defaultMark(app, { path: at, label: `both distances of ${name}`, change, what: "both" })}
        <p class="row-of-actions"><button type="button" @click=${() =>
          app.edit(
            removeSwitch(app.study, app.arrangement, index, i),
          )}>Remove ${hasDimmer && i === 0 ? "its place" : name}</button></p>
      </div>`;
    })}
    ${switches.length > 0 ? mark : nothing}
    <p class="row-of-actions">
      <button type="button" id=${idOf(path)} @click=${add}>${hasDimmer && switches.length === 0 ? "Place its dimmer" : "Add a switch"}</button>
      <span class="hint">${
        switches.length === 0
          ? `From where it is switched${hasDimmer ? " and dimmed" : ""}; it stands on the set-out plan.`
          : switches.length === 1
            ? "One place."
            : `${switches.length} places: two-way${switches.length > 2 ? " and intermediate" : ""}.`
      }</span>
    </p>
    ${switches.length > 0 ? nothing : mark}
  </section>`;
}
