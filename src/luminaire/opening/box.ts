/** A box: of its faces those in front of the point, each Gauss × Gauss; n·v is the same all over a face. */

import type { Vec3 } from "../../geometry/vector.ts";
import type { ElementRules } from "./element-rules.ts";
import { addFace } from "./facet-polygons.ts";
import { endArea, endShare, type Half, type OpeningKind, type OpeningSurface } from "./opening-surface.ts";
import { nodesAlong } from "./quadrature-ladder.ts";

class BoxOpening implements OpeningSurface {
  readonly kind = "box";
  readonly half: Half;
  readonly axis = 2;
  readonly radius: number;
  readonly ends: Float64Array;
  readonly flat = false;
  readonly rotational = false;

  constructor(half: Half) {
    const [a, b, c] = half;
    this.half = half;
    this.radius = Math.hypot(a, b, c);
    this.ends = Float64Array.of(b * c, b * c, a * c, a * c, a * b, a * b).map((quarter) => 4 * quarter);
  }

  projectedArea(x: number, y: number, z: number): number {
    return endArea(this.ends, x, y, z);
  }

  maximumElements(level: number): number {
    const n = nodesAlong(level, 1, 1);
    return 9 * n * n;
  }

  elements(rules: ElementRules, px: number, py: number, pz: number, level: number): void {
    const { half, ends } = this;
    for (let k = 0; k < 3; k++) {
      const p = k === 0 ? px : k === 1 ? py : pz;
      const share = endShare(half, ends, k, p);
      if (share > 0)
        rules.rectangle(half, (k + 1) % 3, (k + 2) % 3, k, p > 0 ? half[k] : -half[k], share, level);
    }
  }

  /** The first parameter chooses the face, by its share, and is spread anew within it. */
  sample(px: number, py: number, pz: number, s: number, t: number, out: Float64Array, k: number): number {
    const { half, ends } = this;
    out.fill(0, k, k + 3);
    const total = endShare(half, ends, 0, px) + endShare(half, ends, 1, py) + endShare(half, ends, 2, pz);
    if (total <= 0) return 0;
    let left = s * total;
    let axis = 0;
    let share = endShare(half, ends, 0, px);
    for (; axis < 2 && left >= share; share = endShare(half, ends, axis, axis === 1 ? py : pz)) {
      left -= share;
      axis++;
    }
    if (share <= 0) return 0;
    const p = axis === 0 ? px : axis === 1 ? py : pz;
    const i = (axis + 1) % 3;
    const j = (axis + 2) % 3;
    out[k + axis] = p > 0 ? half[axis] : -half[axis];
    out[k + i] = half[i] * (2 * Math.min(1, left / share) - 1);
    out[k + j] = half[j] * (2 * t - 1);
    const area = this.projectedArea(px - out[k], py - out[k + 1], pz - out[k + 2]);
    return area > 0 ? 1 / area : 0;
  }

  polygons(rings: number): Vec3[][] {
    const { half, ends } = this;
    const polygons: Vec3[][] = [];
    for (let end = 0; end < 6; end++) {
      const sign = end % 2 === 0 ? -1 : 1;
      if (ends[end] > 0) addFace(half, end >> 1, sign, sign * half[end >> 1], rings, polygons);
    }
    return polygons;
  }
}

export const BOX: OpeningKind = {
  kind: "box",
  shader: 3,
  // With two extents it still has faces; with one it is a line.
  of: (shape, [a, b, c]) =>
    shape === "box" && c > 0 && (a > 0 || b > 0) ? new BoxOpening([a, b, c]) : undefined,
};
