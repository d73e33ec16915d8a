/**
 * Beam angle and field angle: how wide the light is in a plane through the luminaire's axis.
 *
 * In the plane C–(C + 180°) let θ run from −π to π, negative on the side of C + 180°. The angle at a level f is
 * the width of the unbroken stretch of θ where I(θ) ≥ f · I_ref:
 *   of the maximum   I_ref = the largest intensity of that plane, the stretch about it (the IES habit)
 *   of the axial     I_ref = I(γ = 0), the stretch about the nadir (centre-beam intensity, EU 1194/2012,
 *                    Annex II(e))
 * Beam: f = 0.5; field: f = 0.1 (IES usage, from memory). The two agree where the peak is on the axis. The
 * crossings are those of the linear interpolant, exactly; where the table ends on a value the edge is there.
 */

import { cellOf } from "../numerics/bisection.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";

export const BEAM_LEVEL = 0.5;
export const FIELD_LEVEL = 0.1;

/** A stretch of angles (rad) in one plane: from and to are signed, negative towards C + 180°. Where it
 * passes the zenith, one of them lies beyond ±π. */
export interface AngularWidth {
  readonly angle: number;
  readonly from: number;
  readonly to: number;
}

export interface PlaneWidth {
  /** The plane C–(C + 180°), C in [0, π) (rad). */
  readonly C: number;
  /** Undefined in a dark plane. */
  readonly ofMaximum?: AngularWidth;
  /** Undefined where the axis is dark. */
  readonly ofAxial?: AngularWidth;
}

export interface BeamAngle {
  /** Fraction of the reference intensity. */
  readonly level: number;
  readonly planes: readonly PlaneWidth[];
  /** Mean of the full angles over the planes that have one (rad); equal to each for a rotational luminaire. */
  readonly ofMaximum?: number;
  readonly ofAxial?: number;
}

/** Angle at a level (0…1) in every tabulated plane of a type C distribution. */
export function beamAngle(distribution: IntensityDistribution, level = BEAM_LEVEL): BeamAngle {
  const axial = axialIntensity(distribution);
  const planes = planesOf(distribution).map((C): PlaneWidth => {
    const section = sectionAt(distribution, C);
    const top = topOf(section);
    return {
      C,
      ofMaximum: width(section, top, top, level * section.intensity[top]),
      ofAxial: width(section, section.axis, section.axis - 1, level * axial),
    };
  });
  return {
    level,
    planes,
    ofMaximum: mean(planes.map((plane) => plane.ofMaximum)),
    ofAxial: mean(planes.map((plane) => plane.ofAxial)),
  };
}

/** Index of the largest intensity; of equal ones, as in a symmetric batwing, the nearest to the nadir on the
 * side of C. */
function topOf({ intensity, axis }: Section): number {
  let top = axis;
  for (let i = axis + 1; i < intensity.length; i++) if (intensity[i] > intensity[top]) top = i;
  for (let i = axis - 1; i >= 0; i--) if (intensity[i] > intensity[top]) top = i;
  return top;
}

/** Intensity at the nadir (cd): the mean over the planes, which files do not always agree on. */
export function axialIntensity({ horizontal, vertical, intensity }: IntensityDistribution): number {
  if (vertical[0] > 0) return 0;
  const planes = Math.max(1, horizontal.length - 1);
  let total = 0;
  for (let h = 0; h < planes; h++) total += intensity[h * vertical.length];
  return total / planes;
}

/** Intensity along a whole plane, −π ≤ θ ≤ π: node angles (rad, rising, doubled at a step) and values (cd).
 * `axis` is the first node of the side C; the one before it is the nadir of the side C + 180°. */
export interface Section {
  readonly theta: Float64Array;
  readonly intensity: Float64Array;
  readonly axis: number;
}

/** The section of a type C distribution through C and C + 180°. */
export function sectionAt(distribution: IntensityDistribution, C: number): Section {
  const right = halfPlane(distribution, C);
  const left = halfPlane(distribution, C + Math.PI);
  const size = right.length;
  const theta = new Float64Array(2 * size);
  const intensity = new Float64Array(2 * size);
  for (let i = 0; i < size; i++) {
    theta[size + i] = right[i][0];
    intensity[size + i] = right[i][1];
    theta[size - 1 - i] = -left[i][0];
    intensity[size - 1 - i] = left[i][1];
  }
  return { theta, intensity, axis: size };
}

/** Nodes [γ, I] of one half-plane from nadir to zenith, with the steps where the table begins and ends. */
function halfPlane(distribution: IntensityDistribution, C: number): [number, number][] {
  const { horizontal, vertical, intensity } = distribution;
  const size = vertical.length;
  let low = 0;
  let s = 0;
  if (horizontal.length > 1) {
    const turn = C - 2 * Math.PI * Math.floor(C / (2 * Math.PI));
    low = cellOf(horizontal, turn);
    s = Math.min(1, Math.max(0, (turn - horizontal[low]) / (horizontal[low + 1] - horizontal[low])));
  }
  const high = horizontal.length > 1 ? low + 1 : low;
  const nodes: [number, number][] = [];
  if (vertical[0] > 0) nodes.push([0, 0], [vertical[0], 0]);
  for (let v = 0; v < size; v++)
    nodes.push([vertical[v], (1 - s) * intensity[low * size + v] + s * intensity[high * size + v]]);
  if (vertical[size - 1] < Math.PI) nodes.push([vertical[size - 1], 0], [Math.PI, 0]);
  return nodes;
}

/** Planes closer than this (rad) are one: a step between planes is two of them 2e-9 apart. */
const SAME_PLANE = 1e-8;

/** The distinct planes C in [0, π) that a table holds at least one half of. */
function planesOf({ horizontal }: IntensityDistribution): number[] {
  if (horizontal.length === 1) return [0];
  const folded = [...horizontal].map((C) => (C >= Math.PI - SAME_PLANE ? C - Math.PI : C));
  const planes: number[] = [];
  for (const C of folded.filter((c) => c < Math.PI - SAME_PLANE).sort((a, b) => a - b))
    if (planes.length === 0 || C - planes[planes.length - 1] > SAME_PLANE) planes.push(Math.max(0, C));
  return planes;
}

/** The stretch at or above a threshold that starts at two neighbouring nodes and grows to both sides. */
function width(section: Section, right: number, left: number, threshold: number): AngularWidth | undefined {
  if (!(threshold > 0)) return undefined;
  const from = edge(section, left, -1, threshold);
  const to = edge(section, right, 1, threshold);
  if (from === undefined || to === undefined) return { angle: 2 * Math.PI, from: -Math.PI, to: Math.PI };
  return { angle: to - from, from, to };
}

/** Where the intensity first falls below the threshold, walking round the plane, through the zenith if need
 * be; undefined when it never does. */
function edge(
  { theta, intensity }: Section,
  start: number,
  step: 1 | -1,
  threshold: number,
): number | undefined {
  const size = theta.length;
  if (intensity[start] < threshold) return theta[start];
  let turn = 0;
  let here = start;
  for (let walked = 1; walked <= size; walked++) {
    let next = here + step;
    let wrapped = 0;
    if (next < 0 || next >= size) {
      next = next < 0 ? size - 1 : 0;
      wrapped = step * 2 * Math.PI;
    }
    if (intensity[next] < threshold) {
      const a = theta[here] + turn;
      const b = theta[next] + turn + wrapped;
      return a + ((intensity[here] - threshold) / (intensity[here] - intensity[next])) * (b - a);
    }
    turn += wrapped;
    here = next;
  }
  return undefined;
}

function mean(widths: readonly (AngularWidth | undefined)[]): number | undefined {
  const present = widths.filter((one) => one !== undefined);
  return present.length === 0
    ? undefined
    : present.reduce((total, one) => total + one.angle, 0) / present.length;
}
