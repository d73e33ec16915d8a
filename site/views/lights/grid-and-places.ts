/** A grid in the ceiling, and luminaires at free places. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { lengthField, numberField } from "../../components/fields.ts";
import { lengthText } from "../../components/words.ts";
import { makeRow } from "../../edits/luminaires.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import { clearanceIn } from "../../light/scene-queries.ts";
import type { Path } from "../../store/pointer.ts";

export function gridFields(app: AppView, layer: RawLayer, path: Path): TemplateResult {
  const count = (key: "columns" | "rows", label: string): TemplateResult =>
    numberField(app, {
      label,
      path: [...path, "grid", key],
      change: `${layer.name} ${key}`,
      from: 1,
      to: 100,
      whole: true,
    });
  const margin = (label: string, ...key: Path): TemplateResult =>
    lengthField(app, {
      label,
      path: [...path, "grid", "margin", ...key],
      change: `${layer.name}: ${label.toLowerCase()}`,
      ...(key.length === 0 ? { optional: true, hint: "Empty: half a spacing." } : {}),
    });
  return html`<div class="fields">
    ${count("columns", "Columns along the room")} ${count("rows", "Rows across the room")}
    ${
      Array.isArray(layer.grid?.margin)
        ? html`${margin("Wall to the outer ones, along the room", 0)} ${margin("Wall to the outer ones, across the room", 1)}`
        : margin("Wall to the outer ones")
    }
    ${lengthField(app, {
      label: "Height of the light's centre",
      path: [...path, "grid", "height"],
      change: `${layer.name} height`,
      optional: true,
      hint: "Empty: in the ceiling.",
    })}
  </div>`;
}

export function freePlaces(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const placed = app.light?.scene.layers[index]?.luminaires ?? [];
  return html`<div class="field">
    <p>${placed.length} at free places.</p>
    <ol class="places">
      ${placed.map(
        ({ frame }, i) => html`<li>
          <button type="button" @click=${() => app.select([{ layer: index, index: i }])}>
            ${lengthText(app, frame.origin[0])} from the left wall, ${lengthText(app, frame.origin[1])} from the near wall, ${lengthText(app, frame.origin[2])} up
          </button>
        </li>`,
      )}
    </ol>
    ${
      layer.role === "pendant"
        ? html`<button type="button" @click=${() => {
            const clearance = clearanceIn(app.light?.scene, index) ?? 0.85;
            app.edit(makeRow(app.study, app.arrangement, index, clearance));
          }}>Make it a row</button>`
        : nothing
    }
  </div>`;
}
