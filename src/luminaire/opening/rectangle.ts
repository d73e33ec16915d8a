/** A flat rectangle across any of the axes, or a line: Gauss × Gauss, both faces. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { ElementRules } from "./element-rules.ts";
import { addFace } from "./facet-polygons.ts";
import type { Half, OpeningKind, OpeningSurface } from "./opening-surface.ts";
import { nodesAlong } from "./quadrature-ladder.ts";

/** A line has this share of its length as width where it is cut in polygons. */
const THIN = 1e-5;

class RectangleOpening implements OpeningSurface {
  readonly kind = "flat rectangle";
  readonly half: Half;
  readonly axis = 2;
  readonly radius: number;
  readonly ends = new Float64Array(6);
  readonly flat = true;
  readonly rotational = false;

  constructor(half: Half) {
    this.half = half;
    this.radius = Math.hypot(...half);
  }

  projectedArea(x: number, y: number, z: number): number {
    // Of the three products two hold the extent that is zero.
    const [a, b, c] = this.half;
    return 4 * (b * c * Math.abs(x) + a * c * Math.abs(y) + a * b * Math.abs(z));
  }

  maximumElements(level: number): number {
    const n = nodesAlong(level, 1, 1);
    return 3 * n * n;
  }

  elements(rules: ElementRules, _px: number, _py: number, _pz: number, level: number): void {
    const { half } = this;
    const [a, b, c] = half;
    // A line keeps whichever extents it has.
    if (c > 0) rules.rectangle(half, 2, a > 0 ? 0 : 1, a > 0 ? 1 : 0, 0, 1, level);
    else if (a >= b) rules.rectangle(half, 1, 0, 2, 0, 1, level);
    else rules.rectangle(half, 0, 1, 2, 0, 1, level);
  }

  sample(_x: number, _y: number, _z: number, s: number, t: number, out: Float64Array, k: number): number {
    const [a, b, c] = this.half;
    // Any two of the three extents may be the plane's; the third is zero.
    out[k] = a * (2 * s - 1);
    out[k + 1] = b * (2 * (a === 0 ? s : t) - 1);
    out[k + 2] = c * (2 * t - 1);
    return 1;
  }

  polygons(rings: number): Vec3[][] {
    const polygons: Vec3[][] = [];
    const [a, b, c] = this.half;
    const [x, y, z] = this.half.map((h) => Math.max(h, THIN * Math.max(a, b, c)));
    // The two longer extents are its plane's.
    addFace([x, y, z], c > 0 ? (a > 0 ? 1 : 0) : 2, 1, 0, rings, polygons);
    return polygons;
  }
}

export const RECTANGLE: OpeningKind = {
  kind: "flat rectangle",
  shader: 1,
  of(shape, [a, b, c]) {
    switch (shape) {
      case "rectangle":
      case "disc":
        return a > 0 || b > 0 ? new RectangleOpening([a, b, 0]) : undefined;
      case "box":
        return a > 0 || b > 0 || c > 0 ? new RectangleOpening([a, b, c]) : undefined;
      case "cylinder along length":
      case "cylinder along width":
        return a > 0 && b > 0 ? new RectangleOpening([a, b, c]) : undefined;
      default:
        return undefined;
    }
  },
};
