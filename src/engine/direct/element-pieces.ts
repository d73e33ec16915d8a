/**
 * Quadrature nodes on the parts of a luminous opening that a point sees: flat faces, discs, caps, arcs.
 *
 * Only what faces the point is made: the faces in front of it of a box, the cap of an ellipsoid that it sees (the
 * affine image of a cap of the unit sphere), the arc of a cylinder; so the integrand stays smooth and few Gauss
 * nodes do. Where the receiver's horizon n·x + h = 0 cuts a part, nodes are laid between horizon and edge: along
 * a ring h(φ) = A + B cos(φ − φ₀), along a line h(t) = A + B t, so the arc or stretch above is known in closed
 * form, and the outer rule is split where rings or lines begin or cease to be cut. No kink is left.
 *
 * Weights: dA / A on a flat opening; n·v dA (m³, v from element to point) on a body.
 */

import { gaussLegendre, type QuadratureRule } from "../../numerics/quadrature.ts";
import type { OpeningSurface } from "./opening-surface.ts";
import { anglesAt, nodesAlong, nodesRound, ringsAt, TOP_LEVEL, turnNodes } from "./quadrature-ladder.ts";

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

export class ElementPieces {
  private readonly surface: OpeningSurface;
  private positions: Float64Array = new Float64Array(0);
  private weights: Float64Array = new Float64Array(0);
  private horizon = NO_HORIZON;
  private count = 0;
  // Centre and two axes of the ring or line in hand: x = centre + cos φ a + sin φ b, or centre + t a.
  private readonly centre = new Float64Array(3);
  private readonly a = new Float64Array(3);
  private readonly b = new Float64Array(3);
  /** The outer rule in hand: breaks, place in 0…1 and weight. */
  private readonly breaks = new Float64Array(4);
  private breakCount = 0;
  private readonly share = new Float64Array(OUTER);
  private readonly weight = new Float64Array(OUTER);

  constructor(surface: OpeningSurface) {
    this.surface = surface;
  }

  /** Writes position and weight of every element seen from the local point; returns their count. */
  write(
    px: number,
    py: number,
    pz: number,
    level: number,
    horizon: Horizon,
    positions: Float64Array,
    weights: Float64Array,
  ): number {
    this.positions = positions;
    this.weights = weights;
    this.horizon = horizon;
    this.count = 0;
    const { kind, half, axis } = this.surface;
    const [a, b, c] = half;
    switch (kind) {
      case "flat disc":
        if (axis === 0) this.disc(1, 2, 0, 0, 1, level);
        else this.disc(0, 1, 2, 0, 1, level);
        break;
      case "flat rectangle":
        // A line keeps whichever extents it has.
        if (c > 0) this.rectangle(2, a > 0 ? 0 : 1, a > 0 ? 1 : 0, 0, 1, level);
        else if (a >= b) this.rectangle(1, 0, 2, 0, 1, level);
        else this.rectangle(0, 1, 2, 0, 1, level);
        break;
      case "box":
        for (let k = 0; k < 3; k++) {
          const p = k === 0 ? px : k === 1 ? py : pz;
          const clear = Math.abs(p) - half[k];
          const area = this.surface.ends[2 * k + (p > 0 ? 1 : 0)];
          if (clear > 0 && area > 0)
            this.rectangle((k + 1) % 3, (k + 2) % 3, k, p > 0 ? half[k] : -half[k], clear * area, level);
        }
        break;
      case "ellipsoid":
        this.cap(px, py, pz, level);
        break;
      case "cylinder":
        this.cylinder(px, py, pz, level);
    }
    return this.count;
  }

  /** The ellipse with half axes along i and j, at `at` along k, of total weight W: Gauss in r² × even angles. */
  private disc(i: number, j: number, k: number, at: number, W: number, level: number): void {
    const { centre, a, b, horizon } = this;
    const { half } = this.surface;
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
  private rectangle(i: number, j: number, k: number, at: number, W: number, level: number): void {
    const { centre, a } = this;
    const { half } = this.surface;
    const longest = Math.max(half[0], half[1], half[2]);
    const inner = gaussLegendre(half[j] === 0 ? 1 : nodesAlong(level, half[j], longest));
    this.breakCount = 0;
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

  private cap(px: number, py: number, pz: number, level: number): void {
    const [a, b, c] = this.surface.half;
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
    if (this.horizon.cuts) {
      // On the unit sphere the horizon is a circle of angle κ about the scaled normal, ψ from e; rings about e
      // begin to be cut at |ψ − κ|, and never cease within the cap: the circle's far side is out of sight.
      const { nx, ny, nz, height } = this.horizon;
      const size = Math.hypot(nx * a, ny * b, nz * c);
      const κ = Math.acos(Math.max(-1, Math.min(1, -height / size)));
      const ψ = Math.acos(Math.max(-1, Math.min(1, (nx * a * ex + ny * b * ey + nz * c * ez) / size)));
      middle = κ - ψ;
      turn = Math.sin(Math.abs(middle) / 2) * Math.sqrt(2 / depth);
    }
    const rings = this.rings(level, turn, middle >= 0);
    for (let m = 0; m < rings; m++) {
      const cosine = 1 - depth * this.share[m];
      const sine = Math.sqrt(1 - cosine * cosine);
      this.centre[0] = a * cosine * ex;
      this.centre[1] = b * cosine * ey;
      this.centre[2] = c * cosine * ez;
      this.a[0] = a * sine * (1 + sign * ex * ex * q);
      this.a[1] = b * sine * sign * r;
      this.a[2] = -c * sine * sign * ex;
      this.b[0] = a * sine * r;
      this.b[1] = b * sine * (sign + ey * ey * q);
      this.b[2] = -c * sine * ey;
      // n·v dA = abc (u·S⁻¹p − 1) dω in scaled coordinates.
      const W = a * b * c * (D * cosine - 1) * depth * this.weight[m] * 2 * Math.PI;
      this.ring(W, level, m % 2 === 0);
    }
  }

  private cylinder(px: number, py: number, pz: number, level: number): void {
    const { half, axis, ends } = this.surface;
    const { centre, a } = this;
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
      this.breakCount = 0;
      if (this.horizon.cuts) {
        // Where the horizon crosses either rim: h(β) = A + B cos(β − β₀) = 0, in the outer fraction.
        const n = [this.horizon.nx, this.horizon.ny, this.horizon.nz];
        const Bc = n[i] * hi * ei + n[j] * hj * ej;
        const Bs = n[j] * hj * ei - n[i] * hi * ej;
        const β0 = Math.atan2(Bs, Bc);
        for (const side of [-1, 1]) {
          const α = Math.acos(-(n[axis] * side * along + this.horizon.height) / Math.hypot(Bs, Bc));
          for (const β of [β0 - α, β0 + α])
            this.breakAt(0.5 + (β - 2 * Math.PI * Math.round(β / (2 * Math.PI))) / (2 * reach));
        }
      }
      const lines = this.lines(nodesRound(level, Math.max(hi, hj), longest));
      for (let m = 0; m < lines; m++) {
        const β = reach * (2 * this.share[m] - 1);
        const cosine = Math.cos(β);
        const sine = Math.sin(β);
        a.fill(0);
        centre[i] = hi * (cosine * ei - sine * ej);
        centre[j] = hj * (cosine * ej + sine * ei);
        centre[axis] = -along;
        a[axis] = 2 * along;
        // n·v dA = ab (u·S⁻¹p − 1) dβ dz
        this.line(hi * hj * (D * cosine - 1) * 2 * reach * this.weight[m] * 2 * along, inner);
      }
    }
    const clear = Math.abs(pk) - along;
    const area = ends[2 * axis + (pk > 0 ? 1 : 0)];
    if (clear > 0 && area > 0) this.disc(i, j, axis, pk > 0 ? along : -along, clear * area, level);
  }

  /** Outer rule over rings by share of area u = r²: Gauss in u up to the ring `turn` where the horizon begins to
   * cut them, from there in x with r = turn + (1 − turn) x², which takes the root out of the arc's beginning.
   * Rings inside `turn` are whole, or hidden. Returns the number of rings. */
  private rings(level: number, turn: number, whole: boolean): number {
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
  private lines(n: number): number {
    const { nodes, weights } = gaussLegendre(n);
    let count = 0;
    let from = 0;
    for (let stretch = 0; stretch <= this.breakCount; stretch++) {
      const to = stretch < this.breakCount ? this.breaks[stretch] : 1;
      for (let m = 0; m < n; m++) {
        this.share[count] = from + (to - from) * nodes[m];
        this.weight[count++] = (to - from) * weights[m];
      }
      from = to;
    }
    return count;
  }

  /** Notes a break of the outer rule, in order; places outside 0…1 (or none at all) are none. */
  private breakAt(t: number): void {
    if (!(t > 0 && t < 1)) return;
    let k = this.breakCount++;
    for (; k > 0 && this.breaks[k - 1] > t; k--) this.breaks[k] = this.breaks[k - 1];
    this.breaks[k] = t;
  }

  /** The ring in hand, of total weight W: even angles all round, or Gauss nodes on the arc above the horizon. */
  private ring(W: number, level: number, straight: boolean): void {
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
          this.element(Math.cos(φ), Math.sin(φ), (W * arc.weights[n] * half) / Math.PI);
        }
        return;
      }
    }
    const turn = turnNodes(level, straight);
    for (let n = 0; n < angles; n++) this.element(turn[2 * n], turn[2 * n + 1], W / angles);
  }

  /** The line in hand, of total weight W, or its stretch above the horizon. */
  private line(W: number, rule: QuadratureRule): void {
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
      this.element(from + (to - from) * rule.nodes[n], 0, W * (to - from) * rule.weights[n]);
  }

  private element(s: number, t: number, W: number): void {
    const { centre, a, b, positions } = this;
    const k = 3 * this.count;
    positions[k] = centre[0] + s * a[0] + t * b[0];
    positions[k + 1] = centre[1] + s * a[1] + t * b[1];
    positions[k + 2] = centre[2] + s * a[2] + t * b[2];
    this.weights[this.count++] = W;
  }
}
