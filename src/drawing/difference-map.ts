/**
 * What one arrangement's light is against another's, place by place: E₂ − E₁ as bands and labelled lines in the unit on
 * screen. Less is blue, more is orange, and every line carries its sign, so that neither hue nor print decides how it
 * reads. The scale is the pair's own: full at the first round figure above the greatest difference.
 */

import { scaleLinear } from "d3-scale";
import { type IsoluxField, isoluxField, onGrid, readIsolux } from "../app/isolux-field.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { roundAbove } from "../numerics/round-above.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import { gridMetres, gridToRoom } from "../scene/grid-metres.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";
import { LUX_PER_FOOTCANDLE } from "../units/quantities.ts";
import type { Box } from "./drawing.ts";
import { isolines } from "./isolux.ts";
import { type LineLabel, labelEnough } from "./line-labels.ts";

const LEVELS = 7;
/** The difference at which colours end, times a power of ten. */
const ENDS = [1, 1.5, 2, 3, 5, 7.5];

/** Ends and middle of the colours. */
const LESS = [0x6f, 0x98, 0xc4] as const;
const SAME = [0xf2, 0xef, 0xe6] as const;
const MORE = [0xdd, 0x9a, 0x4e] as const;

export interface DifferenceMap {
  readonly outline: readonly Vec2[];
  readonly bands: readonly { readonly colour: string; readonly rings: readonly (readonly Vec2[])[] }[];
  readonly lines: readonly { readonly points: readonly Vec2[]; readonly level: number }[];
  readonly labels: readonly LineLabel[];
  /** Smallest and largest difference (lx). */
  readonly least: number;
  readonly most: number;
  /** Steps of the scale from most negative to most positive, nought among them, each with its colour. */
  readonly scale: readonly { readonly level: number; readonly words: string; readonly colour: string }[];
  /** Colour of a difference (lx). */
  colourAt(level: number): string;
}

export interface LitGrid {
  readonly grid: PlaneGrid;
  /** lx at the cells, and on the margin where it was calculated. */
  readonly values: Float64Array;
  readonly margin?: Float64Array;
}

/** The difference of `second` from `first`, on the grid of `first`. `outline` in metres along that grid's sides. */
export function differenceMap(
  first: LitGrid,
  second: LitGrid,
  outline: readonly Vec2[],
  place: (point: Vec2) => Vec2,
  {
    unit = "lx",
    taken = [],
    avoided = [],
  }: {
    readonly unit?: IlluminanceUnit;
    readonly taken?: readonly Box[];
    /** Luminaires and the like: what words keep clear of while enough lines are labelled all the same. */
    readonly avoided?: readonly Box[];
  } = {},
): DifferenceMap {
  const { grid } = first;
  const per = unit === "fc" ? LUX_PER_FOOTCANDLE : 1;
  const a = isoluxField(grid, first.values, first.margin);
  const there = lightAt(a, grid, second);
  const values = a.values.map((value, i) => there[i] - value);
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const farthest = Math.max(per, Math.abs(least), Math.abs(most));
  const full = roundAbove((farthest / per) * (1 - 1e-9), ENDS) * per;
  const colourAt = (level: number): string => mixed(level / full);
  const levels = levelsWithin(least / per, most / per).map((level) => level * per);
  const contours = isolines({ ...a, values }, levels, outline);
  const lines = contours.flatMap(({ level, lines: parts }) =>
    parts.map((points) => ({ level, points: points.map(place), text: signed(level / per) })),
  );
  const pageOutline = outline.map(place);
  return {
    outline: pageOutline,
    bands: [
      { colour: colourAt((least + (levels[0] ?? most)) / 2), rings: [pageOutline] },
      ...contours.map(({ level, rings }, k) => ({
        colour: colourAt((level + (levels[k + 1] ?? most)) / 2),
        rings: rings.map((ring) => ring.map(place)),
      })),
    ],
    lines,
    labels: labelEnough(lines, pageOutline, 11, { taken, avoided }),
    least,
    most,
    scale: [-1, -0.5, 0, 0.5, 1].map((share) => ({
      level: share * full,
      words: signed((share * full) / per),
      colour: mixed(share),
    })),
    colourAt,
  };
}

/** `+120`, `−80`, `0` */
export function signed(value: number): string {
  const size =
    Math.abs(value) >= 9.95 ? Math.abs(value).toFixed(0) : Math.abs(value).toFixed(1).replace(".0", "");
  return size === "0" ? "0" : `${value > 0 ? "+" : "−"}${size}`;
}

/** Round levels inside a range, about eight however wide it is; nought is always one of them where it lies inside. */
function levelsWithin(least: number, most: number): number[] {
  if (!(most > least)) return [];
  return scaleLinear()
    .domain([least, most])
    .ticks(LEVELS)
    .filter((level) => level > least && level < most);
}

/** Colour of a share of the full difference, −1…1. */
function mixed(share: number): string {
  const t = Math.max(-1, Math.min(1, Number.isFinite(share) ? share : 0));
  const end = t < 0 ? LESS : MORE;
  const channel = (k: number): string =>
    Math.round(SAME[k] + Math.abs(t) * (end[k] - SAME[k]))
      .toString(16)
      .padStart(2, "0");
  return `#${channel(0)}${channel(1)}${channel(2)}`;
}

/** Light of another grid at the nodes of a field on this one; none where the other grid does not reach. */
function lightAt({ along, across }: IsoluxField, grid: PlaneGrid, other: LitGrid): Float64Array {
  const field = isoluxField(other.grid, other.values, other.margin);
  if (sameGrid(grid, other.grid)) return field.values;
  const toRoom = gridToRoom(grid);
  const toOther = gridMetres(other.grid);
  return Float64Array.from({ length: along.length * across.length }, (_, k) => {
    const place = toOther(toRoom([along[k % along.length], across[Math.floor(k / along.length)]]));
    const value = onGrid(other.grid, ...place) ? readIsolux(field, ...place) : 0;
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
