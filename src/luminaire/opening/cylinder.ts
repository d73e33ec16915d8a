/** An elliptic cylinder along any of the axes: the arc of its side that the point sees, and the end in front of it. */

import type { Vec3 } from "../../geometry/vector.ts";
import { gaussLegendre } from "../../numerics/quadrature.ts";
import type { ElementRules } from "./element-rules.ts";
import { addCylinderSide, addDisc } from "./facet-polygons.ts";
import {
  type Axis,
  endArea,
  endShare,
  type Half,
  type OpeningKind,
  type OpeningSurface,
} from "./opening-surface.ts";
import { anglesAt, nodesAlong, nodesRound, ringsAt } from "./quadrature-ladder.ts";

class CylinderOpening implements OpeningSurface {
  readonly kind = "cylinder";
  readonly half: Half;
  readonly axis: Axis;
  readonly radius: number;
  readonly ends: Float64Array;
  readonly flat = false;
  readonly rotational: boolean;

  constructor(half: Half, axis: Axis) {
    const [i, j] = [(axis + 1) % 3, (axis + 2) % 3];
    this.half = half;
    this.axis = axis;
    this.radius = Math.hypot(half[axis], Math.max(half[i], half[j]));
    this.ends = new Float64Array(6);
    this.ends[2 * axis] = Math.PI * half[i] * half[j];
    this.ends[2 * axis + 1] = this.ends[2 * axis];
    this.rotational = axis === 2 && half[0] === half[1];
  }

  projectedArea(x: number, y: number, z: number): number {
    const { half } = this;
    const a = half[0];
    const b = half[1];
    const c = half[2];
    const ends = endArea(this.ends, x, y, z);
    if (this.axis === 0) return ends + 4 * a * Math.sqrt(b * b * z * z + c * c * y * y);
    if (this.axis === 1) return ends + 4 * b * Math.sqrt(a * a * z * z + c * c * x * x);
    return ends + 4 * c * Math.sqrt(a * a * y * y + b * b * x * x);
  }

  maximumElements(level: number): number {
    return 5 * nodesRound(level, 1, 1) * nodesAlong(level, 1, 1) + 2 * ringsAt(level) * anglesAt(level);
  }

  elements(rules: ElementRules, px: number, py: number, pz: number, level: number): void {
    const { half, axis, ends } = this;
    const { centre, a } = rules;
    const i = (axis + 1) % 3;
    const j = (axis + 2) % 3;
    const hi = half[i];
    const hj = half[j];
    const along = half[axis];
    const pi = i === 0 ? px : i === 1 ? py : pz;
    const pj = j === 0 ? px : j === 1 ? py : pz;
    const pk = axis === 0 ? px : axis === 1 ? py : pz;

    const D = Math.sqrt((pi / hi) ** 2 + (pj / hj) ** 2);
    if (D > 1) {
      const ei = pi / hi / D;
      const ej = pj / hj / D;
      const reach = Math.acos(1 / D);
      const longest = Math.max(hi, hj, along);
      const inner = gaussLegendre(nodesAlong(level, along, longest));
      rules.beginBreaks();
      if (rules.horizon.cuts) this.#breakAtRims(rules, i, j, ei, ej, reach);
      const lines = rules.lines(nodesRound(level, Math.max(hi, hj), longest));
      for (let m = 0; m < lines; m++) {
        const β = reach * (2 * rules.share[m] - 1);
        const cosine = Math.cos(β);
        const sine = Math.sin(β);
        a.fill(0);
        centre[i] = hi * (cosine * ei - sine * ej);
        centre[j] = hj * (cosine * ej + sine * ei);
        centre[axis] = -along;
        a[axis] = 2 * along;
        // n·v dA = ab (u·S⁻¹p − 1) dβ dz
        rules.line(hi * hj * (D * cosine - 1) * 2 * reach * rules.weight[m] * 2 * along, inner);
      }
    }
    const end = endShare(half, ends, axis, pk);
    if (end > 0) rules.disc(half, i, j, axis, pk > 0 ? along : -along, end, level);
  }

  /** Notes where the horizon crosses either rim: h(β) = A + B cos(β − β₀) = 0, in the fraction of the arc seen. */
  #breakAtRims(rules: ElementRules, i: number, j: number, ei: number, ej: number, reach: number): void {
    const { half, axis } = this;
    const n = [rules.horizon.nx, rules.horizon.ny, rules.horizon.nz];
    const Bc = n[i] * half[i] * ei + n[j] * half[j] * ej;
    const Bs = n[j] * half[j] * ei - n[i] * half[i] * ej;
    const β0 = Math.atan2(Bs, Bc);
    for (const side of [-1, 1]) {
      const α = Math.acos(-(n[axis] * side * half[axis] + rules.horizon.height) / Math.hypot(Bs, Bc));
      for (const β of [β0 - α, β0 + α])
        rules.breakAt(0.5 + (β - 2 * Math.PI * Math.round(β / (2 * Math.PI))) / (2 * reach));
    }
  }

  sample(px: number, py: number, pz: number, s: number, t: number, out: Float64Array, k: number): number {
    const { half, axis } = this;
    out.fill(0, k, k + 3);
    const i = (axis + 1) % 3;
    const j = (axis + 2) % 3;
    const pi = i === 0 ? px : i === 1 ? py : pz;
    const pj = j === 0 ? px : j === 1 ? py : pz;
    const pa = axis === 0 ? px : axis === 1 ? py : pz;
    const D = Math.sqrt((pi / half[i]) ** 2 + (pj / half[j]) ** 2);
    const reach = D > 1 ? Math.acos(1 / D) : 0;
    const whole = half[i] * half[j] * 2 * half[axis];
    // ∫ (D cos β − 1) dβ over the arc seen, times a b · 2c.
    const side = D > 1 ? 2 * (D * Math.sin(reach) - reach) * whole : 0;
    const end = endShare(half, this.ends, axis, pa);
    if (side + end <= 0) return 0;
    const first = s * (side + end);
    let density = 1;
    if (first < side) {
      const β = reach * (2 * (first / side) - 1);
      const cosine = Math.cos(β);
      const sine = Math.sin(β);
      const ei = pi / half[i] / D;
      const ej = pj / half[j] / D;
      out[k + i] = half[i] * (cosine * ei - sine * ej);
      out[k + j] = half[j] * (cosine * ej + sine * ei);
      out[k + axis] = half[axis] * (2 * t - 1);
      // Even in β: the density against n·v dA is what is left over.
      density = side / (2 * reach * whole) / (D * cosine - 1);
    } else {
      const r = Math.sqrt(Math.min(1, (first - side) / end));
      out[k + i] = half[i] * r * Math.cos(2 * Math.PI * t);
      out[k + j] = half[j] * r * Math.sin(2 * Math.PI * t);
      out[k + axis] = pa > 0 ? half[axis] : -half[axis];
    }
    const area = this.projectedArea(px - out[k], py - out[k + 1], pz - out[k + 2]);
    return area > 0 ? 1 / (density * area) : 0;
  }

  polygons(rings: number): Vec3[][] {
    const { half, axis, ends } = this;
    const polygons: Vec3[][] = [];
    addCylinderSide(half, axis, rings, polygons);
    for (let sign = -1; sign <= 1; sign += 2)
      if (ends[2 * axis + (sign > 0 ? 1 : 0)] > 0) {
        const first = polygons.length;
        addDisc(half, axis, sign * half[axis], rings, polygons);
        if (sign < 0) for (const polygon of polygons.slice(first)) polygon.reverse();
      }
    return polygons;
  }
}

const AXES: Readonly<Record<string, Axis>> = {
  "cylinder along length": 0,
  "cylinder along width": 1,
  cylinder: 2,
};

export const CYLINDER: OpeningKind = {
  kind: "cylinder",
  shader: 5,
  of(shape, [a, b, c]) {
    const axis = AXES[shape];
    return axis !== undefined && a > 0 && b > 0 && c > 0 ? new CylinderOpening([a, b, c], axis) : undefined;
  },
};
