/** The fields of one luminaire, whatever its light comes from: name, shade or body, lamp, and what an order needs. */

import { html, nothing, type TemplateResult } from "lit";
import {
  FINISH_NAMES,
  filedBody,
  filedSides,
  formatLength,
  LAMP_FINISHES,
  type Luminaire,
  metresOf,
  NAMED_BODY_PROFILES,
  SHADE_FORMS,
} from "../../../src/app.ts";
import type { FieldsView } from "../../app-view.ts";
import { choiceField, lengthField, numberField, textField } from "../../components/fields.ts";
import { bodyWith, nameProblem, renameLuminaire } from "../../edits/study-luminaires.ts";
import type { Edit } from "../../store/history.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { luminaireOpening } from "./luminaire-opening.ts";
import { type FormedLuminaire, orderFields } from "./order-fields.ts";

const words = (values: readonly string[]) => values.map((value) => ({ value, words: value }));

const NOT_GIVEN = "not given";
const FLUX_FROM = [
  { value: "", words: "not said" },
  { value: "file", words: "its file's own light" },
  { value: "lamps", words: "its lamps' rated flux" },
];

export interface LuminaireFormOptions extends FormedLuminaire {
  /** Hears of a new name before it is the study's. */
  onRename?(to: string): void;
}

export function luminaireForm(app: FieldsView, options: LuminaireFormOptions): TemplateResult {
  const { name, document } = options;
  const path: Path = ["luminaires", name];
  return html`<div class="fields">
      ${textField(app, {
        label: "Name",
        path: [...path, "name"],
        change: `rename ${name}`,
        shown: name,
        problem: (text) => nameProblem(app.study, name, text),
        edits: (to) => {
          options.onRename?.(String(to));
          return renameLuminaire(app.study, name, String(to)).edits;
        },
      })}
      ${document.beam === undefined ? nothing : beamFields(app, name, path)}
      ${document.shade === undefined ? nothing : shadeFields(app, name, path)}
    </div>
    ${document.shade === undefined ? bodyFields(app, options, path) : nothing}
    ${document.photometry === undefined ? nothing : lampOfFile(app, options, path)}
    ${orderFields(app, options, path)}`;
}

function shadeFields(app: FieldsView, name: string, path: Path): TemplateResult {
  const lamp: Path = [...path, "lamp"];
  const shade: Path = [...path, "shade"];
  return html`
    ${choiceField(app, {
      label: "Shade",
      path: [...shade, "profile"],
      change: `${name} as`,
      choices: words(Object.keys(SHADE_FORMS)),
      fallback: "dome",
    })}
    ${choiceField(app, {
      label: "Finish of the shade",
      path: [...shade, "finish"],
      change: `${name} in`,
      choices: words(FINISH_NAMES),
      fallback: "white",
    })}
    ${lengthField(app, { label: "Diameter", path: [...shade, "diameter"], change: `${name} diameter` })}
    ${lengthField(app, { label: "Height of the shade", path: [...shade, "height"], change: `${name} height` })}
    ${numberField(app, {
      label: "Flux of the lamp",
      path: [...lamp, "flux"],
      change: `${name} lamp`,
      from: 1,
      to: 100_000,
      unit: " lm",
    })}
    ${numberField(app, {
      label: "Power of the lamp",
      path: [...lamp, "watts"],
      change: `${name} lamp`,
      from: 0,
      to: 10_000,
      unit: " W",
      optional: true,
    })}
    ${choiceField(app, {
      label: "Glass of the lamp",
      path: [...lamp, "finish"],
      change: `${name} lamp`,
      choices: words(LAMP_FINISHES),
      fallback: "frosted",
    })}
    ${textField(app, {
      label: "Shape of the lamp",
      path: [...lamp, "shape"],
      change: `${name} lamp`,
      optional: true,
      hint: "A60, G95, C35 …",
    })}`;
}

function beamFields(app: FieldsView, name: string, path: Path): TemplateResult {
  const beam: Path = [...path, "beam"];
  return html`
    ${numberField(app, { label: "Flux", path: [...beam, "flux"], change: `${name} flux`, from: 1, to: 1e6, unit: " lm" })}
    ${numberField(app, { label: "Beam angle", path: [...beam, "angle"], change: `${name} beam`, from: 1, to: 180, unit: "°" })}`;
}

/** Neither its file nor the study says how large its light is. */
function isSizeUnknown({ luminaire, document }: LuminaireFormOptions): boolean {
  const isPoint = luminaire?.emission.opening.shape === "point";
  return isPoint && document.body === undefined && document.opening === undefined;
}

/** Sides nearer to one another than this (m) are equal. */
const EQUAL = 1e-3;

/** Which side of a luminaire's body is the long one, from its light and what its file states; undefined of one that is as long as wide. */
function longSide(luminaire: Luminaire | undefined): "length" | "width" | undefined {
  const filed = luminaire === undefined ? undefined : filedBody(luminaire);
  const sides = [luminaire?.emission.opening, filed?.profile === "box" ? filed : undefined];
  const longer = sides.find((each) => each !== undefined && Math.abs(each.length - each.width) > EQUAL);
  return longer === undefined ? undefined : longer.length > longer.width ? "length" : "width";
}

/** Profile and size of what hangs there: drops, clashes, glare and what pendants hide rest on it. */
function bodyFields(app: FieldsView, options: LuminaireFormOptions, path: Path): TemplateResult {
  const { name, document, luminaire } = options;
  const body: Path = [...path, "body"];
  const isFiled = document.photometry !== undefined;
  const long = longSide(luminaire);
  const first = long === undefined ? "drum" : "box";
  const edits =
    (key: string) =>
    (value: Json | undefined): readonly Edit[] => [
      { path: body, value: bodyWith(document.body, key, value, first) },
    ];
  const size = (key: "diameter" | "length" | "width" | "height", label: string): TemplateResult =>
    lengthField(app, {
      label,
      path: [...body, key],
      change: `${name} ${key}`,
      optional: true,
      edits: edits(key),
    });
  const sides = (): TemplateResult =>
    long === undefined
      ? html`${size("length", "Length")} ${size("width", "Width")}`
      : html`${size(long, "Long side")} ${size(long === "length" ? "width" : "length", "Short side")}`;
  return html`
    ${
      isSizeUnknown(options)
        ? html`<p class="problem">
            The file does not say how large the light is. What does the real shade measure? Until then drops, glare and
            clashes rest on a point.
          </p>`
        : nothing
    }
    ${filedBodyButton(app, options, body)}
    <div class="fields">
      ${choiceField(app, {
        label: "Shade or body",
        path: [...body, "profile"],
        change: `${name} as`,
        choices: [
          ...(isFiled ? [{ value: NOT_GIVEN, words: "not given" }] : []),
          ...words(
            document.body?.profile === "profile" ? [...NAMED_BODY_PROFILES, "profile"] : NAMED_BODY_PROFILES,
          ),
        ],
        fallback: isFiled ? NOT_GIVEN : "drum",
        optional: isFiled,
        edits: edits("profile"),
      })}
      ${(document.body?.profile ?? first) === "box" ? sides() : size("diameter", "Diameter")}
      ${size("height", "Height of the body")}
    </div>
    ${luminaireOpening(app, name, document)}`;
}

/** The study's own colour and glass of the body, in the file's form and size. */
function bodyAs(own: Readonly<Record<string, unknown>> = {}, filed: object): Json {
  const sizes = ["diameter", "length", "width", "height", "offset", "outline"];
  const rest = Object.entries(own).filter(([key]) => !sizes.includes(key));
  return { ...Object.fromEntries(rest), ...filed } as Json;
}

/** Takes the body that the file states, until the study's own measures so. */
export function filedBodyButton(
  app: FieldsView,
  { name, document, luminaire }: LuminaireFormOptions,
  path: Path = ["luminaires", name, "body"],
): TemplateResult | typeof nothing {
  const filed = luminaire === undefined ? undefined : filedBody(luminaire);
  if (filed === undefined) return nothing;
  const own = document.body as Readonly<Record<string, unknown>> | undefined;
  const isTaken = Object.entries(filed).every(([key, value]) =>
    typeof value === "number" ? Math.abs((metresOf(own?.[key]) ?? 0) - value) < EQUAL : own?.[key] === value,
  );
  if (isTaken) return nothing;
  const sides = filedSides(filed).map((side) => formatLength(side, app.display.length));
  return html`<p class="row-of-actions">
    <button type="button" @click=${() =>
      app.edit({
        name: `${name} body as its file states`,
        edits: [{ path, value: bodyAs(own, filed) }],
      })}>
      Body as the file states: ${sides.join(" × ")}
    </button>
  </p>`;
}

/** Flux and power where the file's own do not hold: another lamp, or none stated. */
function lampOfFile(
  app: FieldsView,
  { name, document, luminaire }: LuminaireFormOptions,
  path: Path,
): TemplateResult {
  const isOpen = luminaire?.unsettledFlux !== undefined || document.fluxFrom !== undefined;
  return html`<div class="fields">
    ${
      isOpen
        ? choiceField(app, {
            label: "Whose flux holds",
            path: [...path, "fluxFrom"],
            change: `${name}, flux by`,
            choices: FLUX_FROM,
            fallback: "",
            optional: true,
          })
        : nothing
    }
    ${numberField(app, {
      label: "Flux of its lamps",
      path: [...path, "flux"],
      change: `${name} re-lamped to`,
      from: 1,
      to: 1e7,
      unit: " lm",
      optional: true,
      hint: "Empty: as the file has it.",
    })}
    ${numberField(app, {
      label: "Power",
      path: [...path, "watts"],
      change: `${name} power`,
      from: 0,
      to: 100_000,
      unit: " W",
      optional: true,
      hint: "Empty: as the file has it.",
    })}
  </div>`;
}
