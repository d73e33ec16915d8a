/** Which cells of an atlas are divided, and what lies on their nodes. */
import { describe, expect, it } from "vitest";
import { dividedCells, interreflectedInCells } from "../../src/preview/divided-cells.ts";
import { STILL_ATLAS, surfaceAtlas } from "../../src/preview/surface-atlas.ts";
import { kitchen, resolved } from "../support/studies.ts";

const [scene] = resolved(kitchen()).scenes;
const atlas = surfaceAtlas(scene, STILL_ATLAS);
const { width } = atlas;
const top = scene.surfaces.findIndex(({ part }) => part === "island top");
const cell = atlas.cells[top];

/** The same light everywhere, on the top as told of its columns. */
function lux(onTop: (column: number) => number): Float32Array {
  const values = new Float32Array(width * atlas.height).fill(100);
  for (let j = 0; j < cell.lattice.rows; j++)
    for (let i = 0; i < cell.lattice.columns; i++) values[(cell.y + j) * width + cell.x + i] = onTop(i);
  return values;
}

describe("divided cells", () => {
  it("are those that a step runs through, each with nodes of its own, and no others", () => {
    const { cells, starts, places, regions } = dividedCells(
      atlas,
      lux((i) => (i < 20 ? 100 : 80)),
    );
    expect(cells).toHaveLength(cell.lattice.rows - 1);
    const begun = cells.map(({ from, to }) => {
      expect((from % width) - cell.x).toBe(19);
      expect(starts[4 * from]).toBe(1 + to);
      return to;
    });
    expect(new Set(begun).size).toBe(cells.length);
    expect(starts.filter((start) => start > 0)).toHaveLength(cells.length);
    expect(regions.every(({ row }) => row === top)).toBe(true);
    // The middle of a cell is the middle of its corners.
    const { from, to } = cells[5];
    for (let k = 0; k < 4; k++)
      expect(places[4 * (to + 2 * width + 2) + k]).toBeCloseTo(
        (atlas.places[4 * from + k] + atlas.places[4 * (from + width + 1) + k]) / 2,
        5,
      );
  });

  it("are none where light is even or changes evenly, however fast", () => {
    expect(
      dividedCells(
        atlas,
        lux(() => 100),
      ).cells,
    ).toHaveLength(0);
    expect(
      dividedCells(
        atlas,
        lux((i) => 20 + 15 * i),
      ).cells,
    ).toHaveLength(0);
  });

  it("hold what is given on the atlas bilinear between its nodes", () => {
    const divided = dividedCells(
      atlas,
      lux((i) => (i < 20 ? 100 : 80)),
    );
    const given = Float32Array.from({ length: 4 * width * atlas.height }, (_, i) => (i * 7919) % 101);
    const inside = interreflectedInCells(divided, given);
    for (const { from, to } of divided.cells)
      for (const [i, j] of [
        [0, 0],
        [1, 0],
        [0, 1],
        [1, 1],
      ])
        for (let k = 0; k < 4; k++)
          expect(inside[4 * (to + 4 * j * width + 4 * i) + k]).toBe(given[4 * (from + j * width + i) + k]);
  });
});
