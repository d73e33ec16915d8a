/**
 * The luminous opening from sides as EULUMDAT gives them: `length` lies along C90–C270, `width` along C0–C180 (0: round, `length` is the
 * diameter); of the four side heights the largest counts. They swap into `LuminousOpening`.
 */

import { type LuminousOpening, POINT_OPENING } from "../luminous-opening.ts";

const MILLIMETRES_PER_METRE = 1000;
/** A luminous area with one side of zero is a line; it still needs an area to leave from (m). */
const THINNEST = 0.001;

/** @param sides mm @param heights mm, in C0, C90, C180, C270 */
export function openingOfSides(
  sides: readonly [length: number, width: number],
  heights: readonly number[],
): LuminousOpening {
  const [along90, along0] = sides.map((side) => side / MILLIMETRES_PER_METRE);
  const height = Math.max(0, ...heights) / MILLIMETRES_PER_METRE;
  if (along90 === 0 && along0 === 0 && height === 0) return POINT_OPENING;
  if (along0 === 0 && along90 > 0)
    return { shape: height === 0 ? "disc" : "cylinder", length: along90, width: along90, height };
  return {
    shape: height === 0 ? "rectangle" : "box",
    length: Math.max(along0, THINNEST),
    width: Math.max(along90, THINNEST),
    height,
  };
}
