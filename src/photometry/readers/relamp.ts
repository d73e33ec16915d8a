/**
 * Reading a relative file with another lamp flux than its own: every intensity scales by new / old flux.
 */

import type { SourceText } from "./source-text.ts";

export interface Relamping {
  readonly absolute: boolean;
  /** Rated flux of all lamps in the file (lm); undefined when it states none. */
  readonly ownFlux: number | undefined;
  /** What the caller asks for (lm). */
  readonly wanted: number | undefined;
  /** Offset to point at. */
  readonly at: number;
}

/** The factor on every intensity, 1 when nothing is asked; undefined after recording an error. */
export function relampFactor(
  { absolute, ownFlux, wanted, at }: Relamping,
  source: SourceText,
): number | undefined {
  if (wanted === undefined) return 1;
  if (!Number.isFinite(wanted) || wanted <= 0)
    return source.error(at, "relamp-flux", "The flux to read the file with is not usable.", {
      expected: "a positive number of lumens",
      received: String(wanted),
    });
  if (absolute)
    return source.error(
      at,
      "relamp-absolute",
      "The file is absolute: its light belongs to the luminaire measured.",
      {
        expected: "no flux of its own for this luminaire",
        received: `${wanted} lm`,
      },
    );
  if (ownFlux === undefined)
    return source.error(
      at,
      "relamp-unknown",
      "The file states no lamp flux, so another one cannot replace it.",
    );
  return wanted / ownFlux;
}
