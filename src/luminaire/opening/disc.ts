/** A flat ellipse, lying or upright: Gauss in r² × even angles, both faces. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { ElementRules } from "./element-rules.ts";
import { addDisc } from "./facet-polygons.ts";
import type { Half, OpeningKind, OpeningSurface } from "./opening-surface.ts";
import { anglesAt, ringsAt } from "./quadrature-ladder.ts";

class DiscOpening implements OpeningSurface {
  readonly kind = "flat disc";
  readonly half: Half;
  readonly axis: 0 | 2;
  readonly radius: number;
  readonly ends = new Float64Array(6);
  readonly flat = true;
  readonly rotational: boolean;

  constructor(half: Half, axis: 0 | 2) {
    this.half = half;
    this.axis = axis;
    this.radius = Math.max(...half);
    this.rotational = axis === 2 && half[0] === half[1];
  }

  projectedArea(x: number, y: number, z: number): number {
    // Of the three products two hold the extent that is zero.
    const [a, b, c] = this.half;
    return Math.PI * (b * c * Math.abs(x) + a * c * Math.abs(y) + a * b * Math.abs(z));
  }

  maximumElements(level: number): number {
    return 2 * ringsAt(level) * anglesAt(level);
  }

  elements(rules: ElementRules, _px: number, _py: number, _pz: number, level: number): void {
    if (this.axis === 0) rules.disc(this.half, 1, 2, 0, 0, 1, level);
    else rules.disc(this.half, 0, 1, 2, 0, 1, level);
  }

  sample(_x: number, _y: number, _z: number, s: number, t: number, out: Float64Array, k: number): number {
    const r = Math.sqrt(s);
    this.#place(r * Math.cos(2 * Math.PI * t), r * Math.sin(2 * Math.PI * t), out, k);
    return 1;
  }

  #place(u: number, v: number, out: Float64Array, k: number): void {
    const [a, b, c] = this.half;
    const upright = this.axis === 0;
    out[k] = upright ? 0 : a * u;
    out[k + 1] = b * (upright ? u : v);
    out[k + 2] = upright ? c * v : 0;
  }

  polygons(rings: number): Vec3[][] {
    const polygons: Vec3[][] = [];
    addDisc(this.half, this.axis, 0, rings, polygons);
    return polygons;
  }
}

export const DISC: OpeningKind = {
  kind: "flat disc",
  shader: 2,
  of(shape, [a, b, c]) {
    if (shape === "upright disc") return b > 0 && c > 0 ? new DiscOpening([0, b, c], 0) : undefined;
    // An ellipsoid or cylinder without height is one too.
    const lies = shape === "disc" || ((shape === "ellipsoid" || shape === "cylinder") && c === 0);
    return lies && a > 0 && b > 0 ? new DiscOpening([a, b, 0], 2) : undefined;
  },
};
