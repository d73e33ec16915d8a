/**
 * A linear pendant: a trough with a light strip along the middle of its top, its mouth open or covered by opal.
 *
 * Local x along the length, the mouth at z = 0. The inside is divided into rectangles of even exitance,
 *   M_i = E_i + ρ_i Σ_j F_ij M_j,
 * with the closed-form exchange of parallel and perpendicular rectangles; one quadrant is solved for, the others are
 * its mirror images. Each rectangle then emits in place: seen in direction (C, γ) it sends M/π times its projected area
 * that the mouth leaves free. An opal cover receives and reflects as the other rectangles do and is Lambertian below.
 *
 * Near by the light is spread over a rectangle of the mouth's size at the height h from which it seems to come: below
 * the middle of a long trough of depth D and width W the top's light falls as 1/(d + D), the sides' grows as
 * (W/2)/d, so to first order E d is even for h = D − (W/2) Σ_sides M A / Σ_top M A.
 *
 * Known error: even exitance within a rectangle, 0.3 % of the light output ratio and 1 % of the intensity, measured
 * against photons in the tests; flat surfaces, mixed light everywhere diffuse (the mirror share of a finish is not
 * followed).
 * Reference: J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, C-13 and C-16.
 */

import { exchangeParallel, exchangePerpendicular } from "../../geometry/rectangle-factors.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { ShadeMaterial } from "./shade.ts";

export interface LinearHousing {
  /** Mouth (m). */
  readonly length: number;
  readonly width: number;
  /** From the strip down to the mouth (m). */
  readonly depth: number;
  /** Width of the strip, at most the mouth's (m). */
  readonly strip: number;
  readonly inside: ShadeMaterial;
  /** Cover of the mouth; undefined when it is open. */
  readonly cover?: ShadeMaterial;
}

export interface LinearLight {
  readonly distribution: IntensityDistribution;
  readonly lightOutputRatio: number;
  /** Height over the mouth from which the light spreads (m). */
  readonly centre: number;
}

/** Relative error of the intensity straight down and of the light output ratio by the division into rectangles. */
export const LINEAR_ERROR = { axial: 0.01, ratio: 0.005 };

/** Planes of a quadrant (degrees), close to the length: there a deep trough cuts the strip off within a few degrees. */
const C_PLANES = [0, 1, 2, 3, 4, 5, 6, 8, 10, 12, ...Array.from({ length: 16 }, (_, i) => 15 + 5 * i)];
const GAMMA_STEP = 2.5;
/** Rectangles of half the length, of the top beside half the strip, of half the strip, and of the depth. */
const ALONG = 5;
const BESIDE = 3;
const STRIP = 2;
const DOWN = 6;

/** An axis-parallel rectangle at `level` on its normal's axis, facing the inside. */
interface Rectangle {
  readonly axis: 0 | 1 | 2;
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
  readonly area: number;
  readonly reflectance: number;
  /** lm/m² of its own. */
  readonly own: number;
  readonly cover: boolean;
}

/** Light of a linear housing with a strip of `flux` lumens. */
export function linearLight(housing: LinearHousing, flux: number): LinearLight {
  const rectangles = quadrant(housing, flux);
  const M = exitances(rectangles);
  const { cover } = housing;
  const onMouth = rectangles.reduce((sum, r, i) => sum + M[i] * toMouth(r, housing), 0);
  const through = cover?.transmittance ?? 1;

  const degrees = [0, 180].flatMap((turn) => [
    ...C_PLANES.map((c) => turn + c),
    ...C_PLANES.slice(1, -1)
      .map((c) => turn + 180 - c)
      .reverse(),
  ]);
  const planes = degrees.push(360);
  const rows = Math.round(90 / GAMMA_STEP) + 1;
  const horizontal = Float64Array.from(degrees, (c) => (c * Math.PI) / 180);
  const vertical = Float64Array.from({ length: rows }, (_, j) => (j * GAMMA_STEP * Math.PI) / 180);
  const intensity = new Float64Array(planes * rows);
  for (let i = 0; i < planes; i++)
    for (let j = 0; j < rows - 1; j++) {
      // The other quadrants mirror the first.
      const half = degrees[i] % 180;
      const first = C_PLANES.indexOf(Math.min(half, 180 - half));
      if (first !== i) {
        intensity[i * rows + j] = intensity[first * rows + j];
        continue;
      }
      intensity[i * rows + j] =
        cover === undefined
          ? seen(rectangles, M, housing, horizontal[i], vertical[j])
          : (onMouth * through * Math.cos(vertical[j])) / Math.PI;
    }
  return {
    distribution: { type: "C", symmetry: "quadrant", horizontal, vertical, intensity },
    lightOutputRatio: (onMouth * through) / flux,
    centre: cover === undefined ? centreOf(rectangles, M, housing) : 0,
  };
}

/** Height over the mouth from which the light below the middle spreads (m). */
function centreOf(
  rectangles: readonly Rectangle[],
  M: Float64Array,
  { width, depth }: LinearHousing,
): number {
  let top = 0;
  let sides = 0;
  rectangles.forEach(({ axis, area }, i) => {
    if (axis === 2) top += M[i] * area;
    if (axis === 1) sides += M[i] * area;
  });
  return top > 0 ? Math.max(0, depth - ((width / 2) * sides) / top) : 0;
}

/** The rectangles of x < 0, y < 0. */
function quadrant({ length, width, depth, strip, inside, cover }: LinearHousing, flux: number): Rectangle[] {
  const xs = edges(-length / 2, 0, ALONG, 2);
  const beside = strip < width ? edges(-width / 2, -strip / 2, BESIDE, 1).slice(0, -1) : [];
  const ys = [...beside, ...edges(-strip / 2, 0, STRIP, 1)];
  const zs = depth > 0 ? edges(0, depth, DOWN, 1) : [];
  const out: Rectangle[] = [];
  const add = (
    axis: 0 | 1 | 2,
    level: number,
    a: number[],
    b: number[],
    r: number,
    own: (k: number) => number,
    opal = false,
  ) => {
    for (let i = 1; i < a.length; i++)
      for (let k = 1; k < b.length; k++) {
        const low = [a[i - 1], b[k - 1]];
        const high = [a[i], b[k]];
        low.splice(axis, 0, level);
        high.splice(axis, 0, level);
        out.push({
          axis,
          low: low as unknown as Rectangle["low"],
          high: high as unknown as Rectangle["high"],
          area: (a[i] - a[i - 1]) * (b[k] - b[k - 1]),
          reflectance: r,
          own: own((b[k] + b[k - 1]) / 2),
          cover: opal,
        });
      }
  };
  const dark = () => 0;
  const lit = (y: number) => (y > -strip / 2 ? flux / (length * strip) : 0);
  add(2, depth, xs, ys, inside.inside, lit);
  add(1, -width / 2, xs, zs, inside.inside, dark);
  add(0, -length / 2, ys, zs, inside.inside, dark);
  if (cover !== undefined && depth > 0) add(2, 0, xs, ys, cover.inside, dark, true);
  return out;
}

/** Edges from `low` to `high`, closer to `low` for a power above 1. */
function edges(low: number, high: number, count: number, power: number): number[] {
  return Array.from({ length: count + 1 }, (_, i) =>
    i === count ? high : low + (high - low) * (i / count) ** power,
  );
}

/** Exitances (lm/m²) of the quadrant's rectangles: Gauss–Seidel until nothing moves. */
function exitances(rectangles: readonly Rectangle[]): Float64Array {
  const n = rectangles.length;
  const factors = rectangles.map((r) =>
    Float64Array.from(rectangles, (s) => {
      let sum = 0;
      for (const fx of [1, -1]) for (const fy of [1, -1]) sum += exchange(r, mirrored(s, fx, fy));
      return sum / r.area;
    }),
  );
  const M = Float64Array.from(rectangles, ({ own }) => own);
  for (let turn = 0; turn < 2000; turn++) {
    let moved = 0;
    for (let i = 0; i < n; i++) {
      let E = 0;
      for (let j = 0; j < n; j++) E += factors[i][j] * M[j];
      const next = rectangles[i].own + rectangles[i].reflectance * E;
      moved = Math.max(moved, Math.abs(next - M[i]) / (1 + next));
      M[i] = next;
    }
    if (moved < 1e-10) break;
  }
  return M;
}

function mirrored(r: Rectangle, fx: number, fy: number): Rectangle {
  const flip = (v: readonly [number, number, number], w: readonly [number, number, number]) =>
    [fx > 0 ? v[0] : -w[0], fy > 0 ? v[1] : -w[1], v[2]] as const;
  return { ...r, low: flip(r.low, r.high), high: flip(r.high, r.low) };
}

/** Exchange area of two rectangles of the inside (m²). */
function exchange(r: Rectangle, s: Rectangle): number {
  const [a, b] = [r.axis, s.axis];
  if (a === b) {
    const [p, q] = ([0, 1, 2] as const).filter((k) => k !== a);
    return exchangeParallel(
      r.low[p],
      r.high[p],
      r.low[q],
      r.high[q],
      s.low[p],
      s.high[p],
      s.low[q],
      s.high[q],
      r.low[a] - s.low[a],
    );
  }
  const c = (3 - a - b) as 0 | 1 | 2;
  const from = (x: Rectangle, axis: 0 | 1 | 2, level: number): [number, number] => {
    const ends = [Math.abs(x.low[axis] - level), Math.abs(x.high[axis] - level)];
    return [Math.min(...ends), Math.max(...ends)];
  };
  const [x1, x2] = from(r, b, s.low[b]);
  const [ξ1, ξ2] = from(s, a, r.low[a]);
  return exchangePerpendicular(x1, x2, r.low[c], r.high[c], ξ1, ξ2, s.low[c], s.high[c]);
}

/** Exchange area of a rectangle and its three images with the whole mouth (m²). */
function toMouth(r: Rectangle, { length, width, depth }: LinearHousing): number {
  if (r.cover) return 0;
  if (depth <= 0) return 4 * r.area;
  const mouth: Rectangle = {
    ...r,
    axis: 2,
    low: [-length / 2, -width / 2, 0],
    high: [length / 2, width / 2, 0],
  };
  return 4 * exchange(r, mouth);
}

/** Intensity (cd) in direction (C, γ < 90°) of what is seen through the open mouth. */
function seen(
  rectangles: readonly Rectangle[],
  M: Float64Array,
  { length, width }: LinearHousing,
  c: number,
  gamma: number,
): number {
  const tx = Math.tan(gamma) * Math.cos(c);
  const ty = Math.tan(gamma) * Math.sin(c);
  const within = (low: number, high: number, half: number) =>
    Math.max(0, Math.min(high, half) - Math.max(low, -half));
  let sum = 0;
  rectangles.forEach((r, i) => {
    for (const fx of [1, -1])
      for (const fy of [1, -1]) {
        const { axis, low, high } = mirrored(r, fx, fy);
        if (axis === 2) {
          const z = low[2];
          sum +=
            M[i] *
            within(low[0] + z * tx, high[0] + z * tx, length / 2) *
            within(low[1] + z * ty, high[1] + z * ty, width / 2);
          continue;
        }
        // A wall: turned towards where the light goes, its every height shifted and cut along the other axis.
        const along = axis === 1 ? 0 : 1;
        const [shift, other] = axis === 1 ? [ty, tx] : [tx, ty];
        const facing = -Math.sign(low[axis]) * shift;
        if (facing <= 0) continue;
        const halves = [length / 2, width / 2];
        const top = Math.min(high[2], (2 * halves[axis]) / facing);
        const steps = 4;
        for (let k = 0; k < steps; k++) {
          const dz = (top - low[2]) / steps;
          if (dz <= 0) break;
          const z = low[2] + (k + 0.5) * dz;
          sum += M[i] * facing * dz * within(low[along] + z * other, high[along] + z * other, halves[along]);
        }
      }
  });
  return (sum * Math.cos(gamma)) / Math.PI;
}
