/**
 * Luminous opening and housing from sides as EULUMDAT gives them: `length` lies along C90–C270, `width` along C0–C180 (0: round, `length` is the
 * diameter); of the four side heights the largest counts. They swap into `LuminousOpening`.
 */

import type { Housing } from "../housing.ts";
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

/** No luminaire measures less across (m): a file in metres would state one. */
const LEAST_HOUSING = 0.005;

/** @param housing length or diameter, width (0 for round), height (mm); undefined where no luminaire measures so. */
export function housingOfSides(housing: readonly number[]): Housing | undefined {
  const [along90, along0, height] = housing.map((side) => side / MILLIMETRES_PER_METRE);
  const isRound = along0 === 0;
  const width = isRound ? along90 : along0;
  if (!(Math.min(along90, width) >= LEAST_HOUSING && height >= 0)) return undefined;
  return { isRound, length: width, width: along90, height };
}
