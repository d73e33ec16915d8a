/**
 * Words placed on lines: where the line runs straight for the length of the word, upright to read, inside the outline, clear of
 * every other line and word. Where fewer than three levels find such a place, words may cross lines and lie on bent ones, step by
 * step (`labelEnough`). A line that still has no place stays without a word.
 */

import { isInside } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { type Box, textWidth } from "./drawing.ts";
import { boxesMeet, corners, lineMeetsBox, type OrientedBox, orientedBox } from "./oriented-box.ts";

export interface LabelledLine {
  /** Empty for a line that only stands in the way. */
  readonly text: string;
  readonly points: readonly Vec2[];
}

export interface LineLabel {
  /** Index of its line. */
  readonly line: number;
  readonly text: string;
  readonly at: Vec2;
  /** Degrees clockwise on the page, −90…90. */
  readonly turn: number;
  readonly box: OrientedBox;
}

/** Distance along a line between places tried unless said otherwise, and between repeated words on a long line. */
const TRY = 5;
const REPEAT = 620;
/** How far a line may bow away from its word, and where no better place is found. */
const BOW = 2.5;
const LOOSE_BOW = 6;

export interface LabelOptions {
  /** Distance along a line between places tried. */
  readonly step?: number;
  /** Lines that words may cross. */
  readonly passable?: (line: number) => boolean;
  /** Takes more bent places too. */
  readonly loose?: boolean;
  /** Words already placed on these lines: kept, and kept clear of. */
  readonly placed?: readonly LineLabel[];
}

export function labelLines(
  lines: readonly LabelledLine[],
  outline: readonly Vec2[],
  taken: readonly Box[],
  size: number,
  { step = TRY, passable = () => false, loose = false, placed: before = [] }: LabelOptions = {},
): LineLabel[] {
  const placed: LineLabel[] = [...before];
  const blocked: OrientedBox[] = [...taken.map(orientedBox), ...before.map(({ box }) => box)];
  const done = new Set(before.map(({ text }) => text));
  const measured = lines.map((line) => arcs(line.points));
  // Short lines have the fewest places and choose first.
  const order = lines.map((_, i) => i).sort((a, b) => last(measured[a]) - last(measured[b]));
  for (const index of order) {
    const { text, points } = lines[index];
    if (text === "" || done.has(text)) continue;
    const arc = measured[index];
    const total = last(arc);
    const width = textWidth(text, size) + 6;
    const wanted = Math.max(1, Math.round(total / REPEAT));
    for (let k = 0; k < wanted; k++) {
      const stretch: readonly [number, number] = [(total * k) / wanted, (total * (k + 1)) / wanted];
      let best: { label: LineLabel; score: number } | undefined;
      for (let s = stretch[0] + step; s < stretch[1]; s += step) {
        const label = at(index, text, points, arc, s, width, size, loose);
        if (label === undefined) continue;
        // Level words read best; away from the ends of an open line they are clearest.
        const score = Math.cos((label.turn * Math.PI) / 180) + 0.4 * Math.min(1, Math.min(s, total - s) / 80);
        if (best !== undefined && score <= best.score) continue;
        if (placed.some((other) => other.line === index && near(other.at, label.at))) continue;
        if (!isFree(label.box, index, lines, outline, blocked, passable)) continue;
        best = { label, score };
      }
      if (best === undefined) continue;
      placed.push(best.label);
      blocked.push(best.label.box);
    }
  }
  return placed;
}

/** Fewer labelled lines than this say little of a drawing's level. */
const FEWEST = 3;

/** Words of the lines. Where fewer than three lines find a place, words may lie over what is avoided, then across lines without a word,
 * then across other lines: the value of a line stays when everything else gives way. */
export function labelEnough(
  lines: readonly LabelledLine[],
  outline: readonly Vec2[],
  size: number,
  {
    taken,
    avoided = [],
    step,
  }: { readonly taken: readonly Box[]; readonly avoided?: readonly Box[]; readonly step?: number },
): readonly LineLabel[] {
  const wanted = Math.min(FEWEST, new Set(lines.map(({ text }) => text).filter(Boolean)).size);
  const passes = [
    { boxes: [...taken, ...avoided] },
    { boxes: taken },
    { boxes: taken, passable: (line: number) => lines[line].text === "" },
    { boxes: taken, passable: () => true },
    { boxes: taken, passable: () => true, loose: true },
  ];
  let placed: readonly LineLabel[] = [];
  for (const { boxes, ...options } of passes) {
    placed = labelLines(lines, outline, boxes, size, { step, ...options, placed });
    if (new Set(placed.map(({ text }) => text)).size >= wanted) break;
  }
  return placed;
}

/** Words repeated on one line stand well apart. */
function near(a: Vec2, b: Vec2): boolean {
  return Math.hypot(a[0] - b[0], a[1] - b[1]) < REPEAT / 3;
}

function at(
  line: number,
  text: string,
  points: readonly Vec2[],
  arc: Float64Array,
  s: number,
  width: number,
  size: number,
  loose: boolean,
): LineLabel | undefined {
  if (s < width / 2 || s > last(arc) - width / 2) return undefined;
  const from = along(points, arc, s - width / 2);
  const middle = along(points, arc, s);
  const to = along(points, arc, s + width / 2);
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (chord < (loose ? 0.8 : 0.94) * width) return undefined;
  const bow = Math.abs((to[0] - from[0]) * (middle[1] - from[1]) - (to[1] - from[1]) * (middle[0] - from[0]));
  if (bow / chord > (loose ? LOOSE_BOW : BOW)) return undefined;
  let turn = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  if (turn > 90) turn -= 180;
  if (turn <= -90) turn += 180;
  return { line, text, at: middle, turn, box: { centre: middle, width, height: size + 2, turn } };
}

function isFree(
  box: OrientedBox,
  own: number,
  lines: readonly LabelledLine[],
  outline: readonly Vec2[],
  blocked: readonly OrientedBox[],
  passable: (line: number) => boolean,
): boolean {
  if (!corners(box).every((corner) => isInside(corner, outline))) return false;
  if (blocked.some((other) => boxesMeet(box, other))) return false;
  const reach = Math.hypot(box.width, box.height) / 2;
  const [x, y] = box.centre;
  return lines.every(({ points }, index) => {
    if (index === own || passable(index)) return true;
    for (let k = 1; k < points.length; k++) {
      const [px, py] = points[k - 1];
      const [qx, qy] = points[k];
      // Most pieces lie far away; four comparisons say so.
      if (Math.min(px, qx) > x + reach || Math.max(px, qx) < x - reach) continue;
      if (Math.min(py, qy) > y + reach || Math.max(py, qy) < y - reach) continue;
      if (lineMeetsBox(points[k - 1], points[k], box)) return false;
    }
    return true;
  });
}

/** Length along the line up to each of its points. */
function arcs(points: readonly Vec2[]): Float64Array {
  const arc = new Float64Array(points.length);
  for (let k = 1; k < points.length; k++)
    arc[k] = arc[k - 1] + Math.hypot(points[k][0] - points[k - 1][0], points[k][1] - points[k - 1][1]);
  return arc;
}

function along(points: readonly Vec2[], arc: Float64Array, s: number): Vec2 {
  let low = 0;
  let high = arc.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (arc[middle] <= s) low = middle;
    else high = middle;
  }
  const span = arc[high] - arc[low];
  const t = span > 0 ? (s - arc[low]) / span : 0;
  const [a, b] = [points[low], points[high]];
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}

function last(values: Float64Array): number {
  return values.length === 0 ? 0 : values[values.length - 1];
}
