/**
 * The light on a plan: filled bands, isolux lines with their labels, and what lies below target, as paths in
 * drawing units.
 *
 * The field of a grid is carried to the edge by linear extrapolation over half a cell, and made finer for
 * drawing by the interpolating cubic through neighbouring cell centres (Catmull-Rom [1]), so that lines are
 * smooth where cells are coarse. Known error: of the order of the field's second difference over half a cell at
 * the edge; values at cell centres are kept exactly. Figures and verdicts never use this field.
 *
 * [1] Catmull, Rom, A class of local interpolating splines, 1974.
 */

import type { Vec2 } from "../../geometry/vector.ts";
import type { CalculationPlane, PlaneGrid } from "../../scene/calculation-plane.ts";
import { LUX_PER_FOOTCANDLE } from "../../units/quantities.ts";
import { type Isoline, type IsoluxField, isolines } from "../isolux.ts";
import { luxColour, scaleSteps } from "../scale.ts";
import { type Box, overlaps, textWidth } from "./drawing.ts";

export interface LightBand {
  /** lx */
  readonly from: number;
  readonly colour: string;
  /** Everything at or above `from`, by the even-odd rule; bands are painted from the lowest up. */
  readonly path: string;
}

export interface LightLine {
  readonly level: number;
  readonly path: string;
  readonly isTarget: boolean;
  /** A line between two steps of the scale, drawn thinner still. */
  readonly isBetween: boolean;
}

export interface LightLabel {
  readonly level: number;
  readonly text: string;
  readonly at: Vec2;
  /** Degrees clockwise on the page, never upside down. */
  readonly turn: number;
}

export interface LightOnPlan {
  readonly bands: readonly LightBand[];
  readonly lines: readonly LightLine[];
  readonly labels: readonly LightLabel[];
  /** lx of the ground under the lowest band. */
  readonly ground: string;
}

/** From metres along a grid's own sides to drawing units. */
export type GridToPage = (point: Vec2) => Vec2;

/** Nodes along the longer side of the drawing's lattice: coarse while a hand moves, fine when it rests. */
export type Fineness = "coarse" | "refined";
const NODES: Readonly<Record<Fineness, number>> = { coarse: 56, refined: 128 };

/** Sampled field for drawing; the same lattice whatever the values, so a cache may key on plane and fineness. */
export function drawnField(
  plane: CalculationPlane,
  values: ArrayLike<number>,
  fineness: Fineness,
): IsoluxField | undefined {
  const { grid } = plane;
  if (grid === undefined) return undefined;
  const cells = filledCells(grid, values);
  const u = Math.hypot(...grid.u);
  const v = Math.hypot(...grid.v);
  const times = Math.max(1, Math.round(NODES[fineness] / Math.max(grid.columns, grid.rows)));
  const along = lattice(grid.columns, times, u);
  const across = lattice(grid.rows, times, v);
  const rowsDone = resample(cells, grid.columns, grid.rows, along, u, true);
  const fine = resample(rowsDone, along.length, grid.rows, across, v, false);
  return { along, across, values: fine };
}

/** Positions: both edges, and every cell divided into `times`, cell centres among them when it is odd. */
function lattice(count: number, times: number, full: number): Float64Array {
  const n = count * times;
  return Float64Array.from({ length: n + 1 }, (_, i) => (full * i) / n);
}

/** One direction of the separable interpolation; the other is left as it is. */
function resample(
  from: Float64Array,
  columns: number,
  rows: number,
  places: Float64Array,
  full: number,
  rowwise: boolean,
): Float64Array {
  const count = rowwise ? columns : rows;
  const lines = rowwise ? rows : columns;
  const out = new Float64Array(places.length * lines);
  const stride = rowwise ? 1 : columns;
  const step = rowwise ? columns : 1;
  for (let p = 0; p < places.length; p++) {
    const s = Math.max(-0.5, Math.min(count - 0.5, (places[p] / full) * count - 0.5));
    const i = Math.max(0, Math.min(count - 2, Math.floor(s)));
    const t = s - i;
    for (let l = 0; l < lines; l++) {
      const at = (k: number): number => from[l * step + Math.max(0, Math.min(count - 1, k)) * stride];
      let value: number;
      if (count === 1) value = at(0);
      else if (t < 0 || t > 1 || count < 4) value = at(i) + t * (at(i + 1) - at(i));
      else {
        const p1 = at(i);
        const p2 = at(i + 1);
        const p0 = i > 0 ? at(i - 1) : 2 * p1 - p2;
        const p3 = i + 2 < count ? at(i + 2) : 2 * p2 - p1;
        value =
          p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));
      }
      out[rowwise ? l * places.length + p : p * columns + l] = Math.max(0, value);
    }
  }
  return out;
}

/** Cells outside the outline take their nearest neighbour's light, only so that lines run on under the cut. */
function filledCells(grid: PlaneGrid, values: ArrayLike<number>): Float64Array {
  const { columns, rows } = grid;
  const out = new Float64Array(columns * rows).fill(Number.NaN);
  for (let i = 0; i < grid.cells.length; i++) out[grid.cells[i]] = values[i];
  if (grid.cells.length === out.length) return out;
  for (let pass = 0; pass < columns + rows; pass++) {
    let holes = 0;
    const before = out.slice();
    for (let k = 0; k < out.length; k++) {
      if (!Number.isNaN(before[k])) continue;
      const i = k % columns;
      let sum = 0;
      let n = 0;
      for (const [near, ok] of [
        [k - 1, i > 0],
        [k + 1, i < columns - 1],
        [k - columns, k >= columns],
        [k + columns, k + columns < out.length],
      ] as const) {
        if (!ok || Number.isNaN(before[near])) continue;
        sum += before[near];
        n++;
      }
      if (n > 0) out[k] = sum / n;
      else holes++;
    }
    if (holes === 0) break;
  }
  return out;
}

export interface LightOptions {
  readonly unit: "lx" | "fc";
  /** Levels drawn heavier, beside the steps (lx). */
  readonly targets?: readonly number[];
  /** Where words already stand, and the luminaires. */
  readonly taken?: readonly Box[];
  /** Labels stay inside this box. */
  readonly within?: Box;
}

export function lightOnPlan(field: IsoluxField, toPage: GridToPage, options: LightOptions): LightOnPlan {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const value of field.values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const steps = scaleSteps(options.unit);
  const targets = options.targets ?? [];
  const levels = levelsBetween(steps, targets, low, high, options.unit);
  const found = isolines(
    field,
    levels.map((l) => l.level),
  );
  const taken = [...(options.taken ?? [])];
  const labels: LightLabel[] = [];
  const lines = found.map((iso, k): LightLine => {
    const { level, isTarget, isBetween } = levels[k];
    return {
      level,
      isTarget,
      isBetween,
      path: iso.lines.map((points) => polyline(points.map(toPage))).join(""),
    };
  });
  // Targets are labelled first, then the steps from the brightest down: the inner rings have the least room.
  const order = levels
    .map((_, k) => k)
    .sort((a, b) => rank(levels[b]) - rank(levels[a]) || levels[b].level - levels[a].level);
  for (const k of order) {
    const paged = found[k].lines.map((points) => points.map(toPage));
    const label = placeLabel(levels[k].level, levels[k].label, paged, taken, options.within);
    if (label !== undefined) labels.push(label);
  }
  return {
    ground: luxColour(middleOf(low, levels[0]?.level)),
    bands: found.map((iso, k) => ({
      from: iso.level,
      colour: luxColour(middleOf(iso.level, levels[k + 1]?.level)),
      path: rings(iso, toPage),
    })),
    lines,
    labels,
  };
}

interface Level {
  readonly level: number;
  readonly label: string;
  readonly isTarget: boolean;
  readonly isBetween: boolean;
}

/** Fewer steps than this over a top say little of its shape; round levels between them are drawn too. */
const FEWEST_LINES = 4;

/** The steps inside the field's range and the targets; where those are few, round levels between them. Bands
 * between any two are coloured by the same absolute ramp, so nothing depends on which were drawn. */
function levelsBetween(
  steps: readonly { readonly level: number; readonly label: string }[],
  targets: readonly number[],
  low: number,
  high: number,
  unit: "lx" | "fc",
): Level[] {
  const inside = (level: number): boolean => level > low && level < high;
  const isTarget = (level: number): boolean => targets.some((t) => Math.abs(t - level) < 0.5);
  const levels: Level[] = steps
    .filter((s) => inside(s.level))
    .map((s) => ({ ...s, isTarget: isTarget(s.level), isBetween: false }));
  const has = (level: number): boolean => levels.some((l) => Math.abs(l.level - level) < 1e-3 * level);
  for (const t of targets)
    if (inside(t) && !has(t))
      levels.push({ level: t, label: figure(t, unit), isTarget: true, isBetween: true });
  if (levels.length < FEWEST_LINES) {
    const per = unit === "fc" ? LUX_PER_FOOTCANDLE : 1;
    const step =
      [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500].find((n) => (high - low) / per / n <= 7) ?? 1000;
    for (let n = Math.ceil(low / per / step); n * step * per < high; n++) {
      const level = n * step * per;
      if (inside(level) && !has(level))
        levels.push({ level, label: `${n * step}`, isTarget: false, isBetween: true });
    }
  }
  return levels.sort((a, b) => a.level - b.level);
}

function rank(level: Level): number {
  return level.isTarget ? 2 : level.isBetween ? 0 : 1;
}

/** Geometric middle of a band; the outermost bands are open. */
function middleOf(from: number, to: number | undefined): number {
  return to === undefined ? from * 1.05 : Math.sqrt(Math.max(1, from) * to);
}

/** Everything below a level, as an even-odd path: the whole grid less what reaches it. */
export function belowLevel(field: IsoluxField, level: number, toPage: GridToPage): string {
  const w = field.along[field.along.length - 1];
  const h = field.across[field.across.length - 1];
  const whole = polyline(
    (
      [
        [0, 0],
        [w, 0],
        [w, h],
        [0, h],
      ] as Vec2[]
    ).map(toPage),
    true,
  );
  const [iso] = isolines(field, [level]);
  return whole + rings(iso, toPage);
}

function rings(iso: Isoline, toPage: GridToPage): string {
  return iso.rings.map((ring) => polyline(ring.map(toPage), true)).join("");
}

function polyline(points: readonly Vec2[], closed = false): string {
  let d = "";
  for (let i = 0; i < points.length; i++)
    d += `${i === 0 ? "M" : "L"}${Math.round(points[i][0] * 10) / 10} ${Math.round(points[i][1] * 10) / 10}`;
  return closed ? `${d}Z` : d;
}

const LABEL_SIZE = 11;

/** A label sits on its line where the line is straightest and clear of everything else. */
function placeLabel(
  level: number,
  words: string,
  lines: readonly (readonly Vec2[])[],
  taken: Box[],
  within: Box | undefined,
): LightLabel | undefined {
  const width = textWidth(words, LABEL_SIZE, true) + 6;
  let best: { label: LightLabel; box: Box; cost: number } | undefined;
  for (const points of lines) {
    if (points.length < 3) continue;
    const lengths = cumulative(points);
    const total = lengths[lengths.length - 1];
    if (total < 2.2 * width) continue;
    const tries = Math.min(36, Math.max(6, Math.floor(total / 14)));
    for (let k = 0; k < tries; k++) {
      const s = ((k + 0.5) / tries) * total;
      if (s < width * 0.6 || s > total - width * 0.6) continue;
      const a = pointAt(points, lengths, s - width / 2);
      const m = pointAt(points, lengths, s);
      const b = pointAt(points, lengths, s + width / 2);
      const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const sag = Math.hypot(m[0] - (a[0] + b[0]) / 2, m[1] - (a[1] + b[1]) / 2);
      let turn = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
      if (turn > 90) turn -= 180;
      if (turn < -90) turn += 180;
      const angle = (Math.abs(turn) * Math.PI) / 180;
      const bw = width * Math.cos(angle) + LABEL_SIZE * Math.sin(angle);
      const bh = width * Math.sin(angle) + LABEL_SIZE * Math.cos(angle);
      const box = { x: m[0] - bw / 2, y: m[1] - bh / 2, width: bw, height: bh };
      if (within !== undefined && !contains(within, box)) continue;
      if (taken.some((other) => overlaps(other, box, 3))) continue;
      // Flat and level words read best: bend and slope both count against a place.
      const cost =
        sag / width + (1 - chord / width) + 0.35 * Math.abs(turn / 90) + (Math.abs(turn) > 75 ? 0.2 : 0);
      if (best === undefined || cost < best.cost)
        best = { label: { level, text: words, at: m, turn: Math.round(turn) }, box, cost };
    }
  }
  if (best === undefined) return undefined;
  taken.push(best.box);
  return best.label;
}

function cumulative(points: readonly Vec2[]): number[] {
  const lengths = [0];
  for (let i = 1; i < points.length; i++)
    lengths.push(
      lengths[i - 1] + Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]),
    );
  return lengths;
}

function pointAt(points: readonly Vec2[], lengths: readonly number[], s: number): Vec2 {
  let i = 1;
  while (i < points.length - 1 && lengths[i] < s) i++;
  const t = (s - lengths[i - 1]) / Math.max(1e-9, lengths[i] - lengths[i - 1]);
  const [a, b] = [points[i - 1], points[i]];
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}

function contains(outer: Box, inner: Box): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  );
}

function figure(level: number, unit: "lx" | "fc"): string {
  return unit === "fc" ? `${Math.round(level / LUX_PER_FOOTCANDLE)}` : `${Math.round(level)}`;
}
