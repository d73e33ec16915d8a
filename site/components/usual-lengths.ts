/**
 * Which lengths are usual in a field of the study: what decides whether a bare number can be meant in a unit. The study's own check takes
 * more; these bounds are wide on purpose; common practice, no source.
 */

import { type LengthRange, metresOf } from "../../src/app.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import type { Path } from "../store/pointer.ts";

/** Whole millimetres of it can be meant: thinner is a sheet, not a place or a size in a kitchen (m). */
const LEAST = 0.005;
/** Nothing a kitchen is in is larger (m). */
const MOST = 100;

/** By the keys that name the field, lists' numbers left out. */
const USUAL: readonly (readonly [keys: RegExp, range: LengthRange])[] = [
  [/^room (length|width)$/, { from: 1, to: MOST }],
  [/^room ceilingHeight$/, { from: 1.5, to: 30 }],
  [/^island (length|width)$/, { from: 0.2, to: 30 }],
  [/^island height$/, { from: 0.3, to: 2 }],
  [/row clearance$/, { from: 0.1, to: 10 }],
  [/row spacing$/, { from: 0.02, to: 30 }],
  [/stature$/, { from: 0.8, to: 2.5 }],
];

/** Any other length is at most as long as the room. */
export function usualLengths({ room }: Pick<RawStudy, "room">, path: Path): LengthRange {
  const keys = path.filter((step) => typeof step === "string" && !/^\d+$/.test(step)).join(" ");
  const named = USUAL.find(([pattern]) => pattern.test(keys));
  if (named !== undefined) return named[1];
  const sides = [room.length, room.width, room.ceilingHeight].map((side) => metresOf(side) ?? MOST);
  return { from: LEAST, to: Math.max(...sides) };
}
