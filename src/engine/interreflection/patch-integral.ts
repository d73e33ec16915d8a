/**
 * Direct light on a patch: the mean of a function over its area, not its value at the centre.
 *
 * Rectangles: Gauss 2 × 2 against the midpoint; where they differ by more than the tolerance the rectangle is
 * quartered. Their difference bounds the midpoint's error, of second order; the Gauss value that is kept is of
 * fourth. Clipped patches use their own nodes.
 */

import type { Patches } from "./patches.ts";

/** Value at a room point; what it means is the caller's business. */
export type FieldAt = (x: number, y: number, z: number) => number;

const GAUSS = 0.5 / Math.sqrt(3);
const DEEPEST = 5;

export class PatchIntegral {
  readonly #p: Patches;
  /** Of the last patch: whether it had to be quartered, and the integral over each quarter, first along the first
   * side. */
  quartered = false;
  readonly quarters = new Float64Array(4);
  #at: FieldAt = () => 0;
  #origin = 0;
  #tolerance = 0;

  constructor(patches: Patches) {
    this.#p = patches;
  }

  /** ∫ f dA over patch i. `tolerance` is absolute, in the unit of the integral. */
  over(i: number, at: FieldAt, tolerance: number): number {
    const p = this.#p;
    this.#at = at;
    this.quartered = false;
    if (p.whole[i] === 0) {
      let sum = 0;
      for (let n = p.nodeStart[i]; n < p.nodeStart[i + 1]; n++)
        sum += p.nodeWeights[n] * at(p.nodes[3 * n], p.nodes[3 * n + 1], p.nodes[3 * n + 2]);
      return sum;
    }
    this.#origin = 3 * p.vertexStart[i];
    this.#tolerance = tolerance;
    return this.#rectangle(0, 0, 1, p.area[i], 0);
  }

  #rectangle(s: number, t: number, side: number, area: number, depth: number): number {
    const middle = this.#value(s + side / 2, t + side / 2);
    const near = side * (0.5 - GAUSS);
    const far = side * (0.5 + GAUSS);
    const gauss =
      (this.#value(s + near, t + near) +
        this.#value(s + far, t + near) +
        this.#value(s + near, t + far) +
        this.#value(s + far, t + far)) /
      4;
    if (depth >= DEEPEST || Math.abs(gauss - middle) * area <= this.#tolerance) return gauss * area;
    const half = side / 2;
    const a = this.#rectangle(s, t, half, area / 4, depth + 1);
    const b = this.#rectangle(s + half, t, half, area / 4, depth + 1);
    const c = this.#rectangle(s, t + half, half, area / 4, depth + 1);
    const d = this.#rectangle(s + half, t + half, half, area / 4, depth + 1);
    if (depth === 0) {
      this.quartered = true;
      this.quarters[0] = a;
      this.quarters[1] = b;
      this.quarters[2] = c;
      this.quarters[3] = d;
    }
    return a + b + (c + d);
  }

  #value(s: number, t: number): number {
    const v = this.#p.vertices;
    const k = this.#origin;
    return this.#at(
      v[k] + s * (v[k + 3] - v[k]) + t * (v[k + 9] - v[k]),
      v[k + 1] + s * (v[k + 4] - v[k + 1]) + t * (v[k + 10] - v[k + 1]),
      v[k + 2] + s * (v[k + 5] - v[k + 2]) + t * (v[k + 11] - v[k + 2]),
    );
  }
}
