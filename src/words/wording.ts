/** How a drawing writes lengths and light: in the study's units, to the precision a person can use. */

import {
  formatIlluminance,
  formatIlluminanceValue,
  type IlluminanceUnit,
} from "../units/illuminance-text.ts";
import { formatLength, type LengthUnit } from "../units/length-text.ts";

export interface Wording {
  readonly lengthUnit: LengthUnit;
  readonly illuminanceUnit: IlluminanceUnit;
  /** A length (m) with its unit. */
  length(metres: number): string;
  /** An illuminance (lx) with its unit. */
  light(lux: number): string;
  /** The figure alone, for scales whose unit stands elsewhere. */
  lightFigure(lux: number): string;
}

export interface Display {
  readonly length: LengthUnit;
  readonly illuminance: IlluminanceUnit;
}

export const METRIC: Display = { length: "mm", illuminance: "lx" };

export function wording(display: Display = METRIC): Wording {
  return {
    lengthUnit: display.length,
    illuminanceUnit: display.illuminance,
    length: (metres) => formatLength(metres, display.length),
    light: (lux) => formatIlluminance(lux, display.illuminance),
    lightFigure: (lux) => formatIlluminanceValue(lux, display.illuminance),
  };
}
