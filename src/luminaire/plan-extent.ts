/** How far a luminaire reaches across: of its opening along any direction, of body and opening where it stands in a
 * row. */

import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";
import type { Luminaire } from "./luminaire.ts";
import { openingSupport } from "./opening/support.ts";

/** Half the extent (m) of an opening along the room's x (0), y (1) or z (2); `rotation` column-major, local to room. */
export function extentAlong(opening: LuminousOpening, rotation: Float64Array, axis: 0 | 1 | 2): number {
  return openingSupport(opening, rotation[axis], rotation[3 + axis], rotation[6 + axis]);
}

/** Extents (m) along local x and y: the wider of body and opening each way. */
export function planExtents({ emission, body }: Luminaire): readonly [along: number, across: number] {
  const { opening } = emission;
  return [
    Math.max(2 * openingSupport(opening, 1, 0, 0), bodyWidth(body, 0)),
    Math.max(2 * openingSupport(opening, 0, 1, 0), bodyWidth(body, Math.PI / 2)),
  ];
}

/** Full extent (m) along a plan direction at `angle` (rad) from local x: rim to rim in a row. */
export function widthAlong({ emission, body }: Luminaire, angle: number): number {
  const width = 2 * openingSupport(emission.opening, Math.cos(angle), Math.sin(angle), 0);
  return Math.max(width, bodyWidth(body, angle));
}

function bodyWidth(body: Body | undefined, angle: number): number {
  if (body === undefined) return 0;
  if (body.profile !== "box") return body.diameter;
  const length = body.length ?? body.diameter;
  const width = body.width ?? body.diameter;
  return Math.abs(Math.cos(angle)) * length + Math.abs(Math.sin(angle)) * width;
}
