/** Which colours the scale shows, and how high they stand in a height: for who lays out a sheet before the scale itself is there. */

import { scaleBands, scaleSteps } from "../../drawing/light-scale.ts";

/** Highest step shown (lx); brighter tops are rare. */
const HIGHEST = 3100;
/** Heights (px): of an upright colour at most and at least, of what stands under the colours. */
export const BAND = { most: 13, least: 6 } as const;
const KEY = 64;

export function bandsOf(unit: "lx" | "fc") {
  const steps = scaleSteps(unit).filter(({ level }) => level <= HIGHEST);
  return { steps, bands: scaleBands(unit).slice(0, steps.length + 1) };
}

/** Height of an upright colour (px) with which the scale and its key stand in a height, where that can be. */
export function bandWithin(height: number, unit: "lx" | "fc"): number {
  const own = Math.floor((height - KEY) / bandsOf(unit).bands.length);
  return Math.max(BAND.least, Math.min(BAND.most, own));
}
