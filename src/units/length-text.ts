/** Lengths in words of a unit: metric, or feet and inches with fractions. */

import { METRES_PER_INCH } from "./quantities.ts";

export type LengthUnit = "mm" | "m" | "ft-in";

/** The step a length is rounded to in text (m): 1 mm, 10 mm, or one part of an inch. */
export function lengthStep(unit: LengthUnit, denominator = 8): number {
  return unit === "ft-in" ? METRES_PER_INCH / denominator : unit === "mm" ? 0.001 : 0.01;
}

/** A length (m) to the unit's step. */
export function roundTo(metres: number, unit: LengthUnit): number {
  const step = lengthStep(unit);
  return Math.round(metres / step) * step;
}

/** A length (m) in words of a unit: `2400 mm`, `2.40 m`, `7'-10 1/2"`. Feet-inches are rounded to the nearest
 * 1/`denominator` inch (a power of two up to 64). */
export function formatLength(metres: number, unit: LengthUnit, denominator = 8): string {
  if (!Number.isFinite(metres)) return "not a length";
  if (unit === "mm") return `${withoutMinusZero(Math.round(metres * 1000))} mm`;
  if (unit === "m") return `${withoutMinusZero(Math.round(metres * 100) / 100).toFixed(2)} m`;
  return formatInchParts(Math.round((metres / METRES_PER_INCH) * denominator), denominator);
}

function formatInchParts(parts: number, denominator: number): string {
  const size = Math.abs(parts);
  const sign = parts < 0 ? "-" : "";
  const inches = Math.floor(size / denominator);
  let numerator = size - inches * denominator;
  let fraction = "";
  if (numerator > 0) {
    let divisor = denominator;
    while (numerator % 2 === 0) {
      numerator /= 2;
      divisor /= 2;
    }
    fraction = `${numerator}/${divisor}`;
  }
  const feet = Math.floor(inches / 12);
  const rest = inches - feet * 12;
  const whole = rest === 0 && fraction !== "" ? "" : `${rest}`;
  const words = [whole, fraction].filter((s) => s !== "").join(" ");
  return feet === 0 ? `${sign}${words}"` : `${sign}${feet}'-${whole === "" ? `0 ${fraction}` : words}"`;
}

function withoutMinusZero(value: number): number {
  return value === 0 ? 0 : value;
}

/** Running dimensions of a string of positions from one datum (m): each is rounded once, and every gap is the
 * difference of two rounded positions, so that printed parts sum to printed totals. */
export interface RunningDimensions {
  /** Rounded distances from the datum (m). */
  readonly positions: readonly number[];
  /** Rounded distances between neighbours, one fewer (m). */
  readonly gaps: readonly number[];
  readonly gapTexts: readonly string[];
}

/** Positions (m, from the datum, rising) each rounded once to the unit's step, and gaps that sum to them. */
export function runningDimensions(
  positions: readonly number[],
  unit: LengthUnit,
  denominator = 8,
): RunningDimensions {
  const step = lengthStep(unit, denominator);
  const steps = positions.map((p) => Math.round(p / step));
  const gapSteps = steps.slice(1).map((s, i) => s - steps[i]);
  const text = (n: number) => formatLength(n * step, unit, denominator);
  return {
    positions: steps.map((n) => n * step),
    gaps: gapSteps.map((n) => n * step),
    gapTexts: gapSteps.map(text),
  };
}
