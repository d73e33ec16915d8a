/** Places and values of a study in the trade's words and the units on screen: `pendants, clearance`, `850 mm`. */

import { arrangementLetters, formatLength } from "../../src/app.ts";
import type { Display } from "../app-view.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import { type Json, type Path, read } from "../store/pointer.ts";

/** What a place in a study is called: whose it is, and which of its fields. */
export interface PlaceWords {
  readonly subject: string;
  /** Empty for the whole of it. */
  readonly field: string;
}

/** What things are called that carry no name of their own, and where the name of the others stands. */
const LISTS: Readonly<Record<string, string>> = {
  bodies: "piece of furniture",
  people: "person",
  planes: "plane",
  targets: "target",
  luminaires: "luminaire",
};

const WHOLES: Readonly<Record<string, string>> = {
  island: "island",
  room: "room",
  maintenance: "maintenance",
  calculation: "calculation",
  display: "units on screen",
};

const FIELDS: Readonly<Record<string, string>> = {
  at: "places",
  box: "size and place",
  canopy: "canopy",
  cct: "colour temperature",
  ceilingHeight: "ceiling height",
  centre: "middle",
  ceilingVoid: "clear height above the ceiling",
  cri: "colour rendering",
  cutOut: "cut-out",
  dim: "dimmed to",
  dimming: "kind of dimming",
  end: "rim to end",
  fluxFrom: "whose flux holds",
  from: "place",
  grid: "grid",
  lampFlux: "lamps’ loss of light",
  lining: "reflectance inside",
  markedWatts: "marked power",
  maximumWatts: "greatest load",
  minimumWatts: "least load",
  nearFieldError: "error allowed near by",
  order: "order number",
  photometry: "photometric file",
  seat: "height of the seat",
  sides: "its sides",
  sill: "height of the sill",
  suspension: "what it hangs on",
  switches: "where it is switched",
  top: "its top",
  topDiameter: "diameter at the top",
  towards: "direction of the slope",
  watts: "power",
};

/** Numbers of a place or a size, by the key they stand under: from the island's corner, or from the room's. */
const AXES: Readonly<Record<string, readonly string[]>> = {
  centre: ["middle from the left wall", "middle from the near wall"],
  position: ["from the left wall", "from the near wall", "height"],
  at: ["from the left wall", "from the near wall"],
  from: ["from the left end", "from the near side"],
  size: ["length", "width"],
};

/** Keys that only group what is named by the key after them. */
const GROUPS = new Set(["row", "body", "ceiling", "reflectance", "shade", "lamp", "beam", "maintenance"]);
const LENGTHS = new Set([
  ...["length", "width", "height", "diameter", "clearance", "stature", "seat", "centre", "margin", "spacing"],
  ...[
    "at",
    "gap",
    "end",
    "depth",
    "sill",
    "topDiameter",
    "filament",
    "ceilingHeight",
    "radius",
    "from",
    "offset",
  ],
]);

/** @param study may be a document that its check refuses, and hold anything */
export function placeWords(study: RawStudy, path: Path): PlaceWords {
  const [first, second, ...rest] = path.map(String);
  if (first === undefined) return { subject: "study", field: "" };
  if (first === "arrangements" && rest[0] === "layers" && rest[1] !== undefined) {
    const [, , list, place, ...keys] = rest;
    const isOne = list === "at" && place !== undefined;
    return {
      subject: layerWords(study, Number(second), rest[1], isOne ? Number(place) : undefined),
      field: fieldWords(isOne ? keys : rest.slice(2)),
    };
  }
  const inside = `${first}/${second}`;
  if ((inside === "island/zones" || inside === "room/openings") && rest[0] !== undefined) {
    const kind = inside === "island/zones" ? "zone" : "opening";
    return { subject: named(study, [first, second, rest[0]], kind), field: fieldWords(rest.slice(1)) };
  }
  if (first === "arrangements" && second !== undefined)
    return { subject: optionWords(study, Number(second)), field: fieldWords(rest) };
  if (first in LISTS && second !== undefined)
    return { subject: named(study, [first, second], LISTS[first]), field: fieldWords(rest) };
  return {
    subject: WHOLES[first] ?? words(first),
    field: fieldWords([second, ...rest].filter((key) => key !== undefined)),
  };
}

/** A layer, or one of its luminaires at free places, with the option where there are several. */
function layerWords(study: RawStudy, arrangement: number, layer: string, one?: number): string {
  const path: Path = ["arrangements", arrangement, "layers", layer];
  const isPendant = at(study, [...path, "role"]) === "pendant";
  const of = one === undefined ? "" : isPendant ? `pendant ${one + 1}` : `luminaire ${one + 1} of `;
  const whole = isPendant && one !== undefined ? "" : named(study, path, "layer");
  const options = at(study, ["arrangements"]);
  const isAlone = !Array.isArray(options) || options.length < 2;
  return isAlone ? `${of}${whole}` : `${of}${whole} of ${optionWords(study, arrangement)}`;
}

function optionWords(study: RawStudy, index: number): string {
  const name = at(study, ["arrangements", index, "name"]);
  if (typeof name === "string") return name;
  const options = at(study, ["arrangements"]);
  return `option ${(Array.isArray(options) ? arrangementLetters(options)[index] : undefined) ?? index + 1}`;
}

function at(study: RawStudy, path: Path): Json | undefined {
  return read(study as unknown as Json, path);
}

/** The name it has, or its kind and number; luminaires and targets are keyed by their names. */
function named(study: RawStudy, path: Path, kind: string): string {
  const key = String(path.at(-1));
  if (!/^\d+$/.test(key)) return key;
  const name = at(study, [...path, "name"]);
  return typeof name === "string" ? name : `${kind} ${Number(key) + 1}`;
}

function fieldWords(keys: readonly string[]): string {
  const axis = AXES[keys.at(-2) ?? ""]?.[Number(keys.at(-1))];
  if (axis !== undefined) return axis;
  const telling = keys.filter(
    (key, i) =>
      !/^\d+$/.test(key) &&
      !(GROUPS.has(key) && i < keys.length - 1) &&
      !(key === "at" && keys[0] === "switches"),
  );
  const last = telling.map((key) => FIELDS[key] ?? words(key)).join(" ");
  if (keys.at(-1) === "reflectance" || !keys.includes("reflectance")) return last;
  return `reflectance of ${last}`;
}

const words = (key: string): string => key.replace(/([a-z])([A-Z])/g, (_, a, b) => `${a} ${b.toLowerCase()}`);

/** A value at a place, lengths in the unit on screen. */
export function valueWords(value: unknown, path: Path, { display }: { readonly display: Display }): string {
  const keys = path.map(String).filter((key) => !/^\d+$/.test(key));
  const last = keys.at(-1) ?? "";
  const isLength = LENGTHS.has(last) && !keys.includes("display");
  if (typeof value === "number")
    return isLength ? formatLength(value, display.length) : String(Number(value.toPrecision(4)));
  if (Array.isArray(value)) return value.map((each) => valueWords(each, path, { display })).join(", ");
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "string" ? value : JSON.stringify(value);
}
