/** Fields calculated where they bend: how near they come, and how many nodes that takes. */
import { describe, expect, it } from "vitest";
import {
  type LatticeToFill,
  type NodeValues,
  refinedFields,
} from "../../../src/engine/surfaces/refined-field.ts";

type Field = (x: number, y: number) => number;

const inPlace = (columns: number, rows: number): LatticeToFill => ({
  lattice: { columns, rows },
  nodes: new Uint8Array(columns * rows).fill(2),
});

/** Fills one lattice with a field over its node numbers. */
function filled(
  lattice: LatticeToFill,
  fields: readonly Field[],
  options: { tolerance?: number; most?: number; rounds?: number } = {},
) {
  const { columns } = lattice.lattice;
  const calls: number[] = [];
  const asked = new Set<number>();
  let twice = 0;
  const ask = ([nodes]: readonly (readonly number[])[]): NodeValues[] => {
    calls.push(nodes.length);
    for (const node of nodes) {
      if (asked.has(node)) twice++;
      asked.add(node);
    }
    const values = fields.map((f) => nodes.map((n) => f(n % columns, Math.floor(n / columns))));
    return [{ values, scales: values.map((each) => each.map(() => 1)) }];
  };
  const [found] = refinedFields([lattice], ask, {
    layers: fields.length,
    tolerance: options.tolerance ?? 0.01,
    most: options.most ?? 1e6,
    rounds: options.rounds ?? 9,
  });
  let worst = 0;
  fields.forEach((f, l) => {
    found[l].forEach((value, n) => {
      if (lattice.nodes[n] === 2)
        worst = Math.max(worst, Math.abs(value - f(n % columns, Math.floor(n / columns))));
    });
  });
  return { found, worst, asked, calls, twice };
}

describe("a field on an even lattice", () => {
  it("is exact where it is bilinear, from the first nodes alone", () => {
    const { worst, asked, calls } = filled(inPlace(90, 45), [
      (x, y) => 1 + 0.01 * x - 0.02 * y + 0.001 * x * y,
    ]);
    expect(worst).toBeLessThan(1e-5);
    expect(calls).toHaveLength(1);
    expect(asked.size).toBeLessThan(0.35 * 90 * 45);
  });

  it("comes within six tenths of the tolerance where it bends smoothly, never asking twice", () => {
    const f: Field = (x, y) => 1 + Math.exp(-((x - 50) ** 2 + (y - 20) ** 2) / 300);
    const { worst, asked, twice } = filled(inPlace(91, 46), [f], { tolerance: 0.02 });
    console.log(`worst error ${worst.toExponential(1)} at tolerance 0.02, ${asked.size} of ${91 * 46} nodes`);
    // Biggest where the surplus was just let pass: s/4 each way, and a little for its fourth derivative.
    expect(worst).toBeLessThan(0.012);
    expect(asked.size).toBeLessThan(0.6 * 91 * 46);
    expect(twice).toBe(0);
  });

  it("follows a step to the last node", () => {
    const step: Field = (x) => (x < 37 ? 1 : 2);
    const { worst, asked } = filled(inPlace(90, 40), [step]);
    expect(worst).toBe(0);
    expect(asked.size).toBeLessThan(0.6 * 90 * 40);
  });

  it("is refined for the layer that bends, though the other is even", () => {
    const bent: Field = (x) => 1 + Math.max(0, x - 31) / 20;
    const { worst } = filled(inPlace(64, 32), [() => 1, bent], { tolerance: 0.005 });
    expect(worst).toBeLessThan(0.005);
  });

  it("stays within its bounds of nodes and rounds, and still fills every node", () => {
    const rough: Field = (x, y) => 2 + Math.sin(3 * x) * Math.cos(2 * y);
    const first = filled(inPlace(80, 80), [rough], { rounds: 0 });
    const bounded = filled(inPlace(80, 80), [rough], { most: 100 });
    expect(first.calls).toHaveLength(1);
    // What one round asks for is asked in one go: the bound stops the next.
    expect(bounded.calls).toHaveLength(2);
    for (const { found } of [first, bounded]) expect(found[0].every((value) => value > 0.9)).toBe(true);
  });

  it("knows nothing of nodes without a point, and does not interpolate across an outline", () => {
    const lattice = inPlace(40, 30);
    // A hole in the middle, its rim moved to its edge.
    for (let y = 10; y <= 20; y++)
      for (let x = 12; x <= 24; x++)
        lattice.nodes[40 * y + x] = x === 12 || x === 24 || y === 10 || y === 20 ? 1 : 0;
    const f: Field = (x, y) => 1 + 0.02 * x + 0.01 * y;
    const { found, worst, asked } = filled(lattice, [f]);
    expect(worst).toBeLessThan(1e-5);
    for (const node of asked) expect(lattice.nodes[node]).not.toBe(0);
    lattice.nodes.forEach((state, n) => {
      if (state === 0) expect(found[0][n]).toBe(0);
      if (state === 1) expect(asked.has(n)).toBe(true);
    });
  });

  it("takes nothing between for a node that was moved to the surface's edge", () => {
    const lattice = inPlace(41, 33);
    const moved = [5, 15, 22].flatMap((x) => [3, 17, 26].map((y) => 41 * y + x));
    for (const node of moved) lattice.nodes[node] = 1;
    const isMoved: Field = (x, y) => (moved.includes(41 * y + x) ? 3 : 1);
    const { found, asked } = filled(lattice, [isMoved]);
    for (const node of moved) expect(found[0][node]).toBe(3);
    expect(asked.size).toBeLessThan(0.7 * 41 * 33);
  });

  it("takes the narrowest lattices", () => {
    for (const [columns, rows] of [
      [2, 2],
      [2, 60],
      [3, 2],
    ]) {
      const { worst } = filled(inPlace(columns, rows), [(x, y) => 1 + Math.sin(x + y)]);
      expect(worst).toBeLessThan(0.01);
    }
  });
});
