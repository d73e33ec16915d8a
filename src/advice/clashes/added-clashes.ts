/** What clashes in one scene and did not, or by less, in another of the same layers: a box moved, a luminaire exchanged. */

import type { Clash } from "./clash.ts";

/** Overlaps nearer to one another than this (m) are the same. */
const SAME = 1e-3;

/** @param before of the scene as planned, named by the same tags */
export function addedClashes(before: readonly Clash[], after: readonly Clash[]): readonly Clash[] {
  const key = ({ kind, between }: Clash): string => [kind, ...between].join("\n");
  const clearances = new Map(before.map((clash) => [key(clash), clash.clear]));
  return after.filter(
    (clash) => !(clash.clear > (clearances.get(key(clash)) ?? Number.POSITIVE_INFINITY) - SAME),
  );
}
