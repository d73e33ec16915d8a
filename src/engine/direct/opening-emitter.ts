/**
 * Light arriving from a luminous opening, as weighted elements or summed at once.
 *
 *   E = Σ Wᵢ I(ωᵢ) cos ξᵢ / dᵢ²,   ωᵢ from element i to the point,
 *   Wᵢ = dAᵢ / A on a flat opening, n·ω dAᵢ / A_p(ω) on a body [`opening-surface.ts`].
 * Only elements that face the point are made: the faces in front of it of a box, the cap of an ellipsoid that
 * it sees (as the cap of the unit sphere it is the affine image of), the arc of a cylinder, so that the
 * integrand stays smooth and few Gauss nodes do. Coordinates are the luminaire's own.
 *
 * Error: by node count, from the table of `node-table.ts`; level 0 is the inverse-square law from the centre.
 */

import { gaussLegendre } from "../../numerics/quadrature.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";
import { type ProductionLookup, productionLookup } from "../../photometry/production-lookup.ts";
import { type OpeningSurface, openingSurface, projectedArea } from "./opening-surface.ts";
import {
  anglesAt,
  discNodes,
  LEVELS,
  nodesAlong,
  ringsAt,
  TOP_LEVEL,
  turnNodes,
} from "./quadrature-ladder.ts";

export class OpeningEmitter {
  readonly surface: OpeningSurface;
  readonly lookup: ProductionLookup;
  /** True where the nodes do not depend on the point, so that `planar` may sum at once. */
  readonly flat: boolean;
  /** Per level x, y, z, weight of each node of a flat opening. */
  private readonly nodes: Float64Array[] = [];
  private room: Scratch = {
    vectors: new Float64Array(0),
    inverse: new Float64Array(0),
    values: new Float64Array(0),
  };

  constructor(distribution: IntensityDistribution, opening: LuminousOpening) {
    this.surface = openingSurface(opening, distribution);
    this.lookup = productionLookup(distribution);
    this.flat = this.surface.kind.startsWith("flat") || this.surface.kind === "point";
  }

  /** Most elements that any level up to `level` writes. */
  maximumElements(level = TOP_LEVEL): number {
    const n = nodesAlong(level, 1, 1);
    const square = Math.max(n * n, ringsAt(level) * anglesAt(level));
    const { kind } = this.surface;
    return kind === "point" ? 1 : kind === "box" ? 3 * square : kind === "cylinder" ? 2 * square : square;
  }

  /** Writes the elements seen from the local point: position x, y, z to `positions`, illuminance on a plane
   * facing the element (lx) to `normalIlluminance`. Returns their count. Never allocates, once a level was
   * used before. */
  sample(
    px: number,
    py: number,
    pz: number,
    level: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const { kind } = this.surface;
    if (this.flat || level === 0) {
      const nodes = this.flatNodes(level);
      let count = 0;
      for (let k = 0; k < nodes.length; k += 4) {
        positions[3 * count] = nodes[k];
        positions[3 * count + 1] = nodes[k + 1];
        positions[3 * count + 2] = nodes[k + 2];
        normalIlluminance[count++] = nodes[k + 3];
      }
      this.complete(px, py, pz, count, positions, normalIlluminance, true);
      return count;
    }
    const count =
      kind === "box"
        ? this.sampleBox(px, py, pz, level, positions, normalIlluminance)
        : kind === "ellipsoid"
          ? this.sampleEllipsoid(px, py, pz, level, positions, normalIlluminance)
          : this.sampleCylinder(px, py, pz, level, positions, normalIlluminance);
    this.complete(px, py, pz, count, positions, normalIlluminance, false);
    return count;
  }

  /** Illuminance (lx) at the local point on the plane of local unit normal (nx, ny, nz), from a flat opening:
   * `sample` and the cosine in one pass. */
  planar(px: number, py: number, pz: number, nx: number, ny: number, nz: number, level: number): number {
    const nodes = this.flatNodes(level);
    const { vectors, inverse, values } = this.scratch(nodes.length / 4);
    let count = 0;
    for (let k = 0; k < nodes.length; k += 4) {
      const x = px - nodes[k];
      const y = py - nodes[k + 1];
      const z = pz - nodes[k + 2];
      const h = -(nx * x + ny * y + nz * z);
      if (h > 0) {
        const over = 1 / Math.sqrt(x * x + y * y + z * z);
        vectors[3 * count] = x;
        vectors[3 * count + 1] = y;
        vectors[3 * count + 2] = z;
        inverse[count] = over;
        values[count++] = nodes[k + 3] * h * over * over * over;
      }
    }
    this.lookup.multiply(vectors, inverse, values, count);
    let E = 0;
    for (let i = 0; i < count; i++) E += values[i];
    return E;
  }

  private flatNodes(level: number): Float64Array {
    let nodes = this.nodes[level];
    if (nodes === undefined) {
      nodes = flatNodes(this.surface, level);
      this.nodes[level] = nodes;
    }
    return nodes;
  }

  private sampleBox(
    px: number,
    py: number,
    pz: number,
    level: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const { half, ends } = this.surface;
    const longest = Math.max(half[0], half[1], half[2]);
    let count = 0;
    for (let axis = 0; axis < 3; axis++) {
      const p = axis === 0 ? px : axis === 1 ? py : pz;
      const clear = Math.abs(p) - half[axis];
      const area = ends[2 * axis + (p > 0 ? 1 : 0)];
      if (clear <= 0 || area === 0) continue;
      const i = (axis + 1) % 3;
      const j = (axis + 2) % 3;
      const along = gaussLegendre(nodesAlong(level, half[i], longest));
      const across = gaussLegendre(nodesAlong(level, half[j], longest));
      for (let m = 0; m < along.nodes.length; m++) {
        for (let n = 0; n < across.nodes.length; n++) {
          const k = 3 * count;
          positions[k + axis] = p > 0 ? half[axis] : -half[axis];
          positions[k + i] = half[i] * (2 * along.nodes[m] - 1);
          positions[k + j] = half[j] * (2 * across.nodes[n] - 1);
          const W = clear * area * along.weights[m] * across.weights[n];
          normalIlluminance[count++] = W;
        }
      }
    }
    return count;
  }

  private sampleEllipsoid(
    px: number,
    py: number,
    pz: number,
    level: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const [a, b, c] = this.surface.half;
    // In coordinates scaled to the unit sphere the point sees the cap cos θ > 1/D about the direction e.
    const D = Math.sqrt((px / a) ** 2 + (py / b) ** 2 + (pz / c) ** 2);
    if (!(D > 1)) return 0;
    const ex = px / a / D;
    const ey = py / b / D;
    const ez = pz / c / D;
    // Two axes across e (J. R. Frisvad, J. Graphics Tools 16, 2012, with the sign chosen to stay regular).
    const sign = ez >= 0 ? 1 : -1;
    const q = -1 / (sign + ez);
    const r = ex * ey * q;
    const fx = 1 + sign * ex * ex * q;
    const fy = sign * r;
    const fz = -sign * ex;
    const gx = r;
    const gy = sign + ey * ey * q;
    const gz = -ey;
    const rings = gaussLegendre(ringsAt(level));
    const turn = turnNodes(anglesAt(level));
    const angles = turn.length / 2;
    const depth = 1 - 1 / D;
    let count = 0;
    for (let m = 0; m < rings.nodes.length; m++) {
      const cosine = 1 - depth * rings.nodes[m];
      const sine = Math.sqrt(1 - cosine * cosine);
      const W = (a * b * c * (D * cosine - 1) * depth * rings.weights[m] * 2 * Math.PI) / angles;
      for (let n = 0; n < angles; n++) {
        const s = sine * turn[2 * n];
        const t = sine * turn[2 * n + 1];
        const k = 3 * count;
        positions[k] = a * (cosine * ex + s * fx + t * gx);
        positions[k + 1] = b * (cosine * ey + s * fy + t * gy);
        positions[k + 2] = c * (cosine * ez + s * fz + t * gz);
        normalIlluminance[count++] = W;
      }
    }
    return count;
  }

  private sampleCylinder(
    px: number,
    py: number,
    pz: number,
    level: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const { half, axis, ends } = this.surface;
    const i = (axis + 1) % 3;
    const j = (axis + 2) % 3;
    const a = half[i];
    const b = half[j];
    const c = half[axis];
    const pi = i === 0 ? px : i === 1 ? py : pz;
    const pj = j === 0 ? px : j === 1 ? py : pz;
    const pk = axis === 0 ? px : axis === 1 ? py : pz;
    let count = 0;

    const D = Math.sqrt((pi / a) ** 2 + (pj / b) ** 2);
    if (D > 1) {
      const ei = pi / a / D;
      const ej = pj / b / D;
      const reach = Math.acos(1 / D);
      const longest = Math.max(a, b, c);
      const round = gaussLegendre(nodesAlong(level, Math.max(a, b), longest));
      const along = gaussLegendre(nodesAlong(level, c, longest));
      for (let m = 0; m < round.nodes.length; m++) {
        const β = reach * (2 * round.nodes[m] - 1);
        const cosine = Math.cos(β);
        const sine = Math.sin(β);
        const W = a * b * (D * cosine - 1) * 2 * reach * round.weights[m] * 2 * c;
        for (let n = 0; n < along.nodes.length; n++) {
          const k = 3 * count;
          positions[k + i] = a * (cosine * ei - sine * ej);
          positions[k + j] = b * (cosine * ej + sine * ei);
          positions[k + axis] = c * (2 * along.nodes[n] - 1);
          normalIlluminance[count++] = W * along.weights[n];
        }
      }
    }
    const clear = Math.abs(pk) - c;
    const area = ends[2 * axis + (pk > 0 ? 1 : 0)];
    if (clear > 0 && area > 0) {
      const nodes = discNodes(level);
      for (let n = 0; n < nodes.length; n += 3) {
        const k = 3 * count;
        positions[k + i] = a * nodes[n];
        positions[k + j] = b * nodes[n + 1];
        positions[k + axis] = pk > 0 ? c : -c;
        normalIlluminance[count++] = clear * area * nodes[n + 2];
      }
    }
    return count;
  }

  /** Completes `count` elements whose positions are written: their weight W, which unless `shared` is n·v dA
   * still to be divided by A_p(v), becomes the illuminance W I / d². */
  private complete(
    px: number,
    py: number,
    pz: number,
    count: number,
    positions: Float64Array,
    values: Float64Array,
    shared: boolean,
  ): void {
    const { surface } = this;
    const { vectors, inverse } = this.scratch(count);
    for (let i = 0; i < count; i++) {
      const x = px - positions[3 * i];
      const y = py - positions[3 * i + 1];
      const z = pz - positions[3 * i + 2];
      const over = 1 / Math.sqrt(x * x + y * y + z * z);
      vectors[3 * i] = x;
      vectors[3 * i + 1] = y;
      vectors[3 * i + 2] = z;
      inverse[i] = over;
      values[i] *= over * over;
      if (shared) continue;
      const area = projectedArea(surface, x, y, z);
      values[i] = area > 0 ? values[i] / area : 0;
    }
    this.lookup.multiply(vectors, inverse, values, count);
  }

  /** Room for `count` elements in hand; grows, and is kept. */
  private scratch(count: number): Scratch {
    if (this.room.inverse.length < count) {
      this.room = {
        vectors: new Float64Array(3 * count),
        inverse: new Float64Array(count),
        values: new Float64Array(count),
      };
    }
    return this.room;
  }
}

interface Scratch {
  readonly vectors: Float64Array;
  readonly inverse: Float64Array;
  readonly values: Float64Array;
}

function flatNodes(surface: OpeningSurface, level: number): Float64Array {
  const { half, kind, axis } = surface;
  if (level === 0 || kind === "point") return Float64Array.of(0, 0, 0, 1);
  const i = kind === "flat disc" && axis === 0 ? 1 : 0;
  const j = i + 1;
  const found: number[] = [];
  if (kind === "flat disc") {
    const disc = discNodes(level);
    for (let k = 0; k < disc.length; k += 3) {
      const at = [0, 0, 0];
      at[i] = half[i] * disc[k];
      at[j] = half[j] * disc[k + 1];
      found.push(at[0], at[1], at[2], disc[k + 2]);
    }
  } else {
    // A line keeps whichever two extents it has.
    const [u, v] = half[2] > 0 ? (half[0] > 0 ? [0, 2] : [1, 2]) : [0, 1];
    const longest = Math.max(half[u], half[v]);
    const along = gaussLegendre(half[u] === 0 ? 1 : nodesAlong(level, half[u], longest));
    const across = gaussLegendre(half[v] === 0 ? 1 : nodesAlong(level, half[v], longest));
    along.nodes.forEach((s, m) => {
      across.nodes.forEach((t, n) => {
        const at = [0, 0, 0];
        at[u] = half[u] * (2 * s - 1);
        at[v] = half[v] * (2 * t - 1);
        found.push(at[0], at[1], at[2], along.weights[m] * across.weights[n]);
      });
    });
  }
  return Float64Array.from(found);
}

/** Number of levels, for whoever walks the ladder. */
export { LEVELS, TOP_LEVEL };
