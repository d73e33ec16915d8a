/** How a luminaire hangs, and what an order needs of it: first what the set-out sheet waits for. */

import { html, nothing, type TemplateResult } from "lit";
import { type Luminaire, suspensionPoints } from "../../../src/app.ts";
import type { FieldsView } from "../../app-view.ts";
import { choiceField, lengthField, numberField, textField } from "../../components/fields.ts";
import type { RawLuminaire } from "../../edits/raw-study.ts";
import type { Edit } from "../../store/history.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { suspensionFields } from "./suspension-fields.ts";

export interface FormedLuminaire {
  readonly name: string;
  readonly document: RawLuminaire;
  /** As it last hung in the option on screen. */
  readonly luminaire?: Luminaire | undefined;
}

const SUSPENSIONS = [
  { value: "", words: "not said" },
  { value: "rod", words: "rod" },
  { value: "cord", words: "cord: its flex alone" },
  { value: "chain", words: "chain" },
  { value: "cable", words: "steel cable beside its flex" },
];

/** Whether what is ordered by another number than the file's is the same product: makers' files and order lists often differ. */
function sameProductField(
  app: FieldsView,
  { name, document, luminaire }: FormedLuminaire,
  path: Path,
): TemplateResult | typeof nothing {
  const measured = luminaire?.filed?.order;
  if (measured === undefined || document.order === undefined || document.order === measured) return nothing;
  return choiceField(app, {
    label: `"${document.order}" and "${measured}"`,
    path: [...path, "measured"],
    change: `${name}, ordered and measured:`,
    choices: [
      { value: "", words: "not said" },
      { value: measured, words: "the same product" },
    ],
    fallback: "",
    optional: true,
  });
}

function isRecessed(app: FieldsView, name: string): boolean {
  return app.study.arrangements.some(({ layers }) =>
    layers.some(
      ({ luminaire, role, grid }) => luminaire === name && (role ?? (grid && "recessed")) === "recessed",
    ),
  );
}

/** The hole in the ceiling: of a box by its sides along and across, else by its diameter. */
function cutOutFields(app: FieldsView, { name, document }: FormedLuminaire, path: Path): TemplateResult {
  const cutOut: Path = [...path, "cutOut"];
  const stated = document.cutOut;
  const field = (
    label: string,
    at: Path,
    edits?: (value: Json | undefined) => readonly Edit[],
  ): TemplateResult =>
    lengthField(app, {
      label,
      path: at,
      change: `${name} ${label.toLowerCase()}`,
      optional: true,
      ...(edits === undefined ? {} : { edits }),
    });
  if (!Array.isArray(stated) && document.body?.profile !== "box") return field("Cut-out, diameter", cutOut);
  const sides: readonly (Json | undefined)[] = Array.isArray(stated)
    ? stated
    : [stated as Json, stated as Json];
  return html`${(["length", "width"] as const).map((side, i) =>
    // One side alone is the other's too until that is typed; without one there is no hole.
    field(`Cut-out, ${side}`, [...cutOut, i], (value) => [
      {
        path: cutOut,
        value:
          value === undefined
            ? value
            : (sides.map((other, k) => (k === i ? value : (other ?? value))) as Json),
      },
    ]),
  )}`;
}

export function orderFields(app: FieldsView, options: FormedLuminaire, path: Path): TemplateResult {
  const { name, document, luminaire } = options;
  const hung = luminaire && suspensionPoints(luminaire);
  const number = (key: string, label: string, [from, to]: readonly [number, number], unit: string) =>
    numberField(app, {
      label,
      path: [...path, key],
      change: `${name} ${key}`,
      from,
      to,
      unit,
      optional: true,
    });
  const plain = (key: string, label: string, hint?: string): TemplateResult =>
    textField(app, {
      label,
      path: [...path, key],
      change: `${name} ${key}`,
      optional: true,
      ...(hint === undefined ? {} : { hint }),
    });
  const measured = luminaire?.filed?.order;
  const canopy: Path = [...path, "canopy"];
  const hasCanopy = document.canopy !== undefined;
  return html`<details>
    <summary>Hanging and ordering</summary>
    <div class="fields">
      ${choiceField(app, {
        label: "Hangs on a",
        path: [...path, "suspension"],
        change: `${name} on`,
        choices: SUSPENSIONS,
        fallback: "",
        optional: true,
      })}
      ${number("weight", "Weight", [0.01, 10_000], " kg")}
      ${lengthField(app, {
        label: "Canopy, diameter",
        path: [...canopy, "diameter"],
        change: `${name} canopy`,
        optional: true,
        edits: (value) => [
          value === undefined ? { path: canopy, value } : { path: [...canopy, "diameter"], value },
        ],
      })}
      ${plain("dimming", "Dimming", "By phase (trailing or leading edge), 0–10 V, DALI …: it decides the cable.")}
      ${plain(
        "order",
        "Order number",
        measured === undefined
          ? undefined
          : `The light of its file was measured of "${measured}". Another number holds the papers until the file of that one is hung, or both are the same product.`,
      )}
      ${sameProductField(app, options, path)}
      ${document.beam === undefined ? nothing : number("watts", "Power", [0, 100_000], " W")}
      ${hung === undefined ? nothing : suspensionFields(app, name, hung)}
      ${
        hasCanopy
          ? lengthField(app, {
              label: "Canopy, height",
              path: [...canopy, "height"],
              change: `${name} canopy height`,
              optional: true,
            })
          : nothing
      }
      ${isRecessed(app, name) || document.cutOut !== undefined ? cutOutFields(app, options, path) : nothing}
      ${number("cct", "Colour temperature", [1000, 25_000], " K")}
      ${number("cri", "Colour rendering", [0, 100], "")}
      ${plain("finish", "Finish")}
      ${plain("maker", "Maker")}
      ${number("price", "Price, each", [0, 1e7], "")}
      ${number("powerFactor", "Power factor", [0.05, 1], "")}
      ${number("lampPrice", "Price of its lamps", [0, 1e7], "")}
      ${number("lampLife", "Life of its lamps", [1, 1e7], " h")}
    </div>
  </details>`;
}
