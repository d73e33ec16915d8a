/** What shifting boxes as the ways out of their clashes say does to the light, told wherever the shift is. */

import type { Statistics } from "../assessment/assessment.ts";

/** `Shifted so, the whole top has 403 lx, evenness 0.59; as placed 405 lx, evenness 0.66.`
 * @param placed the whole top as it is placed @returns undefined where nothing is to be shifted */
export function shiftedWords(
  { shifted }: { readonly shifted?: Statistics },
  placed: { readonly statistics: Statistics } | undefined,
  lux: (value: number) => string,
): string | undefined {
  if (shifted === undefined || placed === undefined) return undefined;
  const said = ({ average, uniformity }: Statistics) => `${lux(average)}, evenness ${uniformity.toFixed(2)}`;
  return `Shifted so, the whole top has ${said(shifted)}; as placed ${said(placed.statistics)}.`;
}
