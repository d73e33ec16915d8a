/** An ellipsoid: the cap that the point sees, the affine image of a cap of the unit sphere. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { ElementRules } from "./element-rules.ts";
import { addEllipsoid } from "./facet-polygons.ts";
import type { Half, OpeningKind, OpeningSurface } from "./opening-surface.ts";
import { anglesAt, ringsAt } from "./quadrature-ladder.ts";

class EllipsoidOpening implements OpeningSurface {
  readonly kind = "ellipsoid";
  readonly half: Half;
  readonly axis = 2;
  readonly radius: number;
  readonly ends = new Float64Array(6);
  readonly flat = false;
  readonly rotational: boolean;

  constructor(half: Half) {
    this.half = half;
    this.radius = Math.max(...half);
    this.rotational = half[0] === half[1];
  }

  projectedArea(x: number, y: number, z: number): number {
    const { half } = this;
    const a = half[0];
    const b = half[1];
    const c = half[2];
    const p = b * c * x;
    const q = a * c * y;
    const r = a * b * z;
    return Math.PI * Math.sqrt(p * p + q * q + r * r);
  }

  maximumElements(level: number): number {
    return 2 * ringsAt(level) * anglesAt(level);
  }

  elements(rules: ElementRules, px: number, py: number, pz: number, level: number): void {
    const [a, b, c] = this.half;
    // In coordinates scaled to the unit sphere the point sees the cap cos θ > 1/D about the direction e.
    const D = Math.sqrt((px / a) ** 2 + (py / b) ** 2 + (pz / c) ** 2);
    if (!(D > 1)) return;
    const ex = px / a / D;
    const ey = py / b / D;
    const ez = pz / c / D;
    // Two axes across e (T. Duff et al., J. Computer Graphics Techniques 6, 2017).
    const sign = ez >= 0 ? 1 : -1;
    const q = -1 / (sign + ez);
    const r = ex * ey * q;
    const depth = 1 - 1 / D;
    let turn = Number.POSITIVE_INFINITY;
    let middle = 1;
    if (rules.horizon.cuts) {
      // On the unit sphere the horizon is a circle of angle κ about the scaled normal, ψ from e; rings about e
      // begin to be cut at |ψ − κ|, and never cease within the cap: the circle's far side is out of sight.
      const { nx, ny, nz, height } = rules.horizon;
      const size = Math.hypot(nx * a, ny * b, nz * c);
      const κ = Math.acos(Math.max(-1, Math.min(1, -height / size)));
      const ψ = Math.acos(Math.max(-1, Math.min(1, (nx * a * ex + ny * b * ey + nz * c * ez) / size)));
      middle = κ - ψ;
      turn = Math.sin(Math.abs(middle) / 2) * Math.sqrt(2 / depth);
    }
    const rings = rules.rings(level, turn, middle >= 0);
    for (let m = 0; m < rings; m++) {
      const cosine = 1 - depth * rules.share[m];
      const sine = Math.sqrt(1 - cosine * cosine);
      rules.centre[0] = a * cosine * ex;
      rules.centre[1] = b * cosine * ey;
      rules.centre[2] = c * cosine * ez;
      rules.a[0] = a * sine * (1 + sign * ex * ex * q);
      rules.a[1] = b * sine * sign * r;
      rules.a[2] = -c * sine * sign * ex;
      rules.b[0] = a * sine * r;
      rules.b[1] = b * sine * (sign + ey * ey * q);
      rules.b[2] = -c * sine * ey;
      // n·v dA = abc (u·S⁻¹p − 1) dω in scaled coordinates.
      const W = a * b * c * (D * cosine - 1) * depth * rules.weight[m] * 2 * Math.PI;
      rules.ring(W, level, m % 2 === 0);
    }
  }

  /** Even in cos θ over the cap that the point sees, in coordinates scaled to the unit sphere. */
  sample(px: number, py: number, pz: number, s: number, t: number, out: Float64Array, k: number): number {
    const [a, b, c] = this.half;
    out.fill(0, k, k + 3);
    const D = Math.sqrt((px / a) ** 2 + (py / b) ** 2 + (pz / c) ** 2);
    if (!(D > 1)) return 0;
    const ex = px / a / D;
    const ey = py / b / D;
    const ez = pz / c / D;
    const sign = ez >= 0 ? 1 : -1;
    const q = -1 / (sign + ez);
    const r = ex * ey * q;
    const cosine = 1 - (1 - 1 / D) * s;
    const sine = Math.sqrt(1 - cosine * cosine);
    const u = sine * Math.cos(2 * Math.PI * t);
    const v = sine * Math.sin(2 * Math.PI * t);
    out[k] = a * (cosine * ex + u * (1 + sign * ex * ex * q) + v * r);
    out[k + 1] = b * (cosine * ey + u * sign * r + v * (sign + ey * ey * q));
    out[k + 2] = c * (cosine * ez - u * sign * ex - v * ey);
    const area = this.projectedArea(px - out[k], py - out[k + 1], pz - out[k + 2]);
    return area > 0 ? (D * cosine - 1) / area : 0;
  }

  polygons(rings: number): Vec3[][] {
    const polygons: Vec3[][] = [];
    addEllipsoid(this.half, rings, polygons);
    return polygons;
  }
}

export const ELLIPSOID: OpeningKind = {
  kind: "ellipsoid",
  shader: 4,
  of: (shape, [a, b, c]) =>
    shape === "ellipsoid" && a > 0 && b > 0 && c > 0 ? new EllipsoidOpening([a, b, c]) : undefined,
};
