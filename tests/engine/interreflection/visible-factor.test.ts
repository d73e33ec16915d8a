/** Visible factors past convex solids against lines of sight, and against what must hold of any union. */
import { describe, expect, it } from "vitest";
import { VisibleFactor } from "../../../src/engine/interreflection/visible-factor.ts";
import { frame } from "../../../src/geometry/frame.ts";
import { elementToPolygon } from "../../../src/geometry/polygon-factor.ts";
import { type Polyhedron, polyhedraOf, segmentMeetsPolyhedron } from "../../../src/geometry/polyhedron.ts";
import { box, placed, revolved } from "../../../src/geometry/solids.ts";
import { randomStream } from "../../support/random-stream.ts";

/** Corner, and sides along x and y of a rectangle that faces down. */
function ceilingPiece(x: number, y: number, side: number, z: number): Float64Array {
  return Float64Array.of(x, y, z, x, y + side, z, x + side, y + side, z, x + side, y, z);
}

/** Factor of a square of 1 m, 2.3 m over a point that looks up, by lines of sight to `side` × `side` places of it. */
function byLines(
  piece: Float64Array,
  x: number,
  y: number,
  solids: readonly { readonly solid: Polyhedron; readonly passes: number }[],
  side: number,
): number {
  let sum = 0;
  for (let i = 0; i < side; i++)
    for (let j = 0; j < side; j++) {
      const px = piece[0] + (i + 0.5) / side;
      const py = piece[1] + (j + 0.5) / side;
      const dd = (px - x) ** 2 + (py - y) ** 2 + 2.3 ** 2;
      let passed = 1;
      for (const { solid, passes } of solids)
        if (segmentMeetsPolyhedron(solid, x, y, 0, px, py, 2.3, 1e-6)) passed *= passes;
      sum += (passed * 2.3 ** 2) / (Math.PI * dd * dd * side * side);
    }
  return sum;
}

describe("the visible factor", () => {
  it("is what lines of sight say, whatever overlaps or lets light through", () => {
    const random = randomStream(5);
    let worst = 0;
    let partly = 0;
    for (let scene = 0; scene < 30; scene++) {
      const sight = new VisibleFactor();
      const solids = Array.from({ length: 1 + (scene % 4) }, () => {
        const at = frame([random() * 2, random() * 2, 0.5 + 0.9 * random()], {
          turn: 6 * random(),
          tilt: random(),
          spin: 0,
        });
        const mesh =
          random() < 0.5
            ? box(0.2 + random(), 0.2 + random(), 0.2 + random())
            : revolved(
                [
                  [0.4, -0.2],
                  [0.3, 0.1],
                  [0.1, 0.2],
                ],
                16,
              );
        const passes = random() < 0.3 ? 0.5 : 0;
        const solid = polyhedraOf(placed(mesh, at));
        expect(solid.length).toBe(1);
        sight.add(solid[0], passes);
        return { solid: solid[0], passes };
      });
      const piece = ceilingPiece(2 * random() - 0.5, 2 * random() - 0.5, 1, 2.3);
      const [x, y] = [2 * random(), 2 * random()];
      sight.from(x, y, 0, 0, 0, 1);
      const all = solids.map((_, k) => k);
      const found = sight.factor(piece, 4, 0, all);
      const whole = elementToPolygon(x, y, 0, 0, 0, 1, piece);
      const exact = byLines(piece, x, y, solids, 160);
      if (exact > 0.02 * whole && exact < 0.98 * whole) partly++;
      worst = Math.max(worst, Math.abs(found - exact) / whole);
      expect(Math.abs(sight.share(piece, 4, 0, all, 0, 0, 0, Infinity) - found / whole)).toBeLessThan(1e-12);
      // In whatever order the solids are asked.
      expect(Math.abs(sight.factor(piece, 4, 0, [...all].reverse()) - found)).toBeLessThan(1e-12);
    }
    console.log(
      `visible factors: worst error ${worst.toExponential(1)} of the whole, ${partly} of 30 in part`,
    );
    expect(partly).toBeGreaterThan(8);
    // 160 × 160 lines: an outline across them leaves about its length over 160, mostly cancelling.
    expect(worst).toBeLessThan(4e-3);
  });

  it("is told of very many solids one over another as of few (2026-11-29: each doubled the work)", () => {
    const random = randomStream(8);
    let worst = 0;
    for (let scene = 0; scene < 12; scene++) {
      const sight = new VisibleFactor();
      const solids = Array.from({ length: 26 }, (_, i) => {
        // A row that runs through itself, seen from below its middle: none hides another whole.
        const at = frame([0.02 * (i - 13), 1.5, 0.9 + 0.002 * i], { turn: 0.1 * random(), tilt: 0, spin: 0 });
        const [solid] = polyhedraOf(placed(box(0.6, 0.2, 0.3), at));
        const passes = i % 9 === 8 ? 0.5 : 0;
        sight.add(solid, passes);
        return { solid, passes };
      });
      const piece = ceilingPiece(-0.5, 1, 1, 2.3);
      const [x, y] = [0.4 * random() - 0.2, 1.6 + 0.2 * random()];
      sight.from(x, y, 0, 0, 0, 1);
      const all = solids.map((_, k) => k);
      const found = sight.factor(piece, 4, 0, all);
      const whole = elementToPolygon(x, y, 0, 0, 0, 1, piece);
      const exact = byLines(piece, x, y, solids, 100);
      expect(exact).toBeGreaterThan(0.02 * whole);
      worst = Math.max(worst, Math.abs(found - exact) / whole);
      expect(Math.abs(sight.share(piece, 4, 0, all, 0, 0, 0, Infinity) - found / whole)).toBeLessThan(1e-12);
      expect(Math.abs(sight.factor(piece, 4, 0, [...all].reverse()) - found)).toBeLessThan(1e-12);
    }
    console.log(`past 26 solids: worst error ${worst.toExponential(1)} of the whole`);
    // 100 × 100 lines: an outline across them leaves about its length over 100, mostly cancelling.
    expect(worst).toBeLessThan(6e-3);
  });

  it("hides nothing behind the polygon and everything from within", () => {
    const sight = new VisibleFactor();
    const [above] = polyhedraOf(placed(box(5, 5, 0.2), frame([0.5, 0.5, 2.5])));
    const [about] = polyhedraOf(placed(box(1, 1, 1), frame([0.5, 0.5, 0])));
    sight.add(above, 0);
    sight.add(about, 0);
    const piece = ceilingPiece(0, 0, 1, 2.3);
    sight.from(0.5, 0.5, 0, 0, 0, 1);
    expect(sight.share(piece, 4, 0, [0], 0, 0, 0, Infinity)).toBe(1);
    expect(sight.share(piece, 4, 0, [1], 0, 0, 0, Infinity)).toBe(0);
  });
});
