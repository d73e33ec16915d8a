/**
 * Points spread evenly over a luminous opening as a receiving point sees it, each with the light it sends there.
 *
 * The quadrature of `direct/` needs a smooth integrand; a shadow's edge is none. Here the opening is sampled by a
 * shifted additive sequence (the R2 sequence of the plastic number [1]) in the parameters in which each shape's
 * projected area is spread evenly or nearly so; weights carry the rest. Coordinates are the luminaire's own.
 *
 * [1] M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018.
 */

import type { OpeningQuadrature } from "../direct/opening-quadrature.ts";
import { type OpeningSurface, projectedArea } from "../direct/opening-surface.ts";

const ALPHA = 0.7548776662466927;
const BETA = 0.5698402909980532;

/** Writes samples `from` … `to` of the opening seen from the local point: position to `positions`, relative
 * illuminance on a plane facing it to `weights`. `s`, `t` in [0, 1) shift the sequence. */
export function scatterOpening(
  emitter: OpeningQuadrature,
  px: number,
  py: number,
  pz: number,
  from: number,
  to: number,
  s: number,
  t: number,
  positions: Float64Array,
  weights: Float64Array,
): void {
  const { surface, lookup } = emitter;
  for (let n = from; n < to; n++) {
    const a = s + (n + 1) * ALPHA;
    const b = t + (n + 1) * BETA;
    const projected = place(surface, px, py, pz, a - Math.floor(a), b - Math.floor(b), positions, 3 * n);
    const x = px - positions[3 * n];
    const y = py - positions[3 * n + 1];
    const z = pz - positions[3 * n + 2];
    const inverse = 1 / Math.sqrt(x * x + y * y + z * z);
    weights[n] = projected * lookup.towards(x, y, z) * inverse * inverse;
  }
}

/** Places one sample; its share of the projected area seen from the point, over its density. */
function place(
  surface: OpeningSurface,
  px: number,
  py: number,
  pz: number,
  s: number,
  t: number,
  out: Float64Array,
  k: number,
): number {
  const a = surface.half[0];
  const b = surface.half[1];
  const c = surface.half[2];
  out[k] = 0;
  out[k + 1] = 0;
  out[k + 2] = 0;
  switch (surface.kind) {
    case "point":
      return 1;
    case "flat rectangle":
      // Any two of the three extents may be the plane's; the third is zero.
      out[k] = a * (2 * s - 1);
      out[k + 1] = b * (2 * (a === 0 ? s : t) - 1);
      out[k + 2] = c * (2 * t - 1);
      return 1;
    case "flat disc": {
      const r = Math.sqrt(s);
      const x = r * Math.cos(2 * Math.PI * t);
      const y = r * Math.sin(2 * Math.PI * t);
      if (surface.axis === 0) {
        out[k + 1] = b * x;
        out[k + 2] = c * y;
      } else {
        out[k] = a * x;
        out[k + 1] = b * y;
      }
      return 1;
    }
    case "ellipsoid":
      return placeOnEllipsoid(surface, px, py, pz, s, t, out, k);
    case "box":
      return placeOnBox(surface, px, py, pz, s, t, out, k);
    case "cylinder":
      return placeOnCylinder(surface, px, py, pz, s, t, out, k);
  }
}

function overArea(surface: OpeningSurface, px: number, py: number, pz: number, out: Float64Array, k: number) {
  const area = projectedArea(surface, px - out[k], py - out[k + 1], pz - out[k + 2]);
  return area > 0 ? 1 / area : 0;
}

/** Even in cos θ over the cap that the point sees, in coordinates scaled to the unit sphere. */
function placeOnEllipsoid(
  surface: OpeningSurface,
  px: number,
  py: number,
  pz: number,
  s: number,
  t: number,
  out: Float64Array,
  k: number,
): number {
  const [a, b, c] = surface.half;
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
  return (D * cosine - 1) * overArea(surface, px, py, pz, out, k);
}

/** Faces in front of the point, each by its share of n·v dA; the first parameter chooses the face and is spread
 * anew within it. */
function placeOnBox(
  surface: OpeningSurface,
  px: number,
  py: number,
  pz: number,
  s: number,
  t: number,
  out: Float64Array,
  k: number,
): number {
  const { half, ends } = surface;
  let total = 0;
  for (let axis = 0; axis < 3; axis++) total += faceShare(half, ends, axis, px, py, pz);
  if (total <= 0) return 0;
  let wanted = s * total;
  let axis = 0;
  for (; axis < 2; axis++) {
    const share = faceShare(half, ends, axis, px, py, pz);
    if (wanted < share) break;
    wanted -= share;
  }
  const share = faceShare(half, ends, axis, px, py, pz);
  if (share <= 0) return 0;
  const p = axis === 0 ? px : axis === 1 ? py : pz;
  out[k + axis] = p > 0 ? half[axis] : -half[axis];
  out[k + ((axis + 1) % 3)] = half[(axis + 1) % 3] * (2 * Math.min(1, wanted / share) - 1);
  out[k + ((axis + 2) % 3)] = half[(axis + 2) % 3] * (2 * t - 1);
  return overArea(surface, px, py, pz, out, k);
}

function faceShare(
  half: readonly number[],
  ends: Float64Array,
  axis: number,
  px: number,
  py: number,
  pz: number,
): number {
  const p = axis === 0 ? px : axis === 1 ? py : pz;
  const clear = Math.abs(p) - half[axis];
  return clear > 0 ? clear * ends[2 * axis + (p > 0 ? 1 : 0)] : 0;
}

/** What one point sees of a cylinder: its side's arc and one end. Worked out once a point, not once a sample. */
const seen = {
  surface: undefined as OpeningSurface | undefined,
  px: Number.NaN,
  py: Number.NaN,
  pz: Number.NaN,
  i: 0,
  j: 0,
  D: 0,
  reach: 0,
  side: 0,
  end: 0,
  ei: 0,
  ej: 0,
  top: 0,
};

function seeCylinder(surface: OpeningSurface, px: number, py: number, pz: number): void {
  if (seen.surface === surface && seen.px === px && seen.py === py && seen.pz === pz) return;
  const { half, axis, ends } = surface;
  const i = (axis + 1) % 3;
  const j = (axis + 2) % 3;
  const pi = i === 0 ? px : i === 1 ? py : pz;
  const pj = j === 0 ? px : j === 1 ? py : pz;
  const pa = axis === 0 ? px : axis === 1 ? py : pz;
  const D = Math.sqrt((pi / half[i]) ** 2 + (pj / half[j]) ** 2);
  const reach = D > 1 ? Math.acos(1 / D) : 0;
  const clear = Math.abs(pa) - half[axis];
  seen.surface = surface;
  seen.px = px;
  seen.py = py;
  seen.pz = pz;
  seen.i = i;
  seen.j = j;
  seen.D = D;
  seen.reach = reach;
  // ∫ (D cos β − 1) dβ over the arc seen, times a b · 2c.
  seen.side = D > 1 ? 2 * (D * Math.sin(reach) - reach) * half[i] * half[j] * 2 * half[axis] : 0;
  seen.end = clear > 0 ? clear * ends[2 * axis + (pa > 0 ? 1 : 0)] : 0;
  seen.ei = pi / half[i] / D;
  seen.ej = pj / half[j] / D;
  seen.top = pa > 0 ? half[axis] : -half[axis];
}

function placeOnCylinder(
  surface: OpeningSurface,
  px: number,
  py: number,
  pz: number,
  s: number,
  t: number,
  out: Float64Array,
  k: number,
): number {
  seeCylinder(surface, px, py, pz);
  const { half, axis } = surface;
  const { i, j, D, reach, side, end, ei, ej } = seen;
  const wanted = s * (side + end);
  if (side + end <= 0) return 0;
  if (wanted < side) {
    const β = reach * (2 * (wanted / side) - 1);
    const cosine = Math.cos(β);
    const sine = Math.sin(β);
    out[k + i] = half[i] * (cosine * ei - sine * ej);
    out[k + j] = half[j] * (cosine * ej + sine * ei);
    out[k + axis] = half[axis] * (2 * t - 1);
    // Even in β: the density against n·v dA is what is left over.
    const density = side / (2 * reach * half[i] * half[j] * 2 * half[axis]);
    return ((D * cosine - 1) / density) * overArea(surface, px, py, pz, out, k);
  }
  const r = Math.sqrt(Math.min(1, (wanted - side) / end));
  out[k + i] = half[i] * r * Math.cos(2 * Math.PI * t);
  out[k + j] = half[j] * r * Math.sin(2 * Math.PI * t);
  out[k + axis] = seen.top;
  return overArea(surface, px, py, pz, out, k);
}

const RIM = 24;

/** Writes points of the outline of an opening as the local point sees it, or of edges that hold it, and returns
 * their number: where a shadow begins to cross an opening, it crosses its outline first. */
export function rimOfOpening(
  surface: OpeningSurface,
  px: number,
  py: number,
  pz: number,
  out: Float64Array,
): number {
  const [a, b, c] = surface.half;
  const put = (n: number, x: number, y: number, z: number): number => {
    out[3 * n] = x;
    out[3 * n + 1] = y;
    out[3 * n + 2] = z;
    return n + 1;
  };
  let n = 0;
  switch (surface.kind) {
    case "point":
      return 0;
    case "flat rectangle":
    case "box":
      // Corners, middles of edges and of faces: 27 points less the centre; coincident where an extent is none.
      for (let i = -1; i <= 1; i++)
        for (let j = -1; j <= 1; j++)
          for (let k = -1; k <= 1; k++) if (i !== 0 || j !== 0 || k !== 0) n = put(n, i * a, j * b, k * c);
      return n;
    case "flat disc":
      for (let k = 0; k < RIM; k++) {
        const x = Math.cos((2 * Math.PI * k) / RIM);
        const y = Math.sin((2 * Math.PI * k) / RIM);
        n = surface.axis === 0 ? put(n, 0, b * x, c * y) : put(n, a * x, b * y, 0);
      }
      return n;
    case "ellipsoid":
      for (let k = 0; k < RIM; k++) {
        // At s = 1 the cap ends: the outline.
        placeOnEllipsoid(surface, px, py, pz, 1, k / RIM, out, 3 * n);
        n++;
      }
      return n;
    case "cylinder": {
      const { axis, half } = surface;
      const i = (axis + 1) % 3;
      const j = (axis + 2) % 3;
      for (let k = 0; k < RIM; k++) {
        const angle = (4 * Math.PI * (k >> 1)) / RIM;
        out[3 * n + i] = half[i] * Math.cos(angle);
        out[3 * n + j] = half[j] * Math.sin(angle);
        out[3 * n + axis] = k % 2 === 0 ? half[axis] : -half[axis];
        n++;
      }
      return n;
    }
  }
}
