/**
 * How many nodes a luminous opening needs towards a point for a given error: a table over distance / size,
 * obliquity and, where it matters, azimuth.
 *
 * With gᵢ = Wᵢ Iᵢ / dᵢ³ the illuminance of any plane at the point is E = Σ gᵢ (h + n·xᵢ), h the height of the
 * photometric centre over the receiver's horizon: two moments, S₀ = Σ gᵢ and S₁ = Σ gᵢ xᵢ, carry the whole
 * error whatever the receiver's normal. Each cell of the table holds, for each level of the ladder, the worst
 * error of both over sample points of the cell, relative and absolute, against a rule refined until it
 * stands still over two steps of the ladder. So the table knows the distribution's own narrowness and kinks, not only
 * the geometry; for Lambertian openings the tests hold it against the closed forms.
 *
 * The table stands in for the five-times rule, by which the inverse-square law is taken from five times the opening's size on and
 * the near field nearer: here that law is the lowest level, taken as soon as it holds the bound. On the axis of an even disc at five
 * times its size it is 1 % high (tests/validation/direct-area-sources).
 *
 * A level is good enough when h δS₀ + Σ|n_k| δS₁k ≤ bound · max(contribution, floor). Where the horizon cuts the
 * opening, only part of it sends light, in nodes that end at the horizon: the contribution is then taken as a
 * disc's visible moment ∫ max(0, x − t), and the level from the whole opening's errors against it.
 *
 * Known limits: closer than a quarter of the opening's radius to the box around it, or where even the top of the ladder
 * (some three thousand nodes) does not hold the bound, the top is used; a ramp of 2.5° at the edge of darkness then
 * leaves 1e-3 in the last half per cent of the light. Cells are sampled, not searched: of 15,000 random places 1.5 to 136 radii away
 * (16 measured files, five openings each) 5 erred past the bound of 0.25 %, by up to 2.3 times, against the top of the ladder; all but
 * one where the light is about the floor or below. Where a table ends lit, at a jump, no rule stands still and a few per cent of
 * the jump are left.
 *
 * Openings and their nodes are symmetric in x and in y: where the distribution is so too, one cell serves its mirror images.
 *
 * A cell is measured when it is first asked for. Key: distribution, opening, the bound it is measured for; deterministic.
 */

import { LEVELS, TOP_LEVEL } from "../../luminaire/opening/quadrature-ladder.ts";
import { symmetryDeviation } from "../../photometry/symmetry.ts";
import { samplingOf } from "./cell-sampling.ts";
import type { OpeningQuadrature } from "./opening-quadrature.ts";

/** Steps of distance / radius: three an octave from ¼ to 256. */
const STEPS_PER_OCTAVE = 3;
const NEAREST = -2;
const DISTANCES = 30;
/** Steps of the polar projection, about 4.5° each, and of the azimuth's. */
const OBLIQUITIES = 36;
const AZIMUTHS = 12;

/** Deviation from a bilinear patch, relative to its largest value, from which an intensity counts as bent. */
const BEND = 0.05;
/** Cells are sampled, not searched; a point between samples may err a little more: by experiment (a sweep over
 * directions, shapes and distances, `direct-bodies-swept`), most where light is faint. */
const SAMPLING_MARGIN = 0.6;
const FAINT_MARGIN = 0.7;
/** Distance from the box around the opening, in radii, within which the top of the ladder is used unasked. */
export const NEAR_LIMIT = 1 / 4;
/** Levels added where a horizon cuts the opening: the substitution that smooths an arc's beginning doubles the
 * degree of what is left to integrate, and the arc grows with a root; what is left of a disc has lost the symmetry by which a few
 * nodes stand for the whole (tests/validation/direct-cut-openings). */
const CUT_LEVELS = 4;
/** Largest change over two levels, relative to the bound, at which a rule stands still. */
const SETTLED = 0.15;
/** Share of the peak intensity under which a rule need only stand still relative to that share: light so faint is
 * no plane's highest, so its floor decides, and the last thousand nodes of a beam's tail are not worth their time. */
const FAINT = 1e-3;
/** Deviation from a symmetry, relative to the peak, that is rounding. */
const SYMMETRIC = 1e-9;

/** Per level: δS₀/S₀, δS₁/S₀ by axis (m), δS₀ r³ (cd), δS₁ r² by axis (cd). */
const PER_LEVEL = 8;
/** After the levels: |S₁|/S₀ by axis (m). */
const MEAN = LEVELS * PER_LEVEL;
const CELL = MEAN + 3;

export class NodeTable {
  readonly #quadrature: OpeningQuadrature;
  readonly #bound: number;
  readonly #rotational: boolean;
  /** Whether a cell serves its mirror image in x, and in y. */
  readonly #mirrorsX: boolean;
  readonly #mirrorsY: boolean;
  readonly #cells: (Float64Array | undefined)[];
  /** Whose cells are read. */
  readonly #measured: NodeTable;
  /** S₀ and S₁ of each level at the sample in hand. */
  readonly #moments = new Float64Array(4 * LEVELS);

  /** `bound`: largest accepted error, relative to the larger of contribution and floor. `measured`: a table of the same opening
   * and a smaller bound, whose cells serve a larger one as well. */
  constructor(quadrature: OpeningQuadrature, bound: number, measured?: NodeTable) {
    this.#measured = measured ?? this;
    const { distribution, worstDifference } = quadrature.lookup;
    this.#quadrature = quadrature;
    // What the lookup may err is no longer there for the nodes to spend.
    this.#bound = Math.max(0.1 * bound, SAMPLING_MARGIN * (bound - worstDifference));
    this.#rotational =
      distribution.type === "C" && distribution.horizontal.length === 1 && quadrature.surface.rotational;
    const deviation =
      distribution.type === "C" && !this.#rotational ? symmetryDeviation(distribution) : undefined;
    this.#mirrorsX = deviation !== undefined && deviation.acrossC90 <= SYMMETRIC;
    this.#mirrorsY = deviation !== undefined && deviation.acrossC0 <= SYMMETRIC;
    this.#cells = new Array(DISTANCES * OBLIQUITIES * (this.#rotational ? 1 : AZIMUTHS));
  }

  /**
   * Level of the ladder for a local point.
   *
   * @param height of the photometric centre over the receiver's horizon (m), i.e. the receiving weight times
   *   distance: n·v for a plane, horizontal distance for a cylinder
   * @param nx, ny, nz local receiving normal; ones where the weight may vary in any direction
   * @param share of the height that is received, 1 but for a semi-cylinder
   * @param floor illuminance (lx) below which a contribution's own size no longer counts
   */
  level(
    px: number,
    py: number,
    pz: number,
    height: number,
    nx: number,
    ny: number,
    nz: number,
    share: number,
    floor: number,
  ): number {
    const { radius, half } = this.#quadrature.surface;
    if (radius === 0) return 0;
    const rr = px * px + py * py + pz * pz;
    const r = Math.sqrt(rr);
    const step = (Math.log2(r / radius) - NEAREST) * STEPS_PER_OCTAVE;
    if (!(step >= 0)) return TOP_LEVEL;
    // Within a hand of the surface a cell holds points inside the opening, and beams narrower than any node sees.
    if (rr < 4 * radius * radius && this.toSurface(px, py, pz) < NEAR_LIMIT * radius) return TOP_LEVEL;
    const i = step < DISTANCES ? step | 0 : DISTANCES - 1;
    const w = -pz / r;
    const P =
      w >= 0 ? Math.sqrt(Math.max(0, 0.5 - 0.5 * w)) : Math.SQRT2 - Math.sqrt(Math.max(0, 0.5 + 0.5 * w));
    const j = Math.min(OBLIQUITIES - 1, (P * (OBLIQUITIES / Math.SQRT2)) | 0);
    let index = i * OBLIQUITIES + j;
    if (!this.#rotational) {
      const sum = Math.abs(px) + Math.abs(py);
      const q = sum > 0 ? (this.#mirrorsX ? Math.abs(px) : px) / sum : 1;
      const Q = py >= 0 || this.#mirrorsY ? 1 - q : 3 + q;
      index = index * AZIMUTHS + Math.min(AZIMUTHS - 1, (Q * (AZIMUTHS / 4)) | 0);
    }
    const cell = this.#measured.#cell(index, i, j);
    const ax = Math.abs(nx);
    const ay = Math.abs(ny);
    const az = Math.abs(nz);
    const reach = Math.min(radius, ax * half[0] + ay * half[1] + az * half[2]);
    const mean = Math.min(reach, ax * cell[MEAN] + ay * cell[MEAN + 1] + az * cell[MEAN + 2]);
    const allowedAbsolute = FAINT_MARGIN * this.#bound * floor * rr;
    const cut = height < reach;
    // Where the horizon cuts the opening, what is left of it is taken as a disc's.
    const left = cut ? reach * visibleMoment(-height / reach) : height - mean;
    const allowed = this.#bound * share * left;
    const lever = Math.abs(height) / r;
    for (let level = 0, k = 0; level < TOP_LEVEL; level++, k += PER_LEVEL) {
      const relative = Math.abs(height) * cell[k] + ax * cell[k + 1] + ay * cell[k + 2] + az * cell[k + 3];
      if (relative <= allowed) return cut ? Math.min(TOP_LEVEL, level + CUT_LEVELS) : level;
      const absolute = lever * cell[k + 4] + ax * cell[k + 5] + ay * cell[k + 6] + az * cell[k + 7];
      if (absolute <= allowedAbsolute) return cut ? Math.min(TOP_LEVEL, level + CUT_LEVELS) : level;
    }
    return TOP_LEVEL;
  }

  /** Distance (m) from a local point to the box around the opening, 0 within it. */
  toSurface(px: number, py: number, pz: number): number {
    const [a, b, c] = this.#quadrature.surface.half;
    const x = Math.max(0, Math.abs(px) - a);
    const y = Math.max(0, Math.abs(py) - b);
    const z = Math.max(0, Math.abs(pz) - c);
    return Math.sqrt(x * x + y * y + z * z);
  }

  #cell(index: number, i: number, j: number): Float64Array {
    let cell = this.#cells[index];
    if (cell === undefined) {
      cell = this.#measure(i, j, index % AZIMUTHS);
      this.#cells[index] = cell;
    }
    return cell;
  }

  #measure(i: number, j: number, azimuth: number): Float64Array {
    const cell = new Float64Array(CELL);
    const { radius } = this.#quadrature.surface;
    const bent = this.#bend(i, j, azimuth) > BEND;
    const sampling = samplingOf(i, bent, this.#rotational);
    const { reference, empty } = sampling;
    const turns = this.#rotational
      ? sampling.turn
      : sampling.azimuth.map((t) => azimuthOf(((azimuth + t) * 4) / AZIMUTHS));
    for (const u of sampling.distance) {
      const r = radius * 2 ** (NEAREST + (i + u) / STEPS_PER_OCTAVE);
      for (const v of sampling.obliquity) {
        const γ = polarOf(((j + v) * Math.SQRT2) / OBLIQUITIES);
        for (const C of turns) {
          const s = r * Math.sin(γ);
          this.#compare(s * Math.cos(C), s * Math.sin(C), -r * Math.cos(γ), r, reference, empty, cell);
        }
      }
    }
    if (sampling.raise !== undefined) for (let k = 0; k < MEAN; k++) cell[k] *= sampling.raise;
    return cell;
  }

  /** How far the intensity towards a cell, from anywhere on the opening, departs from a bilinear patch in γ and C,
   * relative to its largest value there. */
  #bend(i: number, j: number, azimuth: number): number {
    const span = 2 ** -(NEAREST + i / STEPS_PER_OCTAVE);
    const low = Math.max(0, polarOf((j * Math.SQRT2) / OBLIQUITIES) - span);
    const high = Math.min(Math.PI, polarOf(((j + 1) * Math.SQRT2) / OBLIQUITIES) + span);
    const around = span / Math.max(0.1, Math.sin((low + high) / 2));
    const from = azimuthOf((azimuth * 4) / AZIMUTHS) - around;
    const turn = this.#rotational ? 0 : Math.min(2 * Math.PI, Math.PI / 6 + 2 * around);
    const rows = 8;
    const columns = this.#rotational ? 1 : 4;
    const at = (row: number, column: number) => {
      const γ = low + ((high - low) * row) / rows;
      const C = from + (turn * column) / columns;
      const s = Math.sin(γ);
      return this.#quadrature.lookup.towards(s * Math.cos(C), s * Math.sin(C), -Math.cos(γ));
    };
    const corner = [at(0, 0), at(0, columns), at(rows, 0), at(rows, columns)];
    let most = 0;
    let largest = 0;
    for (let row = 0; row <= rows; row++) {
      for (let column = 0; column <= columns; column++) {
        const t = row / rows;
        const u = column / columns;
        const patch =
          (1 - t) * ((1 - u) * corner[0] + u * corner[1]) + t * ((1 - u) * corner[2] + u * corner[3]);
        const I = at(row, column);
        most = Math.max(most, Math.abs(I - patch));
        largest = Math.max(largest, I);
      }
    }
    return largest > 0 ? most / largest : 0;
  }

  /** Raises the cell's errors to those of one sample point. */
  #compare(
    px: number,
    py: number,
    pz: number,
    r: number,
    reference: number,
    empty: number,
    cell: Float64Array,
  ): void {
    const moments = this.#moments;
    const { radius } = this.#quadrature.surface;
    const faint = (FAINT * this.#quadrature.lookup.peak) / (r * r * r);
    let last = 0;
    for (let level = 0; level < LEVELS; level++) {
      this.#quadrature.moments(px, py, pz, level, moments, 4 * level);
      last = level;
      if (level < reference) continue;
      const S = moments[4 * level];
      if (S === 0) {
        if (level >= empty) break;
        continue;
      }
      // Two steps up the ladder without change, so that a chance agreement does not pass.
      let change = 0;
      for (let n = 0; n < 8; n++) {
        const scale = n % 4 === 0 ? 1 : radius;
        change = Math.max(
          change,
          Math.abs(moments[4 * level + (n % 4)] - moments[4 * level - 4 * (1 + (n >> 2)) + (n % 4)]) / scale,
        );
      }
      if (change <= SETTLED * this.#bound * Math.max(S, faint)) break;
    }
    const S0 = moments[4 * last];
    for (let n = 0; n < 3; n++) {
      const mean = S0 > 0 ? Math.abs(moments[4 * last + 1 + n]) / S0 : 0;
      cell[MEAN + n] = Math.max(cell[MEAN + n], mean);
    }
    for (let level = 0; level <= TOP_LEVEL; level++) {
      for (let n = 0; n < 4; n++) {
        // Beyond the reference nothing was measured, nor needs to be: rules only get better.
        const measured = moments[4 * Math.min(level, last) + n];
        const δ = Math.abs(measured - moments[4 * last + n]);
        const k = level * PER_LEVEL + n;
        const relative = δ === 0 ? 0 : δ / S0;
        // A point on the opening itself has no answer; the top level is as good as any.
        cell[k] = Number.isFinite(relative) ? Math.max(cell[k], relative) : Number.POSITIVE_INFINITY;
        cell[k + 4] = Math.max(cell[k + 4], δ * r * r * (n === 0 ? r : 1));
      }
    }
  }
}

function polarOf(P: number): number {
  return P <= Math.SQRT1_2 ? 2 * Math.asin(P) : Math.PI - 2 * Math.asin(Math.min(1, Math.SQRT2 - P));
}

function azimuthOf(Q: number): number {
  const r = Q <= 2 ? 1 - Q : Q - 3;
  return Math.atan2((1 - Math.abs(r)) * (Q <= 2 ? 1 : -1), r);
}

/** ∫ max(0, x − t) over the unit disc / π: how much of a disc's first moment stands above the horizon x = t. */
export function visibleMoment(t: number): number {
  if (t >= 1) return 0;
  if (t <= -1) return -t;
  const s = Math.sqrt(1 - t * t);
  return ((2 / 3) * s * s * s - t * (Math.acos(t) - t * s)) / Math.PI;
}
