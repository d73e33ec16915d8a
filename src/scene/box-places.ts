/** Where the boxes of a scene are: what hangs has its box where it is fed, which of a long pendant is not its middle. */

import type { Vec2 } from "../geometry/vector.ts";
import { pendantBoxAt } from "../luminaire/suspension-points.ts";
import { METRES_PER_INCH } from "../units/quantities.ts";
import { type CeilingBox, ceilingBoxes } from "./ceiling-boxes.ts";
import type { RoomShape, Scene } from "./scene.ts";

/** Width of the usual ceiling box (m): 4 in, 102 mm; common practice, no source. */
export const BOX_WIDTH = 4 * METRES_PER_INCH;

/** Width of the boxes in the room's ceiling (m): as far as it is stated, else the usual one. */
export function boxWidth({ ceilingBox = BOX_WIDTH }: Pick<RoomShape, "ceilingBox">): number {
  return ceilingBox;
}

export interface BoxInPlace extends CeilingBox {
  /** Where the box is on the plan (m, room): of a pendant over its feed, else over its middle. */
  readonly at: Vec2;
  /** Of the box itself (m). */
  readonly width: number;
}

export function boxesInPlace(scene: Scene): BoxInPlace[] {
  const width = boxWidth(scene.room);
  return ceilingBoxes(scene).map((box) => {
    const [x, y] = box.placed.frame.origin;
    return { ...box, width, at: box.kind === "pendant" ? pendantBoxAt(box.placed) : [x, y] };
  });
}
