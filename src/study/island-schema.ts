/** The island, as the study writes it; `keys/island-keys.ts` says what each key means. */

import * as v from "valibot";
import {
  angle,
  either,
  flag,
  lengthFromZero,
  lengthWithin,
  list,
  name,
  object,
  oneOf,
  point2,
  polygon,
  positiveLength,
  reflectance,
  size2,
  text,
  wholeNumber,
} from "./study-fields.ts";

const optional = v.optional;

const side = oneOf(["x-", "x+", "y-", "y+"]);

export const zoneSchema = object({
  name,
  from: optional(point2),
  size: optional(size2),
  polygon: optional(polygon),
  height: optional(positiveLength),
  target: optional(v.nullable(name)),
});

const basinDepth = either((input) => typeof input === "boolean", flag, positiveLength);

export const islandSchema = object({
  centre: optional(point2),
  length: optional(positiveLength),
  width: optional(positiveLength),
  height: optional(lengthWithin({ above: 0.05, to: 3 })),
  turn: optional(angle),
  outline: optional(polygon),
  levels: optional(
    list(
      object({
        name: optional(name),
        from: optional(point2),
        size: optional(size2),
        polygon: optional(polygon),
        height: positiveLength,
      }),
      0,
      20,
      "levels",
    ),
  ),
  overhang: optional(object({ side, depth: lengthFromZero })),
  reflectance: optional(object({ top: optional(reflectance), sides: optional(reflectance) })),
  finish: optional(oneOf(["matt", "satin", "polished"])),
  colour: optional(text),
  zones: optional(list(zoneSchema, 0, 100, "zones")),
  hob: optional(object({ from: point2, size: size2 })),
  sink: optional(object({ from: point2, size: size2, basin: optional(basinDepth) })),
  seats: optional(
    object({ side: optional(side), count: optional(wholeNumber(1, 40)), width: optional(positiveLength) }),
  ),
});

export type IslandDocument = v.InferOutput<typeof islandSchema>;
