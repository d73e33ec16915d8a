/** How far a luminaire reaches across, and what it looks like from below: of its opening, or of body and opening where it stands in a
 * row. */

import { ellipse, rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";
import type { Luminaire } from "./luminaire.ts";
import { openingSupport } from "./opening/support.ts";

/** Half the extent (m) of an opening along the room's x (0), y (1) or z (2); `rotation` column-major, local to room. */
export function extentAlong(opening: LuminousOpening, rotation: Float64Array, axis: 0 | 1 | 2): number {
  return openingSupport(opening, rotation[axis], rotation[3 + axis], rotation[6 + axis]);
}

/** Extents (m) along local x and y: the wider of body and opening each way. */
export function planExtents(luminaire: Luminaire): readonly [along: number, across: number] {
  return [widthAlong(luminaire, 0), widthAlong(luminaire, Math.PI / 2)];
}

/** Full extent (m) along a plan direction at `angle` (rad) from local x: rim to rim in a row. */
export function widthAlong({ emission, body }: Luminaire, angle: number): number {
  const width = 2 * openingSupport(emission.opening, Math.cos(angle), Math.sin(angle), 0);
  return Math.max(width, bodyWidth(body, angle));
}

/** Lengths nearer to one another than this (m) are the same: a thousandth of what a hand can measure, far beyond rounding. */
const SAME = 1e-6;

/** Its outline from below: that of the body, or of the opening where that reaches beyond it. A point is a circle. */
export function planForm(luminaire: Luminaire): "circle" | "ellipse" | "rectangle" {
  const [along, across] = planExtents(luminaire);
  const { body, emission } = luminaire;
  const [length, width] = body === undefined ? [-1, -1] : planSides(body);
  // Width at 45 degrees: hypot(a, b) / sqrt(2) of an ellipse, (a + b) / sqrt(2) of a rectangle.
  const isRound =
    length >= along - SAME && width >= across - SAME
      ? body?.profile !== "box"
      : Math.abs(
          2 * openingSupport(emission.opening, Math.SQRT1_2, Math.SQRT1_2, 0) -
            Math.hypot(along, across) * Math.SQRT1_2,
        ) <= SAME;
  return !isRound ? "rectangle" : Math.abs(along - across) <= SAME ? "circle" : "ellipse";
}

/** The outline of that form about its middle (m, local x and y), each way at least as wide as `least`. */
export function outlineBelow(luminaire: Luminaire, least = 0): Vec2[] {
  const [x, y] = planExtents(luminaire).map((extent) => Math.max(extent, least) / 2);
  return planForm(luminaire) === "rectangle" ? rectangleBetween(-x, -y, x, y) : ellipse(0, 0, x, y);
}

/** Extents (m) of a body along local x and y. */
export function planSides({
  profile,
  diameter,
  length = diameter,
  width = diameter,
}: Body): readonly [along: number, across: number] {
  return profile === "box" ? [length, width] : [diameter, diameter];
}

function bodyWidth(body: Body | undefined, angle: number): number {
  if (body === undefined) return 0;
  if (body.profile !== "box") return body.diameter;
  const [length, width] = planSides(body);
  return Math.abs(Math.cos(angle)) * length + Math.abs(Math.sin(angle)) * width;
}
