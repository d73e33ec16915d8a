/**
 * What one arrangement's light is against another's, place by place: (E₂ − E₁) / E₁ in per cent, as bands and
 * labelled lines. Less is blue, more is orange, and every line carries its sign, so that neither hue nor print
 * decides how it reads.
 */

import type { Vec2 } from "../../geometry/vector.ts";
import type { PlaneGrid } from "../../scene/calculation-plane.ts";
import { isolines } from "../isolux.ts";
import type { Box } from "./drawing.ts";
import { drawnField } from "./drawn-field.ts";
import { fieldSampler } from "./field-sampler.ts";
import { type LineLabel, labelLines } from "./line-labels.ts";

/** Per cent; even to the eye, which judges ratios. */
export const DIFFERENCE_LEVELS = [-70, -50, -30, -20, -10, 10, 20, 30, 50, 100, 200] as const;

/** Colours of the bands between the levels, lowest first: blue to orange through a pale middle, lightness falling
 * evenly to both sides. */
const COLOURS = [
  "#2f5d8c",
  "#4f7cab",
  "#7a9fc6",
  "#a5c0dc",
  "#cfdeec",
  "#f2efe6",
  "#f6e0c2",
  "#f0c592",
  "#e3a45f",
  "#cc8033",
  "#a85e16",
  "#7f430b",
] as const;

export interface DifferenceMap {
  readonly outline: readonly Vec2[];
  readonly bands: readonly { readonly colour: string; readonly rings: readonly (readonly Vec2[])[] }[];
  readonly lines: readonly { readonly points: readonly Vec2[]; readonly level: number }[];
  readonly labels: readonly LineLabel[];
  /** Smallest and largest difference (per cent). */
  readonly least: number;
  readonly most: number;
}

export interface LitGrid {
  readonly grid: PlaneGrid;
  readonly values: Float64Array;
}

/** The difference of `second` from `first`, on the grid of `first`. `outline` in metres along that grid's sides. */
export function differenceMap(
  first: LitGrid,
  second: LitGrid,
  outline: readonly Vec2[],
  place: (point: Vec2) => Vec2,
  taken: readonly Box[] = [],
): DifferenceMap {
  const { grid } = first;
  const there = onGrid(grid, second);
  const a = drawnField(grid, first.values, "refined");
  const b = drawnField(grid, there, "refined");
  const values = a.values.map((value, i) => (100 * (b.values[i] - value)) / Math.max(value, 1e-3));
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const levels = DIFFERENCE_LEVELS.filter((level) => level > least && level < most);
  const found = isolines({ ...a, values }, levels, outline);
  const lines = found.flatMap(({ level, lines: parts }) =>
    parts.map((points) => ({ level, points: points.map(place), text: percent(level) })),
  );
  const pageOutline = outline.map(place);
  return {
    outline: pageOutline,
    bands: [
      { colour: colourAt(least), rings: [pageOutline] },
      ...found.map(({ level, rings }) => ({
        colour: colourAt(level + 0.01),
        rings: rings.map((ring) => ring.map(place)),
      })),
    ],
    lines,
    labels: labelLines(lines, pageOutline, taken, 11),
    least,
    most,
  };
}

/** `+20 %`, `−10 %` */
export function percent(value: number): string {
  const whole = Math.round(value);
  return `${whole > 0 ? "+" : whole < 0 ? "−" : ""}${Math.abs(whole)} %`;
}

function colourAt(level: number): string {
  const index = DIFFERENCE_LEVELS.findIndex((l) => level < l);
  return COLOURS[index < 0 ? COLOURS.length - 1 : index];
}

/** Values of another grid at the points of this one. */
function onGrid(grid: PlaneGrid, other: LitGrid): Float64Array {
  if (sameGrid(grid, other.grid)) return other.values;
  const sampler = fieldSampler(other.grid);
  return Float64Array.from(grid.cells, (cell) => {
    const s = ((cell % grid.columns) + 0.5) / grid.columns;
    const t = (Math.floor(cell / grid.columns) + 0.5) / grid.rows;
    const x = grid.corner[0] + s * grid.u[0] + t * grid.v[0];
    const y = grid.corner[1] + s * grid.u[1] + t * grid.v[1];
    const value = sampler.sample(other.values, x, y);
    return Number.isFinite(value) ? value : 0;
  });
}

function sameGrid(a: PlaneGrid, b: PlaneGrid): boolean {
  return (
    a.columns === b.columns &&
    a.rows === b.rows &&
    a.cells.length === b.cells.length &&
    [a.corner, a.u, a.v].every((v, k) => v.every((n, i) => Math.abs(n - [b.corner, b.u, b.v][k][i]) < 1e-9))
  );
}
