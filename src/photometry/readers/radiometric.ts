/**
 * Refusing files whose numbers are not light: ultraviolet and other radiometric or photon measurements are
 * filed in the photometric formats, with watts or photons where candela belong. Reporting lux from them would be
 * a lie that can hurt, since such lamps are hazards.
 */

import type { Label } from "./lm63-header.ts";
import { quote, type SourceText } from "./source-text.ts";

/** Blanks are bounded, so that no text makes a pattern run long. */
const SIGNS: readonly RegExp[] = [
  /[mµμu]?W {0,3}(?:\/|per) {0,3}(?:sr\b|steradian)/i,
  /[µμu]mol.{0,8}sr\b/i,
  /radiometric {1,3}units?/i,
  /candelas? {0,3}(?:->|=) {0,3}m?W/i,
];

/** Records an error and returns true when the labels say the intensities are not luminous. */
export function refuseRadiometric(labels: readonly Label[], source: SourceText): boolean {
  const sign = labels.map(radiometricSign).find((found) => found !== undefined);
  if (sign === undefined) return false;
  const at = Math.max(0, source.text.indexOf(sign));
  source.error(
    at,
    "radiometric-file",
    "The file is radiometric: its intensities are not luminous, so no illuminance follows from it.",
    {
      expected: "luminous intensity in candela",
      received: quote(sign),
    },
  );
  return true;
}

/** The words that give a radiometric file away, or undefined. */
function radiometricSign({ key, value }: Label): string | undefined {
  if (/RADIATION_?TYPE$/.test(key)) return /\bUV\w*|ultraviolet|infrared|\bIR\b/i.exec(value)?.[0];
  return SIGNS.map((sign) => sign.exec(value)?.[0]).find((found) => found !== undefined);
}
