/** Arrangements and their layers, as the study writes them; `keys/arrangement-keys.ts` says what each key means. */

import * as v from "valibot";
import {
  angle,
  coordinate,
  dictionary,
  either,
  flag,
  lengthFromZero,
  list,
  name,
  numberWithin,
  object,
  oneOf,
  PART,
  point2,
  point3,
  positiveLength,
  ratio,
  text,
  tupleMessage,
  wholeNumber,
} from "./study-fields.ts";

const optional = v.optional;

const watts = numberWithin("power", " W", { from: 0, to: 100_000 });

export const rowSchema = object({
  count: wholeNumber(1, 200),
  gap: optional(lengthFromZero),
  spacing: optional(positiveLength),
  end: optional(coordinate),
  clearance: optional(positiveLength),
  offset: optional(point2),
  turn: optional(angle),
  aim: optional(point3),
  followSlope: optional(flag),
});

export const gridSchema = object({
  columns: wholeNumber(1, 100),
  rows: wholeNumber(1, 100),
  margin: optional(
    either(
      Array.isArray,
      v.strictTuple([lengthFromZero, lengthFromZero], tupleMessage("[along x, along y]")),
      lengthFromZero,
    ),
  ),
  over: optional(v.strictTuple([point2, point2], tupleMessage("[[x0, y0], [x1, y1]]"))),
  offset: optional(point2),
  height: optional(positiveLength),
  turn: optional(angle),
  aim: optional(point3),
  followSlope: optional(flag),
});

export const placeSchema = object({
  position: point3,
  turn: optional(angle),
  tilt: optional(angle),
  spin: optional(angle),
  aim: optional(point3),
});

const control = either(
  Array.isArray,
  list(v.strictTuple([ratio, ratio], tupleMessage("[control, share of flux]")), 2, 50, "points"),
  oneOf(["linear", "square", "logarithmic"]),
);

const dimmer = object(
  {
    name: optional(text),
    minimumWatts: optional(watts),
    maximumWatts: optional(watts),
    curve: optional(
      list(v.strictTuple([ratio, ratio], tupleMessage("[share of flux, share of watts]")), 2, 50, "points"),
    ),
    control: optional(control),
  },
  '{ "name": "wall dimmer", "maximumWatts": 150 }',
);

export const layerSchema = object({
  name,
  role: optional(oneOf(["pendant", "recessed", "accent", "other"])),
  luminaire: name,
  dim: optional(ratio),
  row: optional(rowSchema),
  grid: optional(gridSchema),
  at: optional(list(placeSchema, 1, 1000, "places")),
  circuit: optional(text),
  dimmer: optional(dimmer),
  switches: optional(list(object({ at: optional(point2) }), 1, 8, "places")),
  hours: optional(numberWithin("hours of use a day", " h", { from: 0, to: 24 })),
  beyondTop: optional(flag),
});

const letter = v.pipe(
  text,
  v.regex(
    /^[A-Z]{1,2}$/,
    (issue) => `The letter is none.${PART}one or two capital letters, A to ZZ${PART}${issue.received}`,
  ),
);

/** Levels of the layers for one use of the kitchen, with what is asked of the zones then. */
export const settingSchema = object({
  name,
  dim: optional(dictionary(ratio)),
  zones: optional(dictionary(v.nullable(name))),
  find: optional(oneOf(["least power", "evenest"])),
  note: optional(text),
});

export const arrangementSchema = object({
  name,
  letter: optional(letter),
  layers: list(layerSchema, 0, 50, "layers"),
  settings: optional(list(settingSchema, 1, 20, "settings")),
  note: optional(text),
});

export type DimmerControl = v.InferOutput<typeof control>;
export type RowDocument = v.InferOutput<typeof rowSchema>;
export type GridDocument = v.InferOutput<typeof gridSchema>;
export type PlaceDocument = v.InferOutput<typeof placeSchema>;
export type LayerDocument = v.InferOutput<typeof layerSchema>;
export type SettingDocument = v.InferOutput<typeof settingSchema>;
export type ArrangementDocument = v.InferOutput<typeof arrangementSchema>;
