/** Room, bodies that stand in it and people, as the study writes them; `keys/room-keys.ts` says what each key means. */

import * as v from "valibot";
import {
  angle,
  angleWithin,
  either,
  lengthFromZero,
  lengthWithin,
  list,
  name,
  numberWithin,
  object,
  oneOf,
  point2,
  point3,
  polygon,
  positiveLength,
  ratio,
  reflectance,
  size2,
  text,
  tupleMessage,
  wholeNumber,
} from "./study-fields.ts";

const optional = v.optional;

const wallReflectances = v.strictTuple(
  [reflectance, reflectance, reflectance, reflectance],
  tupleMessage("one reflectance, or four: [wall 0, wall 1, wall 2, wall 3]"),
);
/** One for all walls, or one each. */
const walls = either(Array.isArray, wallReflectances, reflectance);

export const roomSchema = object({
  length: positiveLength,
  width: positiveLength,
  ceilingHeight: positiveLength,
  ceilingVoid: optional(lengthFromZero),
  ceiling: optional(object({ slope: optional(angleWithin({ from: 0, to: 80 })), towards: optional(angle) })),
  reflectance: optional(
    object({ ceiling: optional(reflectance), walls: optional(walls), floor: optional(reflectance) }),
  ),
  openings: optional(
    list(
      object({
        name: optional(name),
        wall: wholeNumber(0, 3),
        from: lengthFromZero,
        length: positiveLength,
        sill: optional(lengthFromZero),
        height: positiveLength,
        reflectance: optional(reflectance),
      }),
      0,
      100,
      "openings",
    ),
  ),
  doors: optional(
    list(
      object({
        name: optional(name),
        wall: wholeNumber(0, 3),
        from: lengthFromZero,
        width: positiveLength,
        height: optional(positiveLength),
        swing: optional(oneOf(["in-left", "in-right", "out-left", "out-right", "none"])),
      }),
      0,
      50,
      "doors",
    ),
  ),
  joists: optional(
    object({
      along: oneOf(["x", "y"]),
      spacing: positiveLength,
      first: lengthFromZero,
      width: optional(positiveLength),
    }),
  ),
  ceilingBox: optional(positiveLength),
  keepOuts: optional(
    list(
      object({
        name: optional(name),
        from: optional(point2),
        size: optional(size2),
        polygon: optional(polygon),
      }),
      0,
      200,
      "keep-outs",
    ),
  ),
});

export const bodySchema = object({
  name,
  box: v.strictTuple([point3, point3], tupleMessage("[[x0, y0, z0], [x1, y1, z1]]")),
  turn: optional(angle),
  reflectance: optional(reflectance),
  transmittance: optional(ratio),
  finish: optional(text),
  colour: optional(text),
});

export const personSchema = object({
  name,
  stature: optional(lengthWithin({ from: 0.8, to: 2.5 })),
  at: point2,
  facing: optional(angle),
  posture: optional(oneOf(["standing", "leaning", "seated"])),
  seat: optional(lengthWithin({ from: 0.2, to: 1.2 })),
  age: optional(numberWithin("age", " years", { from: 0, to: 130 })),
  hand: optional(oneOf(["left", "right"])),
});

export type RoomDocument = v.InferOutput<typeof roomSchema>;
export type BodyDocument = v.InferOutput<typeof bodySchema>;
export type PersonDocument = v.InferOutput<typeof personSchema>;
