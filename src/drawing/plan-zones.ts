/**
 * Zones on a plan: their outlines, and their names in a corner or on a free row inside, else beside the zone with a line
 * that leads to it.
 */

import { bounds } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import {
  type Box,
  line,
  type Mark,
  overlaps,
  segment,
  type TextMark,
  text,
  textBox,
  textWidth,
} from "./drawing.ts";

/** Height of a line of words, and steps by which a name leaves a zone that has no room for it (drawing units). */
const LINE = 14;
const AWAY = 6;
/** Letters from which a name is shortened where its zone is narrow, and the fewest that still tell zones apart. */
const LONG = 16;
const SHORTEST = 8;
const FARTHEST = 240;
const DIRECTIONS = [
  [0, 1],
  [0, -1],
  [1, 0],
  [-1, 0],
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
] as const;

/** Outline and name of every zone.
 * @param hung boxes of the luminaires, which names stay clear of where a place is free */
export function zones(
  scene: Scene,
  at: (p: Vec2) => Vec2,
  hung: readonly Box[],
  taken: Box[],
  page: Pick<Box, "width" | "height">,
): Mark[] {
  const marks: Mark[] = [];
  for (const zone of scene.zones) {
    const points = zone.outline.map(at);
    marks.push(line(points, "zone", "ink", 0.75, { closed: true, dash: "dashed" }));
    const [left, top, right, foot] = bounds(points);
    const [x0, y0, x1, y1] = [left + 8, top + 17, right - 8, foot - 9];
    const said = shortened(zone.name, x1 - x0);
    const name = (x: number, y: number, anchor: "start" | "middle" | "end" = "start"): TextMark =>
      text([x, y], said, "zone name", { ink: "ink", size: 12, strong: true, anchor });
    const middle = (x0 + x1) / 2;
    const rowOf = (y: number): TextMark[] => [name(x0, y), name(x1, y, "end"), name(middle, y, "middle")];
    const corners = [name(x0, y1), name(x0, y0), name(x1, y1, "end"), name(x1, y0, "end")];
    const inside = textWidth(said, 12, true) <= x1 - x0 ? rowsBetween(y0, y1).flatMap(rowOf) : [];
    const own = [...corners, ...inside];
    const blocked = [...hung, ...taken];
    const isFree = (box: Box): boolean => !blocked.some((other) => overlaps(box, other, 3));
    const covered = (mark: TextMark): number =>
      blocked.reduce((sum, box) => sum + sharedArea(textBox(mark), box), 0);
    const free = own.find((each) => isFree(textBox(each)));
    const [chosen, ...leader] =
      free !== undefined
        ? [free]
        : (ledName(own[0], points, isFree, page) ?? [
            own.reduce((best, each) => (covered(each) < covered(best) ? each : best)),
          ]);
    taken.push(textBox(chosen));
    marks.push(chosen, ...leader);
  }
  return marks;
}

/** A name of many letters as far as its zone is wide: the verdict has it whole. */
function shortened(name: string, width: number): string {
  const letters = [...name];
  if (letters.length <= LONG || textWidth(name, 12, true) <= width) return name;
  while (letters.length > SHORTEST && textWidth(`${letters.join("")}…`, 12, true) > width) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** Heights a line of words apart between two, from both ends towards the middle (drawing units). */
function rowsBetween(top: number, bottom: number): number[] {
  const rows: number[] = [];
  for (let low = bottom, high = top; low >= high; low -= LINE, high += LINE) rows.push(low, high);
  return rows;
}

/** A zone's name at the nearest free place beside it, such as where a pendant is larger than the zone under it, and the line that leads
 * from there to the zone; undefined where the drawing has none. */
function ledName(
  name: TextMark,
  outline: readonly Vec2[],
  isFree: (box: Box) => boolean,
  page: Pick<Box, "width" | "height">,
): readonly [TextMark, Mark] | undefined {
  const [x0, y0, x1, y1] = bounds(outline);
  const { width, height } = textBox(name);
  for (let away = AWAY; away <= FARTHEST; away += AWAY)
    for (const [right, down] of DIRECTIONS) {
      const x = (x0 + x1) / 2 + right * ((x1 - x0 + width) / 2 + away);
      const y = (y0 + y1) / 2 + down * ((y1 - y0 + height) / 2 + away);
      const box = { x: x - width / 2, y: y - height / 2, width, height };
      const isOnPage =
        box.x >= 0 && box.x + width <= page.width && box.y >= 0 && box.y + height <= page.height;
      if (!isOnPage || !isFree(box)) continue;
      const placed: TextMark = { ...name, at: [x, y + name.size * 0.27], anchor: "middle" };
      const near: Vec2 = [
        Math.max(box.x, Math.min(box.x + width, (x0 + x1) / 2)),
        down === 0 ? y : y - (down * height) / 2,
      ];
      const corner = outline.reduce((best, p) =>
        Math.hypot(p[0] - near[0], p[1] - near[1]) < Math.hypot(best[0] - near[0], best[1] - near[1])
          ? p
          : best,
      );
      return [placed, segment(near[0], near[1], corner[0], corner[1], "leader", "ink", 0.75)];
    }
  return undefined;
}

function sharedArea(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return Math.max(0, width) * Math.max(0, height);
}
