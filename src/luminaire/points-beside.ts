/** Stated points of suspension and feed that do not lie on the luminaire. */

import type { Vec2 } from "../geometry/vector.ts";
import type { Luminaire } from "./luminaire.ts";
import { planExtents } from "./plan-extent.ts";

/** A stated point that does not lie on what hangs from it. */
export interface PointBeside {
  readonly key: "suspensions" | "feed";
  /** Among the stated suspensions; 0 of the feed. */
  readonly index: number;
  readonly point: Vec2;
  /** So far beyond the edge in plan (m). */
  readonly by: number;
  /** Whether it would lie on it with x and y exchanged. */
  readonly isExchanged: boolean;
}

/** Farther beyond its edge (m) than a bracket reaches, a luminaire does not hang. */
export const BRACKET = 0.02;
/** What it hangs from may be wider than a luminaire, hardly by more (m), whatever its body: farther is another unit. */
export const FAR_BESIDE = 0.5;

/** Stated points of suspension and the feed that lie farther than `least` (m) beyond body and opening in plan. */
export function pointsBeside(luminaire: Luminaire, least: number): PointBeside[] {
  const { suspensions = [], feed } = luminaire;
  const [along, across] = planExtents(luminaire);
  const beyond = (x: number, y: number): number =>
    Math.max(Math.abs(x) - along / 2, Math.abs(y) - across / 2);
  const beside = (key: PointBeside["key"], points: readonly Vec2[]): PointBeside[] =>
    points
      .map((point, index) => {
        const [x, y] = point;
        return { key, index, point, by: beyond(x, y), isExchanged: beyond(y, x) <= least };
      })
      .filter(({ by }) => by > least);
  return [...beside("suspensions", suspensions), ...beside("feed", feed === undefined ? [] : [feed])];
}

/** The first suspension and the feed of those; none of a key of which a point lies farther than `most` (m) beyond. */
export function firstBeside(
  luminaire: Luminaire,
  least: number,
  most = Number.POSITIVE_INFINITY,
): PointBeside[] {
  const found = pointsBeside(luminaire, least);
  return found.filter(
    ({ key }, i) =>
      found.findIndex((each) => each.key === key) === i &&
      !found.some((each) => each.key === key && each.by > most),
  );
}
