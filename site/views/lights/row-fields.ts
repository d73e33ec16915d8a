/** A row over the island: count, clearance, and how it is spread along the top. */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { metresOf, planExtents, turnOf } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { lengthField, numberField } from "../../components/fields.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import { type SpreadKey, spreadLength } from "../../edits/row-spread.ts";
import type { Json, Path } from "../../store/pointer.ts";

/** How the places along a row are told: by the even bays, or by one of three lengths. */
const SPACINGS = [
  { value: "bays", words: "equal bays" },
  { value: "gap", words: "gap between rims" },
  { value: "spacing", words: "centre to centre" },
  { value: "end", words: "rim to end of top" },
] as const;

export function rowFields(app: AppView, layer: RawLayer, path: Path): TemplateResult {
  const row = layer.row as NonNullable<RawLayer["row"]>;
  const kind =
    row.gap !== undefined
      ? "gap"
      : row.spacing !== undefined
        ? "spacing"
        : row.end !== undefined
          ? "end"
          : "bays";
  const id = `spacing-${path.join("-")}`;
  return html`<div class="fields">
    ${numberField(app, {
      label: "Count",
      path: [...path, "row", "count"],
      change: `${layer.name} count`,
      from: 1,
      to: 200,
      whole: true,
    })}
    ${lengthField(app, {
      label: "Clearance",
      path: [...path, "row", "clearance"],
      change: "clearance",
    })}
    <div class="field">
      <label for=${id}>Spread by</label>
      <select id=${id} @change=${(event: Event) => {
        const chosen = (event.target as HTMLSelectElement).value;
        const { gap: _gap, spacing: _spacing, end: _end, ...rest } = row;
        const width = metresOf(app.study.luminaires?.[layer.luminaire]?.body?.diameter) ?? 0;
        const start =
          chosen === "bays"
            ? {}
            : {
                [chosen]: spreadLength(
                  row,
                  chosen as SpreadKey,
                  app.light?.scene.island?.length ?? 2.4,
                  width,
                ),
              };
        app.edit({
          name: `${layer.name} by ${SPACINGS.find((each) => each.value === chosen)?.words}`,
          edits: [{ path: [...path, "row"], value: { ...rest, ...start } as unknown as Json }],
        });
      }}>
        ${SPACINGS.map(
          (each) =>
            html`<option value=${each.value} .selected=${live(each.value === kind)}>${each.words}</option>`,
        )}
      </select>
    </div>
    ${
      kind === "bays"
        ? nothing
        : lengthField(app, {
            label: kind === "gap" ? "Gap" : kind === "spacing" ? "Spacing" : "Rim to end",
            path: [...path, "row", kind],
            change: kind === "end" ? "rim to end" : kind,
          })
    }
    ${turnField(app, layer, path)}
  </div>`;
}

/** How each one of a row is turned, where that is to be seen. */
function turnField(app: AppView, layer: RawLayer, path: Path): TemplateResult | typeof nothing {
  const [placed] = app.light?.scene.layers[Number(path.at(-1))]?.luminaires ?? [];
  const isEven = (placed?.luminaire.distribution.horizontal.length ?? 1) < 2;
  if (placed === undefined || (isEven && layer.row?.turn === undefined)) return nothing;
  const [along, across] = planExtents(placed.luminaire);
  const unturned =
    Math.abs(along - across) > 1e-3 ? "its long side along the island" : "0°, as its maker measured it";
  return numberField(app, {
    label: "Turned",
    path: [...path, "row", "turn"],
    change: `${layer.name} turned`,
    from: -360,
    to: 360,
    unit: "°",
    fallback: turnOf(placed),
    optional: true,
    hint: `Counter-clockwise from above. Empty: ${unturned}.`,
  });
}
