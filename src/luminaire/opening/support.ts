/**
 * How far an opening reaches along a direction: its support function. Apart from the shapes' own files, since drawings and the first
 * light of a page ask for extents alone. An extent of zero leaves the flatter shape's own formula.
 */

import type { LuminousOpening } from "../../photometry/luminous-opening.ts";

/** Half the extent (m) along a unit vector in the opening's frame. */
export function openingSupport(
  { shape, length, width, height }: LuminousOpening,
  x: number,
  y: number,
  z: number,
): number {
  const [a, b, c] = [length * Math.abs(x), width * Math.abs(y), height * Math.abs(z)].map((full) => full / 2);
  switch (shape) {
    case "point":
      return 0;
    case "rectangle":
    case "box":
      return a + b + c;
    case "cylinder":
      return Math.hypot(a, b) + c;
    case "cylinder along length":
      return a + Math.hypot(b, c);
    case "cylinder along width":
      return b + Math.hypot(a, c);
    default:
      return Math.hypot(a, b, c);
  }
}
