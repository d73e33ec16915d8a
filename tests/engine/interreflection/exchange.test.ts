/** Form factors between patches: published rectangle factors, closure and reciprocity of random rooms, and two
 * independent routes for patches in any position. */
import { describe, expect, it } from "vitest";
import { exchangeOf } from "../../../src/engine/interreflection/exchange.ts";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { PairKernel } from "../../../src/engine/interreflection/pair-exchange.ts";
import { cutPatches, type Patches, patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { surfaceGrid } from "../../../src/engine/interreflection/surface-grid.ts";
import { elementToPolygon } from "../../../src/geometry/polygon-factor.ts";
import type { Blocker } from "../../../src/scene/scene.ts";
import type { Surface } from "../../../src/scene/surface.ts";
import { randomStream } from "../../support/random-stream.ts";
import { boxCorners, boxSurfaces, roomSurfaces, surfaceOf } from "../../support/rooms.ts";
import { boxMesh } from "../../support/solids.ts";

const GREY = { ceiling: 0.5, walls: 0.5, floor: 0.5 };

/** Factor from one whole surface to another. */
function surfaceFactor(patches: Patches, factors: Float32Array, s: number, t: number): number {
  let flux = 0;
  let area = 0;
  for (let i = 0; i < patches.count; i++) {
    if (patches.surface[i] !== s) continue;
    area += patches.area[i];
    for (let j = 0; j < patches.count; j++)
      if (patches.surface[j] === t) flux += patches.area[i] * factors[i * patches.count + j];
  }
  return flux / area;
}

describe("factors between patches", () => {
  it("sum to the published factors of whole rectangles", () => {
    // C-11 and C-14 of Howell's catalogue, recomputed; the cube's 0.1998 and 0.20004 are in every textbook.
    const cases = [
      { size: [1, 1, 1], opposite: 0.1998249, adjacent: 0.20004378 },
      { size: [2, 2, 1], opposite: 0.41525328, adjacent: 0.1166264 },
      { size: [1, 2, 1], opposite: 0.28587538, adjacent: 0.2328526 },
    ] as const;
    let worst = 0;
    for (const { size, opposite, adjacent } of cases) {
      const patches = patchesOf(roomSurfaces(size[0], size[1], size[2], GREY), 200);
      const { factors } = exchangeOf(new Gather(patches, []));
      worst = Math.max(worst, Math.abs(surfaceFactor(patches, factors, 0, 1) - opposite));
      if (size[0] === size[1] && size[1] === size[2])
        worst = Math.max(worst, Math.abs(surfaceFactor(patches, factors, 0, 2) - adjacent));
    }
    console.log(`published rectangle factors: worst error ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-7);
  });

  it("close every random empty room and keep reciprocity", () => {
    const random = randomStream(3);
    let closure = 0;
    let sloped = 0;
    let reciprocity = 0;
    for (let k = 0; k < 8; k++) {
      const rise = k % 2 === 0 ? 0 : 0.2 + random();
      const room = roomSurfaces(2 + 4 * random(), 2 + 4 * random(), 2 + random(), GREY, rise);
      const patches = patchesOf(room, 180);
      const exchange = exchangeOf(new Gather(patches, []));
      if (rise === 0) closure = Math.max(closure, exchange.closureError);
      else sloped = Math.max(sloped, exchange.closureError);
      reciprocity = Math.max(reciprocity, worstReciprocity(patches, exchange.factors));
    }
    console.log(
      `closure: worst error ${closure.toExponential(1)} of box rooms, ${sloped.toExponential(1)} under a slope;` +
        ` reciprocity ${reciprocity.toExponential(1)}`,
    );
    // Closed forms lose only rounding; under a slope the outer integral is Gauss's, and its error
    // weighs most on the thin slivers that a slope cuts off.
    expect(closure).toBeLessThan(1e-10);
    expect(sloped).toBeLessThan(5e-3);
    // Factors are kept in single precision.
    expect(reciprocity).toBeLessThan(2e-7);
  });

  it("close a room with a turned island and a hood, within the error of quadrature", () => {
    const { surfaces, blockers } = furnished(0.35, 0.5);
    const patches = patchesOf(surfaces, 500);
    const exchange = exchangeOf(new Gather(patches, blockers));
    console.log(
      `furnished room: worst error of a row ${exchange.closureError.toFixed(4)}, mean ${exchange.meanClosureError.toFixed(5)},` +
        ` ${exchange.partPairs} pairs that a solid can part`,
    );
    expect(exchange.meanClosureError).toBeLessThan(0.004);
    expect(exchange.closureError).toBeLessThan(0.05);
    let after = 0;
    for (let i = 0; i < patches.count; i++) {
      let sum = 0;
      for (let j = 0; j < patches.count; j++) sum += exchange.factors[i * patches.count + j];
      after = Math.max(after, Math.abs(sum - 1));
    }
    console.log(`rows as they are used: worst error ${after.toExponential(1)}`);
    expect(after).toBeLessThan(2e-4);
    expect(worstReciprocity(patches, exchange.factors)).toBeLessThan(2e-7);
  });

  it("take what is flat, tiny, round or absurd without hanging", () => {
    const flat = {
      ...roomSurfaces(4, 4, 3, GREY)[0],
      vertices: [
        [0, 0, 0],
        [1, 0, 0],
        [2, 0, 0],
      ] as const,
    };
    const round = {
      ...roomSurfaces(4, 4, 3, GREY)[0],
      vertices: Array.from({ length: 700 }, (_, k): readonly [number, number, number] => [
        2 + Math.cos((2 * Math.PI * k) / 700),
        2 + Math.sin((2 * Math.PI * k) / 700),
        0,
      ]),
    };
    const street = roomSurfaces(1e5, 0.01, 3, GREY);
    expect(patchesOf([flat], 100).count).toBe(0);
    expect(patchesOf([], 100).count).toBe(0);
    expect(patchesOf(street, 100).count).toBeLessThan(4000);
    const patches = patchesOf([round, roomSurfaces(4, 4, 3, GREY)[1]], 12);
    const { factors } = exchangeOf(new Gather(patches, []));
    // A disc of radius 1 under a 4 m square 3 m up: about what the square gives its centre, 0.3577 at mid height 3 m.
    const found = surfaceFactor(patches, factors, 0, 1);
    expect(found).toBeGreaterThan(0.32);
    expect(found).toBeLessThan(0.3577);
  });

  it("agree between the contour integral and the plain area integral, in any position", () => {
    const { surfaces } = furnished(0.35, 0.7);
    const patches = cutPatches(surfaces, 0.5);
    const kernel = new PairKernel(patches);
    const random = randomStream(5);
    let worst = 0;
    let met = 0;
    for (let k = 0; k < 4000; k++) {
      const i = Math.floor(random() * patches.count);
      const j = Math.floor(random() * patches.count);
      if (patches.surface[i] === patches.surface[j]) continue;
      const found = kernel.exchange(i, j);
      if (found === 0) continue;
      met++;
      const scale = Math.min(patches.area[i], patches.area[j]);
      worst = Math.max(worst, Math.abs(found - areaIntegral(patches, i, j)) / scale);
    }
    console.log(
      `pairs in any position: worst error ${worst.toExponential(1)} of the smaller patch, ${met} pairs`,
    );
    expect(met).toBeGreaterThan(500);
    // The plain route itself is good to about 1 % of the factor where patches meet at an edge.
    expect(worst).toBeLessThan(6e-3);
  });
});

function worstReciprocity(patches: Patches, factors: Float32Array): number {
  const n = patches.count;
  let worst = 0;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const there = patches.area[i] * factors[i * n + j];
      const back = patches.area[j] * factors[j * n + i];
      if (there + back > 0) worst = Math.max(worst, Math.abs(there - back) / (there + back));
    }
  return worst;
}

function furnished(turn: number, rise: number): { surfaces: Surface[]; blockers: Blocker[] } {
  const low = [1.5, 1.55, 0] as const;
  const high = [3.9, 2.65, 0.92] as const;
  const c = boxCorners(low, high, turn);
  const hood = [
    [2.2, 1.8, 1.9],
    [2.9, 2.4, 2.3],
  ] as const;
  return {
    surfaces: [
      ...roomSurfaces(5.4, 4.2, 2.7, GREY, rise, [[c[0], c[2], c[3], c[1]]]),
      ...boxSurfaces("island top", low, high, 0.4, { turn }),
      ...boxSurfaces("body", hood[0], hood[1], 0.4, { bottom: true }),
    ],
    blockers: [
      { name: "island", kind: "island", mesh: boxMesh(low, high, turn), transmittance: 0 },
      { name: "hood", kind: "body", mesh: boxMesh(hood[0], hood[1]), transmittance: 0 },
    ],
  };
}

/** ∫ over a fine midpoint grid of a whole patch of the point factor to the other; clipped ones by their nodes. */
function areaIntegral(p: Patches, i: number, j: number): number {
  const nx = p.normal[3 * p.surface[i]];
  const ny = p.normal[3 * p.surface[i] + 1];
  const nz = p.normal[3 * p.surface[i] + 2];
  const mx = p.normal[3 * p.surface[j]];
  const my = p.normal[3 * p.surface[j] + 1];
  const mz = p.normal[3 * p.surface[j] + 2];
  const factor = (x: number, y: number, z: number): number => {
    const front =
      (x - p.centre[3 * j]) * mx + (y - p.centre[3 * j + 1]) * my + (z - p.centre[3 * j + 2]) * mz;
    if (front <= 0) return 0;
    const first = p.vertexStart[j];
    return elementToPolygon(x, y, z, nx, ny, nz, p.vertices, p.vertexStart[j + 1] - first, first);
  };
  let sum = 0;
  if (p.whole[i] === 1) {
    const k = 3 * p.vertexStart[i];
    const v = p.vertices;
    const side = 24;
    for (let a = 0; a < side; a++)
      for (let b = 0; b < side; b++) {
        const s = (a + 0.5) / side;
        const t = (b + 0.5) / side;
        const at = (c: number) => v[k + c] + s * (v[k + 3 + c] - v[k + c]) + t * (v[k + 9 + c] - v[k + c]);
        sum += (factor(at(0), at(1), at(2)) * p.area[i]) / (side * side);
      }
    return sum;
  }
  if (p.whole[j] === 1) return areaIntegral(p, j, i);
  for (let n = p.nodeStart[i]; n < p.nodeStart[i + 1]; n++)
    sum += p.nodeWeights[n] * factor(p.nodes[3 * n], p.nodes[3 * n + 1], p.nodes[3 * n + 2]);
  return sum;
}

describe("factors by nodes where patches lie apart", () => {
  const unit = (z: number, up: boolean) =>
    surfaceOf(
      up ? "floor" : "ceiling",
      up
        ? [
            [0, 0, z],
            [1, 0, z],
            [1, 1, z],
            [0, 1, z],
          ]
        : [
            [0, 0, z],
            [0, 1, z],
            [1, 1, z],
            [1, 0, z],
          ],
      0.5,
    );

  it("exchange what the closed form of two squares says, at every distance", () => {
    let worst = 0;
    for (const h of [0.6, 1, 1.5, 2, 2.5, 3, 4, 4.5, 6, 9]) {
      const patches = patchesOf([unit(0, true), unit(h, false)], 1);
      let found = 0;
      const kernel = new PairKernel(patches);
      for (let i = 0; i < patches.count; i++)
        for (let j = 0; j < patches.count; j++)
          if (patches.surface[i] === 0 && patches.surface[j] === 1) found += kernel.exchange(i, j);
      // C-11 of Howell's catalogue with a = b = 1/h; the exchange area is the factor times 1 m².
      const x = 1 / h;
      const r = Math.sqrt(1 + x * x);
      const exact =
        (2 / (Math.PI * x * x)) *
        (Math.log(Math.sqrt((1 + x * x) ** 2 / (1 + 2 * x * x))) +
          2 * x * r * Math.atan(x / r) -
          2 * x * Math.atan(x));
      worst = Math.max(worst, Math.abs(found / exact - 1));
    }
    console.log(`two squares at ten distances: worst error ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(2e-4);
  });

  it("send to a point what the closed polygon sends, from four radii on", () => {
    const patches = patchesOf([unit(2, false)], 1);
    const gather = new Gather(patches, []);
    let worst = 0;
    for (let i = 0; i < patches.count; i++)
      for (const share of [0.5, 1, 1.5, 2, 3, 3.9, 4.1, 6, 10]) {
        const z = 2 - share * patches.radius[i];
        for (const [x, y] of [
          [patches.centre[3 * i], patches.centre[3 * i + 1]],
          [patches.centre[3 * i] + 0.8 * (2 - z), patches.centre[3 * i + 1]],
        ]) {
          const first = patches.vertexStart[i];
          const corners = patches.vertices.subarray(3 * first, 3 * patches.vertexStart[i + 1]);
          const exact = elementToPolygon(x, y, z, 0, 0, 1, corners);
          worst = Math.max(worst, Math.abs(gather.factor(x, y, z, 0, 0, 1, i) / exact - 1));
        }
      }
    console.log(`a patch at eighteen places: worst error ${worst.toExponential(1)}`);
    // Four nodes a patch: (r/d)⁴ at four radii, a few parts in ten thousand.
    expect(worst).toBeLessThan(5e-4);
  });

  it("has cells whole where the outline turns a third of a cell from another turn", () => {
    // A step in a floor, of a third of the mean cell: a line goes through each of its two turns.
    const size = 1;
    const step = 0.3 * size;
    const floor = surfaceOf(
      "floor",
      [
        [0, 0, 0],
        [6, 0, 0],
        [6, 3, 0],
        [3 + step, 3, 0],
        [3 + step, 4.5, 0],
        [3, 4.5, 0],
        [3, 6, 0],
        [0, 6, 0],
      ],
      0.5,
    );
    const { cells, columnLines } = surfaceGrid(floor, size);
    expect(cells.filter(({ whole }) => !whole)).toEqual([]);
    for (const turn of [3, 3 + step])
      expect(Math.min(...columnLines.map((x) => Math.abs(x - turn)))).toBeLessThan(1e-9);
  });
});
