/**
 * Where each surface's light is kept: one even lattice a surface, side by side on shelves of one float texture.
 *
 * Texels of a lattice are nodes, so light is exact there and bilinear between; tops are finer than the rest. Nodes
 * that lie in no part of a surface move to its nearest part, so that no darkness from inside a solid bleeds out.
 */

import {
  type FlatSurface,
  flatSurface,
  type Lattice,
  latticeOf,
  latticePoints,
  nodeAt,
  nodePlace,
} from "../engine/surfaces/surface-lattice.ts";
import type { LatticeField } from "../engine/surfaces/surface-light.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import type { Region } from "./point-set.ts";

const WIDTH = 1024;
/** Texels around a lattice that repeat its edge: at the rim of a triangle the screen's derivatives look beyond it. */
const GUTTER = 1;

export interface AtlasCell {
  readonly surface: number;
  readonly flat: FlatSurface;
  readonly lattice: Lattice;
  /** Texel of the first node. */
  readonly x: number;
  readonly y: number;
}

export interface SurfaceAtlas {
  readonly width: number;
  readonly height: number;
  readonly cells: readonly AtlasCell[];
  /** x, y, z and surface (−1 for none) a texel. */
  readonly places: Float32Array;
  readonly facings: Float32Array;
  /** Distance of nodes (m) on tops and elsewhere. */
  readonly fine: number;
  readonly coarse: number;
  /** Whether there are fewer nodes than were asked for, to stay in bounds. */
  readonly thinned: boolean;
}

export interface AtlasOptions {
  readonly fine: number;
  readonly coarse: number;
  /** Least steps across a narrow surface. */
  readonly leastSteps: number;
  /** Most nodes altogether. */
  readonly most: number;
}

export const STILL_ATLAS: AtlasOptions = { fine: 0.025, coarse: 0.045, leastSteps: 16, most: 160_000 };
export const MOVING_ATLAS: AtlasOptions = { fine: 0.08, coarse: 0.18, leastSteps: 1, most: 10_000 };

/** Lays the surfaces of a scene out. */
export function surfaceAtlas(scene: Scene, options: AtlasOptions): SurfaceAtlas {
  const flats = scene.surfaces.map(flatSurface);
  const fineOf = (s: number): boolean => scene.surfaces[s].part === "island top";
  const lattices = (scale: number): Lattice[] =>
    flats.map((flat, s) =>
      latticeOf(flat, scale * (fineOf(s) ? options.fine : options.coarse), options.leastSteps),
    );
  const size = (list: readonly Lattice[]): number => list.reduce((sum, l) => sum + l.columns * l.rows, 0);
  let scale = 1;
  let chosen = lattices(scale);
  for (let turn = 0; turn < 12 && size(chosen) > options.most; turn++) {
    scale *= 1.3;
    chosen = lattices(scale);
  }
  const order = chosen.map((_, s) => s).sort((a, b) => chosen[b].rows - chosen[a].rows);
  const corners: [number, number][] = [];
  let x = 0;
  let y = 0;
  let shelf = 0;
  for (const s of order) {
    const columns = chosen[s].columns + 2 * GUTTER;
    const rows = chosen[s].rows + 2 * GUTTER;
    if (x + columns > WIDTH) {
      x = 0;
      y += shelf;
      shelf = 0;
    }
    corners[s] = [x + GUTTER, y + GUTTER];
    x += columns;
    shelf = Math.max(shelf, rows);
  }
  const height = Math.max(1, y + shelf);
  const places = new Float32Array(4 * WIDTH * height).fill(-1);
  const facings = new Float32Array(4 * WIDTH * height);
  const cells = flats.map((flat, s): AtlasCell => {
    const lattice = chosen[s];
    const points = latticePoints(flat, lattice, 3 * scale * options.coarse);
    for (let j = -GUTTER; j < lattice.rows + GUTTER; j++)
      for (let i = -GUTTER; i < lattice.columns + GUTTER; i++) {
        const n = 3 * (within(j, lattice.rows) * lattice.columns + within(i, lattice.columns));
        if (Number.isNaN(points[n])) continue;
        const texel = 4 * ((corners[s][1] + j) * WIDTH + corners[s][0] + i);
        places.set([points[n], points[n + 1], points[n + 2], s], texel);
        facings.set(flat.normal, texel);
      }
    return { surface: s, flat, lattice, x: corners[s][0], y: corners[s][1] };
  });
  return {
    width: WIDTH,
    height,
    cells,
    places,
    facings,
    fine: scale * options.fine,
    coarse: scale * options.coarse,
    thinned: scale > 1,
  };
}

/** Texel of a place on a surface (m). */
export function texelOf({ flat, lattice, x, y }: AtlasCell, [a, b]: Vec2): Vec2 {
  const along = (place: number, side: number, n: number): number => {
    const inset = Math.min(0.004, side / 8);
    return (n - 1) * Math.min(1, Math.max(0, (place - inset) / (side - 2 * inset)));
  };
  return [x + along(a, flat.length, lattice.columns), y + along(b, flat.width, lattice.rows)];
}

function within(i: number, n: number): number {
  return Math.min(n - 1, Math.max(0, i));
}

/** The rectangles of an atlas that are lit, of the surface each is of. */
export function regionsOf({ cells }: SurfaceAtlas): Region[] {
  return cells.map(({ surface, lattice, x, y }) => ({
    x: x - GUTTER,
    y: y - GUTTER,
    width: lattice.columns + 2 * GUTTER,
    height: lattice.rows + 2 * GUTTER,
    row: surface,
  }));
}

/** Fields, one a surface, on the atlas's own nodes; four slots a texel. */
export function onAtlas(
  { width, height, cells }: SurfaceAtlas,
  fields: readonly LatticeField[],
  slotOf: readonly { readonly slot: number; readonly share: number }[],
): Float32Array {
  const out = new Float32Array(4 * width * height);
  for (const { surface, flat, lattice, x, y } of cells) {
    const field = fields[surface];
    if (field === undefined) continue;
    const { columns, rows } = field.lattice;
    const across = Float64Array.from({ length: lattice.columns }, (_, i) =>
      nodeAt(nodePlace(i, lattice.columns, flat.length), columns, flat.length),
    );
    for (let j = -GUTTER; j < lattice.rows + GUTTER; j++) {
      const place = nodePlace(within(j, lattice.rows), lattice.rows, flat.width);
      const b = nodeAt(place, rows, flat.width);
      const row = Math.min(rows - 2, Math.floor(b));
      const t = b - row;
      for (let i = -GUTTER; i < lattice.columns + GUTTER; i++) {
        const a = across[within(i, lattice.columns)];
        const column = Math.min(columns - 2, Math.floor(a));
        const s = a - column;
        const at = row * columns + column;
        const texel = 4 * ((y + j) * width + x + i);
        field.layers.forEach((values, layer) => {
          const E =
            (1 - t) * ((1 - s) * values[at] + s * values[at + 1]) +
            t * ((1 - s) * values[at + columns] + s * values[at + columns + 1]);
          const { slot, share } = slotOf[layer];
          out[texel + slot] += share * E;
        });
      }
    }
  }
  return out;
}
