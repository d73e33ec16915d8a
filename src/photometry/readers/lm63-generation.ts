/**
 * LM-63-2019 file generation type: how the data came to be, in the digits of what earlier editions called the
 * ballast-lamp photometric factor or left for the future. It is never a multiplier.
 *
 *   1.abcde  a accredited laboratory, b interpolated angles, c flux scaled, d computer simulation, e undefined
 */

import type { FileGeneration } from "../photometry.ts";

/** Reads the number after rounding to its five decimals; undefined when it is none of the defined types. */
export function fileGeneration(value: number): FileGeneration | undefined {
  const code = value.toFixed(5);
  const digits = /^1\.([01])([01])([01])([01])([01])$/.exec(code);
  if (digits === null) return undefined;
  const [accredited, interpolated, scaled, simulated, undefinedSource] = digits
    .slice(1)
    .map((digit) => digit === "1");
  if (undefinedSource)
    return accredited || interpolated || scaled || simulated
      ? undefined
      : { code, source: "undefined", interpolated: false, scaled: false };
  if (simulated)
    return accredited || interpolated || scaled
      ? undefined
      : { code, source: "simulation", interpolated: false, scaled: false };
  return { code, source: accredited ? "accredited laboratory" : "laboratory", interpolated, scaled };
}
