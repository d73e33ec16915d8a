/** What would lessen an uncertainty, from the input quantity that contributes most. */

import type { Driver } from "../assessment.ts";

const ADVICE: Readonly<Record<Driver["kind"], string | undefined>> = {
  level: "a measured file for it would settle it",
  lobe: "a measured file for it would settle it",
  alignment: "only a reading on site would settle it",
  flux: "a measured file would settle it",
  maintenance: "an agreed cleaning and lamp life would settle it",
  reflectance: "the finish's own reflectance would settle it",
  position: "closer setting out would settle it",
  "hung angle": "a spirit level at hanging would settle it",
  height: "a laser line at hanging would settle it",
  "unit scatter": "luminaires of one batch would settle it",
  dimming: "a measured dimmer level would settle it",
  calculation: "the full calculation would settle it",
  rest: undefined,
};

/** `mostly the flux of dome (62 %): a measured file would settle it`; `spread over many inputs` when none leads. */
export function uncertaintyAdvice(drivers: readonly Driver[]): string {
  const [first] = drivers;
  if (first === undefined || first.kind === "rest") return "spread over many inputs";
  const measured = (first.kind === "level" || first.kind === "lobe") && first.evidence === "A";
  const lamps =
    first.kind === "flux" || (first.kind === "level" && (first.evidence === "B" || first.evidence === "G"));
  const way = measured
    ? "only a reading on site would settle it"
    : lamps && first.evidence !== undefined && "BG".includes(first.evidence)
      ? "the measured flux of the lamp fitted would settle it"
      : ADVICE[first.kind];
  const share = `${Math.round(100 * first.share)} %`;
  const lead =
    first.kind === "maintenance"
      ? `mostly how much light dust and ageing take (${share} of it)`
      : `mostly the ${first.input} (${share})`;
  return way === undefined ? lead : `${lead}: ${way}`;
}
