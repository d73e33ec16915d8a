/** Where the boxes of a scene are: what hangs has its box where it is fed, which of a long pendant is not its middle. */

import type { Vec2 } from "../geometry/vector.ts";
import { pendantBoxAt } from "../luminaire/suspension-points.ts";
import { type CeilingBox, ceilingBoxes } from "./ceiling-boxes.ts";
import type { Scene } from "./scene.ts";

export interface BoxInPlace extends CeilingBox {
  /** Where the box is on the plan (m, room): of a pendant over its feed, else over its middle. */
  readonly at: Vec2;
}

export function boxesInPlace(scene: Scene): BoxInPlace[] {
  return ceilingBoxes(scene).map((box) => {
    const [x, y] = box.placed.frame.origin;
    return { ...box, at: box.kind === "pendant" ? pendantBoxAt(box.placed) : [x, y] };
  });
}
