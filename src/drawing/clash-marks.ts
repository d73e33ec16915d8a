/** What clashes, on a plan of the top: a ring about each luminaire that is on hold, and its tag. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { ceilingBoxes, shortTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { type Box, type Ink, line, type Mark, overlaps, text, textBox } from "./drawing.ts";
import { islandAxes, placeOf } from "./island-axes.ts";
import type { PlanFrame } from "./plan-page.ts";
import type { SheetScale } from "./sheet-scale.ts";
import { halfWidth } from "./silhouette.ts";

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
  const places = placesOf(scene, heldTags(clashes), scale, frame);
  return [
    ...places.map(({ x, y }) => ring(x, y)),
    ...labels(places, { say: (tags) => `HOLD ${shortTags(tags)}`, depicts: "clash", ink: "short" }, taken),
  ];
}

/** Tags alone, as papers and words name luminaires. */
export function tagMarks(
  scene: Scene,
  tags: ReadonlySet<string>,
  scale: SheetScale,
  frame: PlanFrame,
  taken: readonly Box[] = [],
): Mark[] {
  return labels(placesOf(scene, tags, scale, frame), { say: shortTags, depicts: "tag", ink: "ink" }, taken);
}

function placesOf(
  scene: Scene,
  wanted: ReadonlySet<string>,
  scale: SheetScale,
  frame: PlanFrame,
): readonly Place[] {
  const axes = islandAxes(scene);
  return ceilingBoxes(scene).flatMap(({ tag, placed }): Place[] => {
    if (!wanted.has(tag)) return [];
    const { along, across } = placeOf(axes, placed.frame.origin);
    const [x, y] = [scale.x(along), frame.y(across)];
    if (x < scale.left - RADIUS || x > scale.right + RADIUS || y < RADIUS || y > frame.height - RADIUS)
      return [];
    return [{ tags: [tag], x, y, off: wordsOff(halfWidth(placed.luminaire, "y") * scale.perMetre) }];
  });
}

/** How far from the middle of a luminaire words begin: around a small rim, within a large one, never across it (drawing units). */
function wordsOff(rim: number): number {
  const isWithin = rim > RADIUS + SIZE + 3;
  return isWithin ? RADIUS : Math.max(RADIUS, rim + 2);
}

interface LabelKind {
  say(tags: readonly string[]): string;
  readonly depicts: "clash" | "tag";
  readonly ink: Ink;
}

/** A word beside each place, clear of what stands there already where there is room. */
function labels(places: readonly Place[], { say, depicts, ink }: LabelKind, taken: readonly Box[]): Mark[] {
  const words = [...taken];
  return together(places).map(({ tags, x, y, off }) => {
    const label = (dy: number) =>
      text([x, y + dy], say(tags), depicts, {
        ink,
        ground: "paper",
        size: SIZE,
        anchor: "middle",
        strong: true,
      });
    const candidates = [label(-off - 3), label(off + SIZE), label(-off - 3 - SIZE), label(off + 2 * SIZE)];
    const chosen =
      candidates.find((each) => !words.some((box) => overlaps(textBox(each), box))) ?? candidates[0];
    words.push(textBox(chosen));
    return chosen;
  });
}

interface Place {
  readonly tags: readonly string[];
  readonly x: number;
  readonly y: number;
  readonly off: number;
}

/** Places so close that their tags would lie over one another have one: P1 and R6 in one box's place are `P1, R6`. */
function together(places: readonly Place[]): Place[] {
  const groups: { tags: string[]; x: number; y: number; off: number }[] = [];
  for (const { tags, x, y, off } of places) {
    const group = groups.find((each) => Math.hypot(each.x - x, each.y - y) < 2 * RADIUS);
    if (group === undefined) groups.push({ tags: [...tags], x, y, off });
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
