/**
 * Refusing files whose numbers are not light: ultraviolet and other radiometric or photon measurements are
 * filed in the photometric formats, with watts or photons where candela belong. Reporting lux from them would be
 * a lie that can hurt, since such lamps are hazards.
 */

import type { Label } from "./lm63-header.ts";
import { quote, type SourceText } from "./source-text.ts";

const SIGNS: readonly RegExp[] = [
  /[mµμu]?W\s*(?:\/|per)\s*(?:sr\b|steradian)/i,
  /[µμu]mol\s*(?:\/|per|\s)\s*s/i,
  /radiometric\s+units?/i,
  /candelas?\s*(?:->|=)\s*m?W/i,
];

/** Records an error and returns true when the labels say the intensities are not luminous. */
export function refuseRadiometric(labels: readonly Label[], source: SourceText): boolean {
  const sign = labels.find(isRadiometric);
  if (sign === undefined) return false;
  const at = Math.max(0, source.text.indexOf(sign.value.split("\n")[0]));
  source.error(
    at,
    "radiometric-file",
    "The file is radiometric: its intensities are not luminous, so no illuminance follows from it.",
    {
      expected: "luminous intensity in candela",
      received: quote(`${sign.key === "" ? "" : `[${sign.key}] `}${sign.value}`),
    },
  );
  return true;
}

function isRadiometric({ key, value }: Label): boolean {
  if (/RADIATION_?TYPE$/.test(key)) return /\bUV|ultraviolet|infrared|\bIR\b/i.test(value);
  return SIGNS.some((sign) => sign.test(value));
}
