/** What is left with a layer off, in words. Names come from studies; whoever shows them escapes. */

import type { LayerOffAssessment } from "../assessment/assessment.ts";
import { formatIlluminance, type IlluminanceUnit } from "../units/illuminance-text.ts";
import { zoneSentence } from "./arrangement-sentences.ts";
import { VERDICT_MARK } from "./zone-text.ts";

/** `Without pendants (ambient alone): ✕ prep 120 lx, ✓ eating 90 lx.` */
export function layerOffSentence(off: LayerOffAssessment, unit: IlluminanceUnit): string {
  const zones = off.zones.map(
    ({ name, verdict, statistics }) =>
      `${VERDICT_MARK[verdict]} ${name} ${formatIlluminance(statistics.average, unit)}`,
  );
  return `${layerOffTitle(off)}: ${zones.join(", ")}.`;
}

/** `Without pendants (ambient alone)` */
export function layerOffTitle({ layer, left }: Pick<LayerOffAssessment, "layer" | "left">): string {
  return `Without ${layer} (${left.length === 1 ? `${left[0]} alone` : left.join(" and ")})`;
}

/** Each zone with its mark in a sentence: band, evenness, what is asked. */
export function layerOffZones({ zones }: LayerOffAssessment, unit: IlluminanceUnit): readonly string[] {
  return zones.map((zone) => `${VERDICT_MARK[zone.verdict]} ${zoneSentence(zone, unit)}`);
}
