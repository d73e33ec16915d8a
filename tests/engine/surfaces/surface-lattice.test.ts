/** Surfaces laid flat, lattices on them, and the atlas they are kept in. */
import { describe, expect, it } from "vitest";
import {
  EDGE_INSET,
  flatSurface,
  latticeOf,
  latticePoints,
  nodeAt,
  nodePlace,
  stateOfNodes,
} from "../../../src/engine/surfaces/surface-lattice.ts";
import { dot, subtract, type Vec3 } from "../../../src/geometry/vector.ts";
import {
  MOVING_ATLAS,
  onAtlas,
  STILL_ATLAS,
  surfaceAtlas,
  texelOf,
} from "../../../src/preview/surface-atlas.ts";
import type { Surface } from "../../../src/scene/surface.ts";
import { randomStream } from "../../support/random-stream.ts";
import { kitchen, resolved } from "../../support/studies.ts";

const [scene] = resolved(kitchen()).scenes;

/** A table of 4 m by 2 m with a hole of 1 m by 1 m. */
const holed: Surface = {
  name: "table",
  part: "body",
  vertices: [
    [1, 1, 0.8],
    [5, 1, 0.8],
    [5, 3, 0.8],
    [1, 3, 0.8],
  ],
  holes: [
    [
      [2, 1.5, 0.8],
      [2, 2.5, 0.8],
      [3, 2.5, 0.8],
      [3, 1.5, 0.8],
    ],
  ],
  normal: [0, 0, 1],
  reflectance: 0.5,
};

describe("a lattice", () => {
  it("finds the node of a place and the place of a node", () => {
    for (const [n, side] of [
      [2, 0.05],
      [17, 0.45],
      [91, 5.4],
    ])
      for (let i = 0; i < n; i++) expect(nodeAt(nodePlace(i, n, side), n, side)).toBeCloseTo(i, 9);
    expect(nodePlace(0, 9, 2)).toBeCloseTo(EDGE_INSET, 12);
    expect(nodeAt(-1, 9, 2)).toBe(0);
    expect(nodeAt(3, 9, 2)).toBe(8);
  });

  it("has nodes no farther apart than asked, and so many across a narrow side", () => {
    const flat = flatSurface(holed);
    expect([flat.length, flat.width].sort()).toEqual([2, 4]);
    expect(latticeOf({ ...flat, length: 4, width: 0.3 }, 0.06)).toEqual({ columns: 68, rows: 6 });
    expect(latticeOf({ ...flat, length: 4, width: 0.3 }, 0.06, 16)).toEqual({ columns: 68, rows: 16 });
    expect(latticeOf({ ...flat, length: 4, width: 0.04 }, 0.06, 16)).toEqual({ columns: 68, rows: 3 });
    expect(latticeOf({ ...flat, length: 400, width: 1 }, 0.06).columns).toBe(256);
  });

  it("lies on its surface; over a hole its nodes move to the rim, or have no point", () => {
    const flat = flatSurface(holed);
    const lattice = latticeOf(flat, 0.1);
    const points = latticePoints(flat, lattice, 0.3);
    const states = stateOfNodes(flat, lattice, points);
    const counts = [0, 0, 0];
    for (let n = 0; n < states.length; n++) {
      counts[states[n]]++;
      if (states[n] === 0) continue;
      const [x, y, z] = points.subarray(3 * n, 3 * n + 3);
      expect(z).toBeCloseTo(0.8, 12);
      expect(x > 1 && x < 5 && y > 1 && y < 3).toBe(true);
      expect(x > 2 && x < 3 && y > 1.5 && y < 2.5).toBe(false);
    }
    // 0.3 m from the rim of a metre of hole: some 0.4 m by 0.4 m have none.
    expect(counts[0]).toBeGreaterThan(9);
    expect(counts[0]).toBeLessThan(30);
    expect(counts[1]).toBeGreaterThan(50);
    expect(counts[2]).toBeGreaterThan(600);
  });
});

describe("the atlas", () => {
  for (const [name, options] of Object.entries({ still: STILL_ATLAS, moving: MOVING_ATLAS }))
    it(`gives every surface texels of its own, ${name}`, () => {
      const { width, height, cells, places } = surfaceAtlas(scene, options);
      const taken = new Int32Array(width * height).fill(-1);
      for (const { surface, lattice, x, y } of cells)
        for (let j = -1; j <= lattice.rows; j++)
          for (let i = -1; i <= lattice.columns; i++) {
            const texel = (y + j) * width + x + i;
            expect(taken[texel]).toBe(-1);
            taken[texel] = surface;
            expect([surface, -1]).toContain(places[4 * texel + 3]);
          }
      expect(cells.map(({ surface }) => surface)).toEqual(scene.surfaces.map((_, s) => s));
    });

  it("stays within the most nodes it may have, and says so", () => {
    const thin = surfaceAtlas(scene, { ...STILL_ATLAS, most: 4000 });
    const count = thin.cells.reduce((sum, { lattice }) => sum + lattice.columns * lattice.rows, 0);
    expect(count).toBeLessThanOrEqual(4000 * 1.3);
    expect(thin.thinned).toBe(true);
    expect(surfaceAtlas(scene, STILL_ATLAS).thinned).toBe(false);
  });

  it("holds a field given on other nodes as it is between them: what is bilinear stays exact", () => {
    const atlas = surfaceAtlas(scene, STILL_ATLAS);
    const f = ([a, b]: readonly number[], s: number): number => 3 + s + 0.7 * a - 0.4 * b;
    const fields = scene.surfaces.map((surface, s) => {
      const flat = flatSurface(surface);
      const lattice = latticeOf(flat, 0.3);
      const values = Float32Array.from({ length: lattice.columns * lattice.rows }, (_, n) =>
        f(
          [
            nodePlace(n % lattice.columns, lattice.columns, flat.length),
            nodePlace(Math.floor(n / lattice.columns), lattice.rows, flat.width),
          ],
          s,
        ),
      );
      return { lattice, layers: [values, values.map((value) => 2 * value)] };
    });
    const given = onAtlas(atlas, fields, [
      { slot: 0, share: 1 },
      { slot: 1, share: 0.5 },
    ]);
    const random = randomStream(2);
    let worst = 0;
    for (const cell of atlas.cells)
      for (let k = 0; k < 20; k++) {
        const { flat } = cell;
        const place = [
          EDGE_INSET + random() * (flat.length - 2 * EDGE_INSET),
          EDGE_INSET + random() * (flat.width - 2 * EDGE_INSET),
        ] as const;
        const [x, y] = texelOf(cell, place);
        const [i, j] = [Math.floor(x), Math.floor(y)];
        const [s, t] = [x - i, y - j];
        for (const slot of [0, 1]) {
          const at = (di: number, dj: number): number => given[4 * ((j + dj) * atlas.width + i + di) + slot];
          const value =
            (1 - t) * ((1 - s) * at(0, 0) + s * at(1, 0)) + t * ((1 - s) * at(0, 1) + s * at(1, 1));
          const inset = [flat.length, flat.width].map((side) => Math.min(EDGE_INSET, side / 8));
          // Narrow surfaces keep less from their edges than the points chosen here do.
          if (place.some((p, c) => p < inset[c])) continue;
          worst = Math.max(worst, Math.abs(value - f(place, cell.surface)));
        }
      }
    console.log(`worst error of a bilinear field on the atlas ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-4);
  });

  it("places its nodes where the surface is", () => {
    const { width, cells, places } = surfaceAtlas(scene, MOVING_ATLAS);
    for (const { surface, lattice, x, y } of cells) {
      const { vertices, normal } = scene.surfaces[surface];
      for (let j = 0; j < lattice.rows; j++)
        for (let i = 0; i < lattice.columns; i++) {
          const texel = 4 * ((y + j) * width + x + i);
          if (places[texel + 3] < 0) continue;
          const p: Vec3 = [places[texel], places[texel + 1], places[texel + 2]];
          expect(Math.abs(dot(subtract(p, vertices[0]), normal))).toBeLessThan(1e-5);
        }
    }
  });
});
