/**
 * Where no ceiling box may go: on a joist, or in a keep-out. Box: 4 in octagon, ±51 mm; joist 1 1/2 in wide where its
 * width is not given (common practice, no source). What carries the load is for licensed people and local codes.
 */

import { depthInside } from "../../geometry/polygon.ts";
import type { RoomShape } from "../../scene/scene.ts";

export const BOX_RADIUS = 0.0508;
const JOIST_WIDTH = 0.0381;

/** What a box at (x, y) meets, in words; undefined where it is clear. */
export function boxMeets({ joists, keepOuts }: RoomShape, x: number, y: number): string | undefined {
  if (joists !== undefined) {
    const across = joists.along === "x" ? y : x;
    const off = across - joists.first;
    // The first joist is the first: none stand before it.
    const nearest = Math.abs(off - Math.max(0, Math.round(off / joists.spacing)) * joists.spacing);
    if (nearest < (joists.width ?? JOIST_WIDTH) / 2 + BOX_RADIUS - 1e-9) return "a joist";
  }
  const kept = keepOuts?.find(({ outline }) => depthInside([x, y], outline) > -BOX_RADIUS);
  return kept === undefined ? undefined : kept.name;
}
