/**
 * A luminaire as an LM-63 file of its own: what the scene calculates with, whatever it was read or built from.
 *
 * Written as absolute data of the 2002 edition, which every reader of EXT_lights_ies must take: candela as they are,
 * multiplier 1. Error: that of the writer, ≤ 5e-10 of each intensity.
 */

import { EVIDENCE } from "../luminaire/evidence.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { writeLm63 } from "../photometry/writers/lm63-writer.ts";

/** The file's text, ASCII; undefined where a value cannot be written. */
export function luminaireLm63({
  name,
  origin,
  evidence,
  distribution,
  emission,
  watts,
}: Luminaire): string | undefined {
  const written = writeLm63({
    format: "LM-63",
    edition: "2002",
    distribution,
    opening: emission.opening,
    absolute: true,
    ...(watts === undefined ? {} : { watts }),
    lampSets: [],
    lampSet: 0,
    labels: [
      { key: "LUMINAIRE", value: name },
      { key: "OTHER", value: `${EVIDENCE[evidence].words}: ${origin}` },
    ],
    description: name,
  });
  return written.ok ? written.value : undefined;
}
