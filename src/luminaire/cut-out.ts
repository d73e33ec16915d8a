/** The hole in the ceiling for what is recessed, as the study states it. */

import { ellipse, rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { ProductFacts } from "./product-facts.ts";

export type CutOut = NonNullable<ProductFacts["cutOut"]>;

/** Its extents (m) along local x and y. */
export function cutOutSides(cutOut: CutOut): Vec2 {
  return typeof cutOut === "number" ? [cutOut, cutOut] : cutOut;
}

/** Its outline about its middle (m, local x and y). */
export function cutOutOutline(cutOut: CutOut): Vec2[] {
  const [x, y] = cutOutSides(cutOut);
  return typeof cutOut === "number" ? ellipse(0, 0, x / 2) : rectangleBetween(-x / 2, -y / 2, x / 2, y / 2);
}
