/** The vertical axis of a profile: from zero to a round figure above everything shown, in the unit shown. */

import { roundAbove, STEPS } from "../numerics/round-above.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";
import { LUX_PER_FOOTCANDLE } from "../units/quantities.ts";
import type { Wording } from "../words/wording.ts";

export interface ProfileFrame {
  readonly height: number;
  /** Highest value of the axis (lx). */
  readonly top: number;
  y(lux: number): number;
}

/** Vertical scale from zero to the first round figure above everything shown, in the unit shown. `held` (lx)
 * keeps an axis from jumping while a hand moves the light. */
export function profileFrame(
  highest: number,
  unit: IlluminanceUnit = "lx",
  height = 170,
  held?: number,
): ProfileFrame {
  const step = niceStep(Math.max(highest * 1.06, 20) / 4, unit === "fc");
  const own = Math.ceil((highest * 1.06) / step) * step;
  const top = held !== undefined && held >= highest ? held : own;
  const head = 14;
  const foot = 12;
  return { height, top, y: (lux) => height - foot - (lux / top) * (height - head - foot) };
}

/** A step of the axis, round in the unit shown (lx). */
export function niceStep(raw: number, footcandles: boolean): number {
  const unit = footcandles ? LUX_PER_FOOTCANDLE : 1;
  return roundAbove((raw / unit) * 0.999, STEPS) * unit;
}

export function axisFigure(value: number, isTop: boolean, words: Wording): string {
  const figure = value === 0 ? "0" : words.lightFigure(value);
  return isTop ? `${figure} ${words.illuminanceUnit}` : figure;
}
