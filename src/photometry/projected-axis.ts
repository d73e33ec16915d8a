/**
 * A tabulated angle as an algebraic coordinate: cells on which the fraction t of a tabulated interval is a quadratic.
 *
 *   polar     P = sin(θ/2) for θ ≤ π/2, √2 − cos(θ/2) beyond        0 … √2
 *   azimuth   Q = 1 − r for φ ≤ π, 3 + r beyond, r = cos φ / (|cos φ| + |sin φ|)      0 … 4
 *
 * Cells end at every tabulated angle, at the tolerant rim of the range (`RANGE_TOLERANCE`) and at quarter turns,
 * where the projections have their seams; they are halved until |δt| ≤ 2e-5. Used by `production-lookup.ts`.
 */

import { RANGE_TOLERANCE } from "./reference-lookup.ts";

const FRACTION_TOLERANCE = 2e-5;
/** Numbers a cell takes: next break, c₀, c₁, c₂, with t = c₀ + c₁ P + c₂ P². */
export const STRIDE = 4;
const HALF_TURN = Math.PI;
const TURN = 2 * Math.PI;

/** One angle made algebraic: cells of the projection, in order, the last break infinite. */
export interface ProjectedAxis {
  readonly cells: Float64Array;
  /** Tabulated interval each cell lies in, −1 outside the range. */
  readonly interval: Int32Array;
  /** First cell that a bucket of the projection touches, as an index into `cells`. */
  readonly bucket: Int32Array;
  readonly scale: number;
}

/** Axis of rising angles from the pole (rad, within 0…π); outside them interval −1. */
export function polarAxis(angles: Float64Array): ProjectedAxis {
  return projectedAxis(polarPieces(angles), polarProjection, Math.SQRT2);
}

/** Axis of rising azimuths (rad), which may start below zero and need not fill the turn. */
export function azimuthAxis(angles: Float64Array): ProjectedAxis {
  return projectedAxis(azimuthPieces(angles), azimuthProjection, 4);
}

/** A stretch of one angle on which the fraction t rises from t0 to t1 within a tabulated interval. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly interval: number;
  readonly t0: number;
  readonly t1: number;
}

/** The axis of a table that has none: one cell of nothing. */
export const NO_AXIS: ProjectedAxis = {
  cells: Float64Array.of(Number.POSITIVE_INFINITY, 0, 0, 0),
  interval: Int32Array.of(-1),
  bucket: new Int32Array(1),
  scale: 0,
};

function polarProjection(angle: number): number {
  return angle <= HALF_TURN / 2 ? Math.sin(angle / 2) : Math.SQRT2 - Math.sin((HALF_TURN - angle) / 2);
}

function azimuthProjection(angle: number): number {
  const a = Math.cos(angle);
  const b = Math.sin(angle);
  const r = a / (Math.abs(a) + Math.abs(b));
  return angle <= HALF_TURN ? 1 - r : 3 + r;
}

/** Pieces over 0…π: outside, the rim's tolerance, each interval, split where the projection has its seam. */
function polarPieces(angles: Float64Array): Piece[] {
  const pieces: Piece[] = [];
  const first = angles[0];
  const last = angles[angles.length - 1];
  addPiece(pieces, 0, first - RANGE_TOLERANCE, -1, 0, 0, HALF_TURN);
  addPiece(pieces, first - RANGE_TOLERANCE, first, 0, 0, 0, HALF_TURN);
  for (let i = 0; i + 1 < angles.length; i++) addPiece(pieces, angles[i], angles[i + 1], i, 0, 1, HALF_TURN);
  addPiece(pieces, last, last + RANGE_TOLERANCE, angles.length - 2, 1, 1, HALF_TURN);
  addPiece(pieces, last + RANGE_TOLERANCE, HALF_TURN, -1, 0, 0, HALF_TURN);
  return pieces;
}

/** Pieces over 0…2π of angles that may start below zero and need not fill the turn. */
function azimuthPieces(angles: Float64Array): Piece[] {
  const first = angles[0];
  const last = angles[angles.length - 1];
  const unwrapped: Piece[] = [];
  const full = last - first > TURN - RANGE_TOLERANCE;
  if (!full) unwrapped.push({ from: first - RANGE_TOLERANCE, to: first, interval: 0, t0: 0, t1: 0 });
  for (let i = 0; i + 1 < angles.length; i++)
    unwrapped.push({ from: angles[i], to: angles[i + 1], interval: i, t0: 0, t1: 1 });
  if (!full) {
    const rim = { from: last, to: last + RANGE_TOLERANCE, interval: angles.length - 2, t0: 1, t1: 1 };
    unwrapped.push(rim, { from: rim.to, to: first - RANGE_TOLERANCE + TURN, interval: -1, t0: 0, t1: 0 });
  }
  const pieces: Piece[] = [];
  for (const piece of unwrapped) {
    for (const turn of [0, TURN]) {
      addPiece(pieces, piece.from + turn, piece.to + turn, piece.interval, piece.t0, piece.t1, TURN);
    }
  }
  return pieces.sort((p, q) => p.from - q.from);
}

/** The part of a piece inside 0…end, cut at the quarter turns. */
function addPiece(
  pieces: Piece[],
  from: number,
  to: number,
  interval: number,
  t0: number,
  t1: number,
  end: number,
): void {
  const fraction = (angle: number) => (to > from ? t0 + ((t1 - t0) * (angle - from)) / (to - from) : t0);
  let low = Math.max(0, from);
  const high = Math.min(end, to);
  for (let quarter = 1; low < high; quarter++) {
    const cut = Math.min(high, (quarter * HALF_TURN) / 2);
    if (cut <= low) continue;
    pieces.push({ from: low, to: cut, interval, t0: fraction(low), t1: fraction(cut) });
    low = cut;
  }
}

function projectedAxis(pieces: Piece[], project: (angle: number) => number, end: number): ProjectedAxis {
  const cells: number[] = [];
  const interval: number[] = [];
  let narrowest = end;
  const cut = (piece: Piece, depth: number): void => {
    const { from, to, t0, t1 } = piece;
    const p0 = project(from);
    const p1 = project(to);
    const middle = (from + to) / 2;
    if (t0 === t1 || p1 <= p0) {
      cells.push(p1, t0, 0, 0);
    } else {
      const pm = project(middle);
      const t = (angle: number) => t0 + ((t1 - t0) * (angle - from)) / (to - from);
      // Newton's divided differences through both ends and the middle.
      const d1 = (t(middle) - t0) / (pm - p0);
      const d2 = ((t1 - t(middle)) / (p1 - pm) - d1) / (p1 - p0);
      const c0 = t0 - p0 * (d1 - pm * d2);
      const c1 = d1 - d2 * (p0 + pm);
      let worst = 0;
      for (const k of [0.125, 0.25, 0.375, 0.625, 0.75, 0.875]) {
        const angle = from + k * (to - from);
        const p = project(angle);
        worst = Math.max(worst, Math.abs(c0 + p * (c1 + p * d2) - t(angle)));
      }
      if (worst > FRACTION_TOLERANCE && depth < 12) {
        cut({ ...piece, to: middle, t1: t(middle) }, depth + 1);
        cut({ ...piece, from: middle, t0: t(middle) }, depth + 1);
        return;
      }
      cells.push(p1, c0, c1, d2);
      narrowest = Math.min(narrowest, p1 - p0);
    }
    interval.push(piece.interval);
  };
  for (const piece of pieces) cut(piece, 0);
  cells[cells.length - STRIDE] = Number.POSITIVE_INFINITY;

  // Eight buckets to the narrowest cell: one time in eight a step from a bucket's first cell, rims aside, so that
  // the branch is foretold.
  const count = Math.min(8192, Math.max(16, Math.ceil((8 * end) / narrowest)));
  const scale = count / end;
  const bucket = new Int32Array(count + 2);
  for (let i = 0, k = 0; i < bucket.length; i++) {
    // A hair early, because P · scale rounds.
    while (cells[k] <= (i - 1e-9) / scale) k += STRIDE;
    bucket[i] = k;
  }
  return { cells: Float64Array.from(cells), interval: Int32Array.from(interval), bucket, scale };
}
