import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  area,
  counterClockwise,
  depthInside,
  isSimple,
  rectangle,
  signedArea,
} from "../../src/geometry/polygon.ts";
import {
  clip,
  convexPieces,
  difference,
  inset,
  insidePoint,
  intersection,
  isConvex,
} from "../../src/geometry/polygon-pieces.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";

/** A star about (0, 0), simple because its corners go round in order; often concave. */
const star = fc
  .array(
    fc.tuple(fc.double({ min: 0.2, max: 1, noNaN: true }), fc.double({ min: -0.45, max: 0.45, noNaN: true })),
    { minLength: 4, maxLength: 10 },
  )
  .map((spokes) =>
    spokes.map(([r, wobble], i): Vec2 => {
      const angle = ((i + wobble) / spokes.length) * 2 * Math.PI;
      return [r * Math.cos(angle), r * Math.sin(angle)];
    }),
  );
const shift = fc.tuple(
  fc.double({ min: -1, max: 1, noNaN: true }),
  fc.double({ min: -1, max: 1, noNaN: true }),
);

describe("polygons", () => {
  it("divide into convex pieces of the same area", () => {
    let worst = 0;
    fc.assert(
      fc.property(star, (polygon) => {
        const pieces = convexPieces(polygon);
        expect(pieces.every(isConvex)).toBe(true);
        worst = Math.max(worst, Math.abs(area(pieces) / signedArea(polygon) - 1));
      }),
      { numRuns: 400 },
    );
    expect(worst).toBeLessThan(1e-9);
    console.log(`worst error of area by convex pieces: ${worst.toExponential(1)}`);
  });

  it("obey inclusion and exclusion: A∩B + A∖B = A, and A∩B is the same both ways", () => {
    let worst = 0;
    fc.assert(
      fc.property(star, star, shift, (p, q, [dx, dy]) => {
        const a = convexPieces(p);
        const b = convexPieces(q.map(([x, y]): Vec2 => [x + dx, y + dy]));
        const both = area(intersection(a, b));
        const rest = area(difference(a, b));
        worst = Math.max(worst, Math.abs(both + rest - area(a)), Math.abs(both - area(intersection(b, a))));
      }),
      { numRuns: 400 },
    );
    // Pieces below 1e-12 m² are dropped, a few dozen at most; corners within 1e-9 m are one.
    expect(worst).toBeLessThan(1e-7);
    console.log(`worst error of inclusion and exclusion: ${worst.toExponential(1)} m²`);
  });

  it("agree with counting random points", () => {
    fc.assert(
      fc.property(star, shift, (p, [x, y]) => {
        const inside = depthInside([x, y], p) > 1e-6;
        const outside = depthInside([x, y], p) < -1e-6;
        const found = convexPieces(p).some((piece) => depthInside([x, y], piece) > -1e-9);
        if (inside) expect(found).toBe(true);
        if (outside) expect(found).toBe(false);
      }),
      { numRuns: 400 },
    );
  });

  it("know when they cross themselves", () => {
    expect(isSimple(rectangle(0, 0, 2, 1))).toBe(true);
    const bow: Vec2[] = [
      [0, 0],
      [1, 1],
      [1, 0],
      [0, 1],
    ];
    expect(isSimple(bow)).toBe(false);
    const spike: Vec2[] = [
      [0, 0],
      [2, 0],
      [1, 0],
      [1, 1],
    ];
    expect(isSimple(spike)).toBe(false);
    fc.assert(fc.property(star, (p) => isSimple(p)));
  });

  it("turn counter-clockwise and lose repeated corners", () => {
    const clockwise: Vec2[] = [
      [0, 0],
      [0, 1],
      [1, 1],
      [1, 1],
      [1, 0],
    ];
    const turned = counterClockwise(clockwise);
    expect(turned).toHaveLength(4);
    expect(signedArea(turned)).toBe(1);
  });

  it("are cut where a straight knife says", () => {
    const l: Vec2[] = [
      [0, 0],
      [2, 0],
      [2, 1],
      [1, 1],
      [1, 2],
      [0, 2],
    ];
    expect(signedArea(clip(l, rectangle(0.5, 0.5, 1, 1)))).toBeCloseTo(0.75, 12);
    expect(clip(l, rectangle(1.5, 1.5, 1, 1))).toEqual([]);
    expect(area(difference([rectangle(0, 0, 2, 1)], [rectangle(0.5, 0.25, 1, 0.5)]))).toBeCloseTo(1.5, 12);
    expect(difference([rectangle(0, 0, 1, 1)], [rectangle(-1, -1, 3, 3)])).toEqual([]);
    expect(difference([rectangle(0, 0, 1, 1)], [rectangle(1, 0, 1, 1)])).toHaveLength(1);
  });

  it("shrink by a margin, or say that nothing is left", () => {
    const l: Vec2[] = [
      [0, 0],
      [2, 0],
      [2, 1],
      [1, 1],
      [1, 2],
      [0, 2],
    ];
    const inner = inset(l, 0.1) as Vec2[];
    // The L of arms 1 m less 0.1 m all round: 1.8 × 0.8 + 0.8 × 1.0
    expect(signedArea(inner)).toBeCloseTo(1.8 * 0.8 + 0.8 * 1.0, 12);
    expect(inset(l, 0.6)).toBeUndefined();
    expect(inset(rectangle(0, 0, 1, 1), 0.5)).toBeUndefined();
  });

  it("have a point inside", () => {
    fc.assert(
      fc.property(star, (p) => {
        const point = insidePoint(convexPieces(p)) as Vec2;
        expect(depthInside(point, p)).toBeGreaterThan(0);
      }),
    );
    expect(insidePoint([])).toBeUndefined();
  });
});
