/** How far a judgement misses what it asks: 1 − value over target, of the figure that is furthest from it. */

import type { ZoneAssessment } from "./assessment.ts";
import { isMet } from "./verdict.ts";

/** Of figures that are not met, 0…1; 0 where none is missed. */
export function shortfallOf(zones: readonly Pick<ZoneAssessment, "checks">[]): number {
  const missed = zones.flatMap(({ checks }) =>
    checks
      .filter(({ verdict }) => !isMet(verdict))
      .map(({ value, target }) => 1 - (value > 0 ? value : 0) / target),
  );
  return Math.max(0, ...missed);
}
