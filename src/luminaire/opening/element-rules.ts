/**
 * Quadrature nodes on the parts of a luminous opening that a point sees: rings and lines, cut by a receiver's horizon.
 *
 * Where the horizon n·x + h = 0 cuts a part, nodes are laid between horizon and edge: along a ring
 * h(φ) = A + B cos(φ − φ₀), along a line h(t) = A + B t, so the arc or stretch above is known in closed form, and the
 * outer rule is split where rings or lines begin or cease to be cut. No kink is left.
 *
 * Weights: dA / A on a flat opening; n·v dA (m³, v from element to point) on a body.
 */

import { gaussLegendre, type QuadratureRule } from "../../numerics/quadrature.ts";
import { anglesAt, nodesAlong, ringsAt, TOP_LEVEL, turnNodes } from "./quadrature-ladder.ts";

/** A receiver's horizon in the luminaire's frame: what has nx x + ny y + nz z + height > 0 is above it. */
export interface Horizon {
  /** Whether it passes through the opening at all. */
  cuts: boolean;
  nx: number;
  ny: number;
  nz: number;
  height: number;
}

export const NO_HORIZON: Horizon = { cuts: false, nx: 0, ny: 0, nz: 0, height: 0 };

/** Most nodes of an outer rule: five stretches of the top level's lines. */
const OUTER = 5 * nodesAlong(TOP_LEVEL, 1, 1);

type Half = readonly [number, number, number];

export class ElementRules {
  /** A ring or line to be written: x = centre + cos φ a + sin φ b, or centre + t a. */
  readonly centre = new Float64Array(3);
  readonly a = new Float64Array(3);
  readonly b = new Float64Array(3);
  /** The outer rule last made: place in 0…1 and weight. */
  readonly share = new Float64Array(OUTER);
  readonly weight = new Float64Array(OUTER);
  horizon = NO_HORIZON;

  #positions: Float64Array = new Float64Array(0);
  #weights: Float64Array = new Float64Array(0);
  #count = 0;
  readonly #breaks = new Float64Array(4);
  #breakCount = 0;

  /** Elements written since {@link begin}. */
  get count(): number {
    return this.#count;
  }

  /** Where position and weight of every element are to be written. */
  begin(horizon: Horizon, positions: Float64Array, weights: Float64Array): void {
    this.#positions = positions;
    this.#weights = weights;
    this.#count = 0;
    this.horizon = horizon;
  }

  /** The ellipse with half axes along i and j, at `at` along k, of total weight W: Gauss in r² × even angles. */
  disc(half: Half, i: number, j: number, k: number, at: number, W: number, level: number): void {
    const { centre, a, b, horizon } = this;
    let middle = 0;
    let turn = Number.POSITIVE_INFINITY;
    if (horizon.cuts) {
      const n = [horizon.nx, horizon.ny, horizon.nz];
      middle = n[k] * at + horizon.height;
      turn = Math.abs(middle) / Math.hypot(n[i] * half[i], n[j] * half[j]);
    }
    const rings = this.rings(level, turn, middle >= 0);
    for (let m = 0; m < rings; m++) {
      const r = Math.sqrt(this.share[m]);
      centre.fill(0);
      a.fill(0);
      b.fill(0);
      centre[k] = at;
      a[i] = half[i] * r;
      b[j] = half[j] * r;
      // Every other ring is turned by half a step, which keeps the mirror symmetry and spreads the nodes.
      this.ring(W * this.weight[m], level, m % 2 === 0);
    }
  }

  /** The rectangle with half sides along i (outer) and j (inner), at `at` along k, of total weight W. */
  rectangle(half: Half, i: number, j: number, k: number, at: number, W: number, level: number): void {
    const { centre, a } = this;
    const longest = Math.max(half[0], half[1], half[2]);
    const inner = gaussLegendre(half[j] === 0 ? 1 : nodesAlong(level, half[j], longest));
    this.beginBreaks();
    if (this.horizon.cuts) {
      const n = [this.horizon.nx, this.horizon.ny, this.horizon.nz];
      // Where the horizon crosses either long edge: h = 0 at x_j = ±half, in the outer fraction.
      for (const side of [-1, 1]) {
        const A = n[k] * at + n[j] * side * half[j] + this.horizon.height;
        this.breakAt(0.5 - A / (2 * n[i] * half[i]));
      }
    }
    const lines = this.lines(half[i] === 0 ? 1 : nodesAlong(level, half[i], longest));
    for (let m = 0; m < lines; m++) {
      centre.fill(0);
      a.fill(0);
      centre[k] = at;
      centre[i] = half[i] * (2 * this.share[m] - 1);
      centre[j] = -half[j];
      a[j] = 2 * half[j];
      this.line(W * this.weight[m], inner);
    }
  }

  /** Outer rule over rings by share of area u = r²: Gauss in u up to the ring `turn` where the horizon begins to
   * cut them, from there in x with r = turn + (1 − turn) x², which takes the root out of the arc's beginning.
   * Rings inside `turn` are whole, or hidden. Returns the number of rings. */
  rings(level: number, turn: number, whole: boolean): number {
    const { nodes, weights } = gaussLegendre(ringsAt(level));
    const inside = Math.min(1, turn * turn);
    let count = 0;
    if (whole && inside > 0) {
      for (let m = 0; m < nodes.length; m++) {
        this.share[count] = inside * nodes[m];
        this.weight[count++] = inside * weights[m];
      }
    }
    if (turn < 1) {
      for (let m = 0; m < nodes.length; m++) {
        const x = nodes[m];
        const r = turn + (1 - turn) * x * x;
        this.share[count] = r * r;
        this.weight[count++] = 4 * r * (1 - turn) * x * weights[m];
      }
    }
    return count;
  }

  /** Outer rule over lines: Gauss on each stretch between the breaks. Returns the number of lines. */
  lines(n: number): number {
    const { nodes, weights } = gaussLegendre(n);
    let count = 0;
    let from = 0;
    for (let stretch = 0; stretch <= this.#breakCount; stretch++) {
      const to = stretch < this.#breakCount ? this.#breaks[stretch] : 1;
      for (let m = 0; m < n; m++) {
        this.share[count] = from + (to - from) * nodes[m];
        this.weight[count++] = (to - from) * weights[m];
      }
      from = to;
    }
    return count;
  }

  /** Forgets the breaks of the last outer rule. */
  beginBreaks(): void {
    this.#breakCount = 0;
  }

  /** Notes a break of the outer rule, in order; places outside 0…1 (or none at all) are none. */
  breakAt(t: number): void {
    if (!(t > 0 && t < 1)) return;
    let k = this.#breakCount++;
    for (; k > 0 && this.#breaks[k - 1] > t; k--) this.#breaks[k] = this.#breaks[k - 1];
    this.#breaks[k] = t;
  }

  /** The ring in hand, of total weight W: even angles all round, or Gauss nodes on the arc above the horizon. */
  ring(W: number, level: number, straight: boolean): void {
    const { centre, a, b, horizon } = this;
    const angles = anglesAt(level);
    if (horizon.cuts) {
      const { nx, ny, nz, height } = horizon;
      const A = nx * centre[0] + ny * centre[1] + nz * centre[2] + height;
      const Ba = nx * a[0] + ny * a[1] + nz * a[2];
      const Bb = nx * b[0] + ny * b[1] + nz * b[2];
      const B = Math.sqrt(Ba * Ba + Bb * Bb);
      if (A <= -B) return;
      if (A < B) {
        const half = Math.acos(-A / B);
        const middle = Math.atan2(Bb, Ba);
        const arc = gaussLegendre(angles);
        for (let n = 0; n < angles; n++) {
          const φ = middle + half * (2 * arc.nodes[n] - 1);
          this.#element(Math.cos(φ), Math.sin(φ), (W * arc.weights[n] * half) / Math.PI);
        }
        return;
      }
    }
    const turn = turnNodes(level, straight);
    for (let n = 0; n < angles; n++) this.#element(turn[2 * n], turn[2 * n + 1], W / angles);
  }

  /** The line in hand, of total weight W, or its stretch above the horizon. */
  line(W: number, rule: QuadratureRule): void {
    const { centre, a, horizon } = this;
    let from = 0;
    let to = 1;
    if (horizon.cuts) {
      const { nx, ny, nz, height } = horizon;
      const A = nx * centre[0] + ny * centre[1] + nz * centre[2] + height;
      const B = nx * a[0] + ny * a[1] + nz * a[2];
      if (A <= 0 && A + B <= 0) return;
      if (A < 0) from = -A / B;
      else if (A + B < 0) to = -A / B;
    }
    for (let n = 0; n < rule.nodes.length; n++)
      this.#element(from + (to - from) * rule.nodes[n], 0, W * (to - from) * rule.weights[n]);
  }

  #element(s: number, t: number, W: number): void {
    const { centre, a, b } = this;
    const positions = this.#positions;
    const k = 3 * this.#count;
    positions[k] = centre[0] + s * a[0] + t * b[0];
    positions[k + 1] = centre[1] + s * a[1] + t * b[1];
    positions[k + 2] = centre[2] + s * a[2] + t * b[2];
    this.#weights[this.#count++] = W;
  }
}
