/** Power in words: of all, and over the floor. */

import type { LengthUnit } from "./length-text.ts";
import { SQUARE_FEET_PER_SQUARE_METRE } from "./quantities.ts";

/** `14`; `≥ 14` where some luminaires, `unknown` of them, did not state their watts: the rest is the least it can be. */
export function powerFigure(
  watts: number,
  unknown: number,
  least: "≥" | "at least" = "≥",
  decimals = 0,
): string {
  return `${unknown > 0 ? `${least} ` : ""}${Number(watts.toFixed(decimals))}`;
}

/** Power over area in the unit that goes with lengths: `["3.3", "W/m²"]`, `["0.31", "W/ft²"]`. */
export function powerDensity(
  wattsPerSquareMetre: number,
  unit: LengthUnit,
): readonly [figure: string, unit: "W/m²" | "W/ft²"] {
  return unit === "ft-in"
    ? [(wattsPerSquareMetre / SQUARE_FEET_PER_SQUARE_METRE).toFixed(2), "W/ft²"]
    : [wattsPerSquareMetre.toFixed(1), "W/m²"];
}
