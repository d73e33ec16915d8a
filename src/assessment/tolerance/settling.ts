/** What would settle a doubt, from the input that drives it most. */

import type { Driver } from "../assessment.ts";

const WAYS: readonly (readonly [RegExp, string])[] = [
  [/^photometry of .*\((measured)\)$/, "only a reading on site would settle it"],
  [/^photometry of /, "a measured file for it would settle it"],
  [/^flux of /, "a measured file would settle it"],
  [/^maintenance$/, "an agreed cleaning and lamp life would settle it"],
  [/^reflectance of /, "the finish's own reflectance would settle it"],
  [/^positions in plan$/, "closer setting out would settle it"],
  [/^hanging heights$/, "a laser line at hanging would settle it"],
  [/^unit scatter$/, "luminaires of one batch would settle it"],
  [/^dimming of /, "a measured dimmer level would settle it"],
];

/** `mostly the flux of dome (62 %): a measured file would settle it`; `spread over many inputs` when none leads. */
export function whatWouldSettle(drivers: readonly Driver[]): string {
  const [first] = drivers;
  if (first === undefined || first.input === "rest") return "spread over many inputs";
  const way = WAYS.find(([pattern]) => pattern.test(first.input))?.[1];
  const lead = `mostly the ${first.input} (${Math.round(100 * first.share)} %)`;
  return way === undefined ? lead : `${lead}: ${way}`;
}
