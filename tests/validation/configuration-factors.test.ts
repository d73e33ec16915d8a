/**
 * Configuration factors against published values and independently integrated ones.
 *
 * Catalogue numbers (B-…, C-…): J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors.
 * Eight-digit values: closed form and adaptive quadrature agreeing to all digits, computed for this project.
 * Published values carry their source beside them. Tolerance: half a unit of the last printed digit.
 */
import { afterAll, describe, expect, it } from "vitest";
import { elementToPolygon } from "../../src/geometry/polygon-factor.ts";
import { exchangeParallel, exchangePerpendicular } from "../../src/geometry/rectangle-factors.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import {
  coaxialDiscs,
  elementToCylinder,
  elementToParallelDisc,
  elementToParallelRectangleCorner,
  elementToPerpendicularDisc,
  elementToPerpendicularRectangleCorner,
  elementToSphere,
  opposedRectangles,
  rectanglesWithCommonEdge,
} from "../support/configuration-factors.ts";

let worst = 0;
/** Equal to a value printed with eight (or `digits`) decimals. */
function printed(actual: number, expected: number, digits = 8) {
  const error = Math.abs(actual - expected);
  if (digits >= 7) worst = Math.max(worst, error);
  expect(error).toBeLessThanOrEqual(0.5001 * 10 ** -digits);
}
afterAll(() => {
  console.log(`worst error configuration factors ${worst.toExponential(2)}`);
  expectAccuracy("configuration factors", worst);
});

const radians = Math.PI / 180;

describe("element factors", () => {
  it.each([
    [1, 0.1, 0.00990099],
    [1, 0.25, 0.05882353],
    [1, 0.5, 0.2],
    [1, 1, 0.5],
    [1, 2, 0.8],
    [0.75, 0.15, 0.03846154],
  ])("parallel coaxial disc h %d r %d", (h, r, F) => printed(elementToParallelDisc(h, r), F));

  it.each([
    [1, 0.5, 0.5, 0.14644661],
    [1, 0.5, 1, 0.06587843],
    [1, 1, 1, 0.2763932],
    [1, 0.25, 1, 0.01586134],
    [0.8, 0.2, 0.4, 0.03918231],
    [0.75, 0.15, 1.5, 0.00161802],
  ])("parallel offset disc h %d r %d a %d", (h, r, a, F) => printed(elementToParallelDisc(h, r, a), F));

  it.each([
    [1, 0.5, 1, 0.05815631],
    [1, 0.5, 2, 0.02038876],
    [1, 0.9, 1, 0.15112621],
    [0.8, 0.2, 0.8, 0.01537341],
  ])("perpendicular disc h %d r %d a %d", (h, r, a, F) => printed(elementToPerpendicularDisc(h, r, a), F));

  it.each([
    [1, 1, 1, 0.13853161],
    [2, 1, 1, 0.16737501],
    [0.5, 0.5, 1, 0.05986412],
    [1, 2.5, 1, 0.17138865],
    [3, 0.5, 1, 0.11008968],
    [1, 0.5, 1, 0.09018437],
    [10, 10, 1, 0.24797141],
  ])("parallel rectangle %d × %d at %d, also by contour", (a, b, c, F) => {
    printed(elementToParallelRectangleCorner(a, b, c), F);
    // Facing down, so counter-clockwise seen from below.
    printed(elementToPolygon(0, 0, 0, 0, 0, 1, [0, 0, c, 0, b, c, a, b, c, a, 0, c]), F);
    printed(elementToPolygon(0, 0, 0, 0, 0, 1, [0, 0, c, a, 0, c, a, b, c, 0, b, c]), -F);
  });

  it.each([
    [1, 1, 1, 0.0557342],
    [1, 2, 0.5, 0.1354884],
    [2, 1, 1, 0.09506794],
    [0.6, 2, 0.3, 0.13753399],
    [1, 1, 0.1, 0.22173867],
  ])("perpendicular rectangle %d × %d at %d, also by contour and clipped at the horizon", (a, b, c, F) => {
    printed(elementToPerpendicularRectangleCorner(a, b, c), F);
    const facing = [c, 0, 0, c, 0, a, c, b, a, c, b, 0];
    printed(elementToPolygon(0, 0, 0, 0, 0, 1, facing), F);
    // The same wall continued below the horizon by an arbitrary amount.
    printed(elementToPolygon(0, 0, 0, 0, 0, 1, [c, 0, -0.7, c, 0, a, c, b, a, c, b, -2]), F);
  });

  it.each([
    [0, 0.25],
    [30, 0.2165064],
    [60, 0.125],
    [75, 0.0704104],
    [90, 0.0288344],
    [110, 0.0021496],
  ])("sphere at two radii, tilt %d°", (tilt, F) => printed(elementToSphere(2, tilt * radians), F, 7));

  it.each([
    [1, 0.5, 1, 0.23611743],
    [2, 0.5, 1, 0.24774208],
    [1, 0.1, 1, 0.0421886],
    [0.3, 0.05, 0.5, 0.03296865],
  ])("cylinder l %d r %d h %d", (l, r, h, F) => printed(elementToCylinder(l, r, h), F));

  it("endless cylinder is r/2h on one side", () => {
    expect(elementToCylinder(1e5, 0.5, 2)).toBeCloseTo(0.125, 6);
  });
});

describe("surfaces to surfaces", () => {
  it.each([
    [0.1, 0.1, 0.00316206],
    [0.5, 0.5, 0.06858959],
    [1, 1, 0.1998249],
    [1, 2, 0.28587538],
    [2, 2, 0.41525328],
    [2, 3, 0.47557644],
    [5, 5, 0.69024469],
    [10, 10, 0.82699452],
  ])("C-11 X %d Y %d", (X, Y, F) => printed(opposedRectangles(X, Y, 1), F));

  it.each([
    [0.1, 0.1, 0.28188781],
    [0.5, 0.5, 0.24063601],
    [1, 1, 0.20004378],
    [1, 2, 0.2328526],
    [2, 1, 0.1164263],
    [1, 0.5, 0.14618668],
    [0.5, 1, 0.29237336],
    [2, 2, 0.1492998],
    [5, 5, 0.08810239],
  ])("C-14 W %d H %d", (W, H, F) => printed(rectanglesWithCommonEdge(W, H, 1), F));

  it.each([
    [1, 1, 1, (3 - Math.sqrt(5)) / 2],
    [1, 1, 3, (11 - Math.sqrt(117)) / 2],
    [0.1, 0.2, 0.5, 0.13393125],
    [0.5, 1, 2, 0.19223594],
    [1, 1, 0.5, 0.6096118],
    [1, 2, 1, 0.76393202],
    [2, 1, 1, 0.19098301],
  ])("C-41 r %d, %d, gap %d", (r1, r2, a, F) => printed(coaxialDiscs(r1, r2, a), F));

  it("offset unit squares", () => {
    printed(exchangeParallel(0, 1, 0, 1, 1, 2, 0, 1, 1), 0.08605049);
    printed(exchangeParallel(0, 1, 0, 1, 1, 2, 1, 2, 1), 0.04332741);
  });

  it("a closed box sums to one from any cell of its floor", () => {
    // 4 × 3 × 2.5 m; the floor cell is [1.1, 1.6] × [0.2, 0.9].
    const [x1, x2, y1, y2] = [1.1, 1.6, 0.2, 0.9];
    const total =
      exchangeParallel(x1, x2, y1, y2, 0, 4, 0, 3, 2.5) +
      exchangePerpendicular(x1, x2, y1, y2, 0, 2.5, 0, 3) +
      exchangePerpendicular(4 - x2, 4 - x1, y1, y2, 0, 2.5, 0, 3) +
      exchangePerpendicular(y1, y2, x1, x2, 0, 2.5, 0, 4) +
      exchangePerpendicular(3 - y2, 3 - y1, x1, x2, 0, 2.5, 0, 4);
    console.log(`worst error closed box row sum ${Math.abs(total / 0.35 - 1).toExponential(2)}`);
    expect(Math.abs(total / 0.35 - 1)).toBeLessThan(1e-13);
  });
});

describe("published values", () => {
  it("parallel 1 × 1.5, gap 0.5: Siegel & Howell, 4th ed., p. 843", () =>
    printed(opposedRectangles(1, 1.5, 0.5), 0.4756, 4));
  it("discs 0.1 and 0.2, gap 0.5: Siegel & Howell, p. 845", () =>
    printed(coaxialDiscs(0.1, 0.2, 0.5), 0.1339, 4));
  it("discs 0.5 and 1, gap 2: Howell B-22", () => printed(coaxialDiscs(0.5, 1, 2), 0.1922, 4));
  it("opposed squares 0.1998 and squares at a right angle 0.20004: Incropera, table 13.2", () => {
    printed(opposedRectangles(1, 1, 1), 0.1998, 4);
    printed(rectanglesWithCommonEdge(1, 1, 1), 0.20004, 5);
  });
  it("sphere to disc r 1, h 0.5: Rohsenow, Handbook of Heat Transfer, 3rd ed., p. 7.84", () => {
    // The flux share of a point (or sphere): half of one minus the cosine of the half angle.
    printed(0.5 * (1 - 0.5 / Math.hypot(1, 0.5)), 0.2764, 4);
    // The same number as the offset disc with h = r = a: two routes to ½(1 − 1/√5).
    printed(elementToParallelDisc(1, 1, 1), 0.2764, 4);
  });
  it("strip at a right angle to a rectangle, 1, 2, 0.5: Siegel & Howell, p. 842–843", () => {
    // 2 wide, 1 high, the strip half a unit from the common line: a rectangle of vanishing depth.
    const depth = 1e-4;
    const F = exchangePerpendicular(0.5 - depth / 2, 0.5 + depth / 2, 0, 2, 0, 1, 0, 2) / (2 * depth);
    printed(F, 0.2153, 4);
    printed(F, 0.215347, 7);
  });
  it("point sphere to a rectangle 1 × 2, 0.5 from its corner: Howell B-106, as the mean over all normals", () => {
    // Each normal sees the polygon cut by its own horizon, so this walks through every way of clipping.
    const rectangle = [0, 0, 0.5, 0, 2, 0.5, 1, 2, 0.5, 1, 0, 0.5];
    const [rows, columns] = [200, 400];
    let sum = 0;
    for (let i = 0; i < rows; i++) {
      const z = -1 + (2 * (i + 0.5)) / rows;
      const s = Math.sqrt(1 - z * z);
      for (let j = 0; j < columns; j++) {
        const φ = (2 * Math.PI * (j + 0.5)) / columns;
        sum += Math.max(0, elementToPolygon(0, 0, 0, s * Math.cos(φ), s * Math.sin(φ), z, rectangle));
      }
    }
    const F = sum / (rows * columns);
    printed(F, 0.0836, 4);
    expect(F).toBeCloseTo(Math.atan(2 / (0.5 * Math.hypot(1, 2, 0.5))) / (4 * Math.PI), 5);
  });
  it("aligned squares 0.1, gap 0.05: Howell C-13", () =>
    printed(opposedRectangles(0.1, 0.1, 0.05), 0.4153, 4));
  it("cylinder side to base r 1, h 0.5: Howell B-53", () =>
    // Closure and reciprocity: A_base (1 − F_base,base) / A_side.
    printed((Math.PI * (1 - coaxialDiscs(1, 1, 0.5))) / Math.PI, 0.39, 3));
  it("rectangles over an element and an L-shape: Janna, ex. 12.3", () => {
    const a = elementToParallelRectangleCorner(1, 2.5, 1);
    const b = elementToParallelRectangleCorner(3, 0.5, 1);
    const c = elementToParallelRectangleCorner(1, 0.5, 1);
    printed(a, 0.17, 2);
    printed(b, 0.11, 2);
    printed(c, 0.09, 2);
    printed(a + b - c, 0.19, 2);
    // The L as one concave polygon, facing down.
    const L = [0, 0, 1, 0, 2.5, 1, 1, 2.5, 1, 1, 0.5, 1, 3, 0.5, 1, 3, 0, 1];
    expect(elementToPolygon(0, 0, 0, 0, 0, 1, L)).toBeCloseTo(a + b - c, 14);
  });
  it("squares 2 × 2, gap 1: Sachdeva, ex. 10.4", () => printed(opposedRectangles(2, 2, 1), 0.415, 3));
  it("equal discs r = h: Çengel, ex. 13.8", () => printed(coaxialDiscs(1, 1, 1), 0.38, 2));
  it("disc 0.1 to discs 0.05 and 0.08, gap 0.1: Çengel, ex. 13.2 reads 0.11 and 0.28 off a chart", () => {
    printed(coaxialDiscs(0.1, 0.05, 0.1), 0.1172, 4);
    printed(coaxialDiscs(0.1, 0.08, 0.1), 0.27, 4);
  });
});

describe("contour formula against other closed forms", () => {
  it("a fine polygon round a disc, also offset and cut by the horizon of a tilted receiver", () => {
    const n = 20_000;
    const disc = new Float64Array(3 * n);
    // An equal-area polygon errs by O(n⁻²).
    const R = 0.2 * Math.sqrt((2 * Math.PI) / n / Math.sin((2 * Math.PI) / n));
    for (let i = 0; i < n; i++) {
      const φ = (-2 * Math.PI * i) / n;
      disc.set([R * Math.cos(φ), R * Math.sin(φ), 0.8], 3 * i);
    }
    expect(elementToPolygon(0.4, 0, 0, 0, 0, 1, disc)).toBeCloseTo(elementToParallelDisc(0.8, 0.2, 0.4), 8);
    expect(elementToPolygon(0.8, 0, 0, -1, 0, 0, disc)).toBeCloseTo(
      elementToPerpendicularDisc(0.8, 0.2, 0.8),
      8,
    );
  });
  it("a receiver on the base line of an upright wall takes the limit from the front", () => {
    const wall = [0, -1, 0, 0, 1, 0, 0, 1, 1, 0, -1, 1];
    const on = elementToPolygon(0, 0, 0, 0, 0, 1, wall);
    expect(on).toBeCloseTo(elementToPolygon(1e-9, 0, 0, 0, 0, 1, wall), 7);
  });
  it("nothing from the plane itself or from below the horizon", () => {
    const square = [0, 0, 1, 0, 1, 1, 1, 1, 1, 1, 0, 1];
    expect(elementToPolygon(3, 3, 1, 0, 0, 1, square)).toBe(0);
    expect(elementToPolygon(0, 0, 2, 0, 0, 1, square)).toBe(0);
  });
});
