/** What clashes, on a plan of the top: a ring about each luminaire that is on hold, and its tag. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { line, type Mark, text } from "./drawing.ts";
import { islandAxes, placeOf } from "./island-axes.ts";
import type { PlanFrame } from "./plan-objects.ts";
import type { SheetScale } from "./sheet-scale.ts";

/** Radius of the ring and height of its word (drawing units). */
const RADIUS = 11;
const SIZE = 11;
const AROUND = 24;

/** Tags of the boxes that something clashes with. */
export function heldTags(clashes: readonly Clash[]): ReadonlySet<string> {
  return new Set(clashes.flatMap(({ between }) => between));
}

export function clashMarks(
  scene: Scene,
  clashes: readonly Clash[],
  scale: SheetScale,
  frame: PlanFrame,
): Mark[] {
  const held = heldTags(clashes);
  const axes = islandAxes(scene);
  return ceilingBoxes(scene).flatMap(({ tag, placed }): Mark[] => {
    if (!held.has(tag)) return [];
    const { along, across } = placeOf(axes, placed.frame.origin);
    const [x, y] = [scale.x(along), frame.y(across)];
    if (x < scale.left - RADIUS || x > scale.right + RADIUS || y < RADIUS || y > frame.height - RADIUS)
      return [];
    const ring = Array.from({ length: AROUND }, (_, k): Vec2 => {
      const angle = (2 * Math.PI * k) / AROUND;
      return [x + RADIUS * Math.cos(angle), y + RADIUS * Math.sin(angle)];
    });
    return [
      line(ring, "clash", "short", 1.5, { closed: true }),
      text([x, y - RADIUS - 3], `HOLD ${tag}`, "clash", {
        ink: "short",
        ground: "paper",
        size: SIZE,
        anchor: "middle",
        strong: true,
      }),
    ];
  });
}
