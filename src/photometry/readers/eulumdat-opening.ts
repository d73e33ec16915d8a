/**
 * The luminous opening from sides as EULUMDAT gives them: `length` lies along C90–C270, `width` along C0–C180 (0: round, `length` is the
 * diameter); of the four side heights the largest counts. They swap into `LuminousOpening`.
 */

import { type LuminousOpening, uprightOpening } from "../luminous-opening.ts";

const MILLIMETRES_PER_METRE = 1000;

/** @param sides mm @param heights mm, in C0, C90, C180, C270 */
export function openingOfSides(
  sides: readonly [length: number, width: number],
  heights: readonly number[],
): LuminousOpening {
  const [along90, along0] = sides.map((side) => side / MILLIMETRES_PER_METRE);
  const height = Math.max(0, ...heights) / MILLIMETRES_PER_METRE;
  return uprightOpening(along0 === 0 && along90 > 0, along0, along90, height);
}
