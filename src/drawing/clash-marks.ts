/** What clashes, on a plan of the top: a ring about each luminaire that is on hold, and its tag. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { ceilingBoxes, shortTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { type Box, line, type Mark, overlaps, text, textBox } from "./drawing.ts";
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

/** @param taken boxes of words that stand there already; tags keep clear of them where there is room beside the ring */
export function clashMarks(
  scene: Scene,
  clashes: readonly Clash[],
  scale: SheetScale,
  frame: PlanFrame,
  taken: readonly Box[] = [],
): Mark[] {
  const held = heldTags(clashes);
  const axes = islandAxes(scene);
  const places = ceilingBoxes(scene).flatMap(({ tag, placed }): Place[] => {
    if (!held.has(tag)) return [];
    const { along, across } = placeOf(axes, placed.frame.origin);
    const [x, y] = [scale.x(along), frame.y(across)];
    if (x < scale.left - RADIUS || x > scale.right + RADIUS || y < RADIUS || y > frame.height - RADIUS)
      return [];
    return [{ tags: [tag], x, y }];
  });
  const words = [...taken];
  return [
    ...places.map(({ x, y }) => ring(x, y)),
    ...together(places).map(({ tags, x, y }) => {
      const label = (dy: number) =>
        text([x, y + dy], `HOLD ${shortTags(tags)}`, "clash", {
          ink: "short",
          ground: "paper",
          size: SIZE,
          anchor: "middle",
          strong: true,
        });
      const candidates = [
        label(-RADIUS - 3),
        label(RADIUS + SIZE),
        label(-RADIUS - 3 - SIZE),
        label(RADIUS + 2 * SIZE),
      ];
      const chosen =
        candidates.find((each) => !words.some((box) => overlaps(textBox(each), box))) ?? candidates[0];
      words.push(textBox(chosen));
      return chosen;
    }),
  ];
}

interface Place {
  readonly tags: readonly string[];
  readonly x: number;
  readonly y: number;
}

/** Places so close that their tags would lie over one another have one: P1 and R6 in one box's place are `P1, R6`. */
function together(places: readonly Place[]): Place[] {
  const groups: { tags: string[]; x: number; y: number }[] = [];
  for (const { tags, x, y } of places) {
    const group = groups.find((each) => Math.hypot(each.x - x, each.y - y) < 2 * RADIUS);
    if (group === undefined) groups.push({ tags: [...tags], x, y });
    else group.tags.push(...tags);
  }
  return groups;
}

function ring(x: number, y: number): Mark {
  const points = Array.from({ length: AROUND }, (_, k): Vec2 => {
    const angle = (2 * Math.PI * k) / AROUND;
    return [x + RADIUS * Math.cos(angle), y + RADIUS * Math.sin(angle)];
  });
  return line(points, "clash", "short", 1.5, { closed: true });
}
