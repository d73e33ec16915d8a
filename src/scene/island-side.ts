/** A side of the island's top, with axes of its own: u along it from the lower end, v from its edge inwards (m). */

import type { Vec2 } from "../geometry/vector.ts";
import type { Island } from "./scene.ts";

/** By where it lies in the island's own axes. */
export type IslandSide = "x-" | "x+" | "y-" | "y+";

export interface SideAxes {
  /** How long the side is, and how far it is to the opposite one. */
  readonly along: number;
  readonly across: number;
  /** In the island's own axes. */
  at(u: number, v: number): Vec2;
}

export function sideAxes({ length, width }: Pick<Island, "length" | "width">, side: IslandSide): SideAxes {
  const isLong = side[0] === "y";
  const [along, across] = isLong ? [length, width] : [width, length];
  return {
    along,
    across,
    at: (u, v) => {
      const w = side[1] === "-" ? v : across - v;
      return isLong ? [u, w] : [w, u];
    },
  };
}
