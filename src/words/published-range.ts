/** How far published figures for one surface are apart, each as its source states it. */

import { PUBLISHED_TARGETS, type PublishedTarget } from "../assessment/targets-published.ts";
import { formatIlluminance, type IlluminanceUnit } from "../units/illuminance-text.ts";

/** `from 150 to 1000 lx`; in foot-candles `from 14 fc (150 lx in the source) to 93 fc (100 fc in the source)`. */
export function publishedRangeWords(surface: PublishedTarget["surface"], unit: IlluminanceUnit): string {
  const asked = PUBLISHED_TARGETS.filter((target) => target.surface === surface)
    .map(({ requirements: [average] }) => average)
    .sort((a, b) => a.value - b.value);
  const [least, greatest] = [asked[0], asked[asked.length - 1]].map(({ value, footcandles }) => {
    const source = footcandles === undefined ? `${value} lx` : `${footcandles} fc`;
    return `${formatIlluminance(value, unit)}${unit === "fc" ? ` (${source} in the source)` : ""}`;
  });
  return unit === "lx" ? `from ${asked[0].value} to ${greatest}` : `from ${least} to ${greatest}`;
}
