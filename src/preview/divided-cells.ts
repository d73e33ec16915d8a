/**
 * Cells of an atlas in which light changes faster than its nodes can tell, divided: an edge of a shadow is narrower than
 * a cell, and between four nodes alone it is drawn as stairs.
 *
 * A cell is divided where along one of its sides light steps by more than STEP of what is there, and by as much more or
 * less than along the sides before or after: an even slope needs no more nodes. Places and interreflected light of the nodes
 * within are bilinear between its corners, direct light is computed for each.
 */

import type { Region } from "./point-set.ts";
import type { AtlasCell, SurfaceAtlas } from "./surface-atlas.ts";

/** Steps along a side of a divided cell, and its nodes there. */
const DIVISION = 4;
const NODES = DIVISION + 1;
/** Of the light in a cell: our choice, what an eye begins to see as an edge. */
const STEP = 0.06;
/** Light under this share of the surfaces' mean counts no less: no one sees edges in the dark. */
const DARK = 0.2;
/** Most cells divided; the greatest steps first. */
const MOST = 3000;

interface Divided {
  readonly surface: number;
  /** Texel of the cell's first node in the atlas, and of its own first node here. */
  readonly from: number;
  readonly to: number;
}

export interface DividedCells {
  readonly width: number;
  readonly height: number;
  readonly places: Float32Array;
  readonly facings: Float32Array;
  readonly regions: readonly Region[];
  /** Of each texel of the atlas: 1 + the texel where the nodes of its cell begin, in the first of four; 0 where it is whole. */
  readonly starts: Float32Array;
  readonly cells: readonly Divided[];
}

/** The cells to divide, of illuminances (lx) at every texel of the atlas. */
export function dividedCells(atlas: SurfaceAtlas, lux: Float32Array): DividedCells {
  const { width } = atlas;
  const perRow = Math.floor(width / NODES);
  const chosen = steepCells(atlas, lux);
  const height = NODES * Math.max(1, Math.ceil(chosen.length / perRow));
  const places = new Float32Array(4 * width * height).fill(-1);
  const facings = new Float32Array(4 * width * height);
  const starts = new Float32Array(4 * width * atlas.height);
  const regions: { x: number; y: number; width: number; height: number; row: number }[] = [];
  const cells = chosen.map(({ surface, from }, n): Divided => {
    const x = NODES * (n % perRow);
    const y = NODES * Math.floor(n / perRow);
    const to = y * width + x;
    starts[4 * from] = 1 + to;
    const last = regions[regions.length - 1];
    if (last?.row === surface && last.y === y) last.width += NODES;
    else regions.push({ x, y, width: NODES, height: NODES, row: surface });
    return { surface, from, to };
  });
  onNodes(cells, width, atlas.places, places);
  onNodes(cells, width, atlas.facings, facings);
  return { width, height, places, facings, regions, starts, cells };
}

/** Values of the atlas (four a texel) at the nodes of divided cells. */
export function interreflectedInCells(divided: DividedCells, values: Float32Array): Float32Array {
  const out = new Float32Array(4 * divided.width * divided.height);
  onNodes(divided.cells, divided.width, values, out);
  return out;
}

/** Bilinear between the corners of each cell. */
function onNodes(cells: readonly Divided[], width: number, values: Float32Array, out: Float32Array): void {
  for (const { from, to } of cells)
    for (let j = 0; j < NODES; j++)
      for (let i = 0; i < NODES; i++) {
        const [s, t] = [i / DIVISION, j / DIVISION];
        for (let k = 0; k < 4; k++) {
          const at = 4 * from + k;
          const above = at + 4 * width;
          out[4 * (to + j * width + i) + k] =
            (1 - t) * ((1 - s) * values[at] + s * values[at + 4]) +
            t * ((1 - s) * values[above] + s * values[above + 4]);
        }
      }
}

/** In the order of their surfaces. */
function steepCells(atlas: SurfaceAtlas, lux: Float32Array): { surface: number; from: number }[] {
  const { width, places, cells } = atlas;
  const dark = DARK * meanOf(atlas, lux);
  const found: { surface: number; from: number; step: number }[] = [];
  for (const cell of cells) {
    const { surface, lattice, x, y } = cell;
    const across = stepsOf(cell, lux, width, 1);
    const along = stepsOf(cell, lux, width, width);
    for (let j = 0; j + 1 < lattice.rows; j++)
      for (let i = 0; i + 1 < lattice.columns; i++) {
        const from = (y + j) * width + x + i;
        const corners = [from, from + 1, from + width, from + width + 1];
        if (corners.some((corner) => places[4 * corner + 3] < 0)) continue;
        const steps = [across(i, j), across(i, j + 1), along(i, j), along(i + 1, j)];
        const light = Math.max(dark, ...corners.map((corner) => lux[corner]));
        const step = Math.max(...steps) / light;
        if (step > STEP) found.push({ surface, from, step });
      }
  }
  found.sort((a, b) => b.step - a.step);
  return found.slice(0, MOST).sort((a, b) => a.surface - b.surface || a.from - b.from);
}

/** How far light steps along the side from a node to the next, no more than it differs from the sides before and after. */
function stepsOf(
  { lattice, x, y }: AtlasCell,
  lux: Float32Array,
  width: number,
  next: number,
): (i: number, j: number) => number {
  const count = next === 1 ? lattice.columns : lattice.rows;
  return (i, j) => {
    const k = next === 1 ? i : j;
    const at = (y + j) * width + x + i;
    const step = lux[at + next] - lux[at];
    const before = k > 0 ? lux[at] - lux[at - next] : step;
    const after = k + 2 < count ? lux[at + 2 * next] - lux[at + next] : step;
    return Math.min(Math.abs(step), Math.max(Math.abs(step - before), Math.abs(step - after)));
  };
}

function meanOf({ cells, width }: SurfaceAtlas, lux: Float32Array): number {
  let sum = 0;
  let count = 0;
  for (const { lattice, x, y } of cells) {
    for (let j = 0; j < lattice.rows; j++)
      for (let i = 0; i < lattice.columns; i++) sum += lux[(y + j) * width + x + i];
    count += lattice.columns * lattice.rows;
  }
  return count > 0 ? sum / count : 0;
}
