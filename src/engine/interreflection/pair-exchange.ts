/**
 * Exchange areas K₁₂ = A₁F₁₂ = A₂F₂₁ between any flat patches that see each other whole.
 *
 * Near: K = (1/2π) ∮∮ ln r dr₁·dr₂ [1], the inner integral closed, the outer by Gauss.
 * Far: the double area integral of cos θ₁ cos θ₂ / πr² on the patches' own nodes.
 * (Rectangles with parallel sides have a closed form: see `aligned-exchange.ts`.)
 *
 * [1] G. P. Mitalas, D. G. Stephenson, "Fortran IV programs to calculate radiant energy interchange factors",
 *     National Research Council of Canada, 1966; E. M. Sparrow, J. Heat Transfer 85 (1963).
 * Error: contour 2e-4 of the smaller area where edges touch, 1e-6 apart; far 5e-4 at the nearest distance it is
 * used, falling with the fourth power.
 */

import type { Patches } from "./patches.ts";

const TWO_PI = 2 * Math.PI;

// Gauss–Legendre on [0, 1], 4 and 10 nodes (Abramowitz & Stegun, table 25.4).
const GAUSS_4 = rule([0.339981043584856, 0.861136311594053], [0.652145154862546, 0.347854845137454]);
const GAUSS_10 = rule(
  [0.148874338981631, 0.433395394129247, 0.679409568299024, 0.865063366688985, 0.973906528517172],
  [0.295524224714753, 0.269266719309996, 0.219086362515982, 0.149451349150581, 0.066671344308688],
);

function rule(x: number[], w: number[]): { x: Float64Array; w: Float64Array } {
  const nodes: number[] = [];
  const weights: number[] = [];
  x.forEach((value, i) => {
    nodes.push((1 - value) / 2, (1 + value) / 2);
    weights.push(w[i] / 2, w[i] / 2);
  });
  return { x: Float64Array.from(nodes), w: Float64Array.from(weights) };
}

/** Works on one pair at a time without allocating. */
export class PairKernel {
  readonly #p: Patches;
  readonly #a: Float64Array;
  readonly #b: Float64Array;

  constructor(patches: Patches) {
    this.#p = patches;
    let most = 0;
    for (let i = 0; i < patches.count; i++)
      most = Math.max(most, patches.vertexStart[i + 1] - patches.vertexStart[i]);
    // A plane cuts each edge at most once, so each vertex leaves at most two.
    this.#a = new Float64Array(6 * most);
    this.#b = new Float64Array(6 * most);
  }

  /** Exchange area of patches i and j, whatever their shape and position (m²). */
  exchange(i: number, j: number): number {
    const p = this.#p;
    const dx = p.centre[3 * j] - p.centre[3 * i];
    const dy = p.centre[3 * j + 1] - p.centre[3 * i + 1];
    const dz = p.centre[3 * j + 2] - p.centre[3 * i + 2];
    const distance = Math.sqrt(dx * dx + dy * dy + dz * dz);
    const reach = p.radius[i] + p.radius[j];
    if (distance > 3 * reach) return this.#far(i, j);
    const na = this.#front(i, p.surface[j], j, this.#a);
    if (na < 3) return 0;
    const nb = this.#front(j, p.surface[i], i, this.#b);
    if (nb < 3) return 0;
    const order = distance > 1.2 * reach ? GAUSS_4 : GAUSS_10;
    // The outer, approximate integral runs over the smaller patch, whose edges see the other's log change least.
    const k =
      p.radius[i] < p.radius[j]
        ? contour(this.#a, na, this.#b, nb, order.x, order.w)
        : contour(this.#b, nb, this.#a, na, order.x, order.w);
    return Math.max(0, k);
  }

  #far(i: number, j: number): number {
    const p = this.#p;
    const s = 3 * p.surface[i];
    const t = 3 * p.surface[j];
    let sum = 0;
    for (let a = p.nodeStart[i]; a < p.nodeStart[i + 1]; a++) {
      for (let b = p.nodeStart[j]; b < p.nodeStart[j + 1]; b++) {
        const x = p.nodes[3 * b] - p.nodes[3 * a];
        const y = p.nodes[3 * b + 1] - p.nodes[3 * a + 1];
        const z = p.nodes[3 * b + 2] - p.nodes[3 * a + 2];
        const here = x * p.normal[s] + y * p.normal[s + 1] + z * p.normal[s + 2];
        const there = -(x * p.normal[t] + y * p.normal[t + 1] + z * p.normal[t + 2]);
        if (here <= 0 || there <= 0) continue;
        const r2 = x * x + y * y + z * z;
        sum += (p.nodeWeights[a] * p.nodeWeights[b] * here * there) / (r2 * r2);
      }
    }
    return sum / Math.PI;
  }

  /** The part of patch i in front of the plane of patch j, into `out`; its number of vertices. */
  #front(i: number, surface: number, j: number, out: Float64Array): number {
    const p = this.#p;
    const n = 3 * surface;
    const nx = p.normal[n];
    const ny = p.normal[n + 1];
    const nz = p.normal[n + 2];
    const level = p.centre[3 * j] * nx + p.centre[3 * j + 1] * ny + p.centre[3 * j + 2] * nz;
    const from = p.vertexStart[i];
    const to = p.vertexStart[i + 1];
    let count = 0;
    for (let k = from; k < to; k++) {
      const m = k + 1 < to ? k + 1 : from;
      const ax = p.vertices[3 * k];
      const ay = p.vertices[3 * k + 1];
      const az = p.vertices[3 * k + 2];
      const bx = p.vertices[3 * m];
      const by = p.vertices[3 * m + 1];
      const bz = p.vertices[3 * m + 2];
      const da = ax * nx + ay * ny + az * nz - level;
      const db = bx * nx + by * ny + bz * nz - level;
      if (da >= -1e-12) {
        out[3 * count] = ax;
        out[3 * count + 1] = ay;
        out[3 * count++ + 2] = az;
      }
      if (da >= -1e-12 !== db >= -1e-12) {
        const t = da / (da - db);
        out[3 * count] = ax + t * (bx - ax);
        out[3 * count + 1] = ay + t * (by - ay);
        out[3 * count++ + 2] = az + t * (bz - az);
      }
    }
    return count;
  }
}

function contour(
  a: Float64Array,
  na: number,
  b: Float64Array,
  nb: number,
  x: Float64Array,
  w: Float64Array,
): number {
  let sum = 0;
  for (let i = 0; i < na; i++) {
    const k = 3 * i;
    const l = i + 1 < na ? k + 3 : 0;
    const ex = a[l] - a[k];
    const ey = a[l + 1] - a[k + 1];
    const ez = a[l + 2] - a[k + 2];
    for (let j = 0; j < nb; j++) {
      const m = 3 * j;
      const n = j + 1 < nb ? m + 3 : 0;
      const fx = b[n] - b[m];
      const fy = b[n + 1] - b[m + 1];
      const fz = b[n + 2] - b[m + 2];
      const dot = ex * fx + ey * fy + ez * fz;
      const f2 = fx * fx + fy * fy + fz * fz;
      if (f2 === 0 || Math.abs(dot) < 1e-14 * f2) continue;
      const f = Math.sqrt(f2);
      let line = 0;
      for (let g = 0; g < x.length; g++) {
        // The other edge seen from a point of this one: along it from s0 to s1, at distance h from its line.
        const dx = a[k] + x[g] * ex - b[m];
        const dy = a[k + 1] + x[g] * ey - b[m + 1];
        const dz = a[k + 2] + x[g] * ez - b[m + 2];
        const s0 = -(dx * fx + dy * fy + dz * fz) / f;
        const s1 = s0 + f;
        const h2 = Math.max(0, dx * dx + dy * dy + dz * dz - s0 * s0);
        line += w[g] * (logIntegral(s1, h2) - logIntegral(s0, h2));
      }
      sum += (dot / f) * line;
    }
  }
  return sum / TWO_PI;
}

/** ∫ ln √(s² + h²) ds, from 0. */
function logIntegral(s: number, h2: number): number {
  const r2 = s * s + h2;
  if (r2 < 1e-300) return 0;
  const h = Math.sqrt(h2);
  return 0.5 * s * Math.log(r2) - s + (h > 0 ? h * Math.atan(s / h) : 0);
}
