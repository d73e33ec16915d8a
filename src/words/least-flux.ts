/** How far the flux of a luminaire type may fall before a target that it meets is met no longer. */

import type { Reliance } from "../app/set-out/flux-margin.ts";
import { printable } from "../diagnostics/printable.ts";

/** `With less than 690 lm each (99 % of 700 lm), return no longer surely has the light asked of it.` Rounded down, so
 * that what it says of less is true. Absent where no met target rests on this type alone. */
export function leastFluxSentence({ luminaire, least }: Reliance): string | undefined {
  if (least === undefined) return undefined;
  const asked = `${printable(least.zone, 60)} no longer surely has the light asked of it.`;
  const flux = Math.floor(least.flux);
  return least.share >= 0.995
    ? `It has no flux to spare: with less than ${flux} lm each, ${asked}`
    : `With less than ${flux} lm each (${Math.round(least.share * 100)} % of ${luminaire.flux.toFixed(0)} lm), ${asked}`;
}
