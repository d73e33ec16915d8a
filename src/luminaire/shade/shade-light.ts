/**
 * The light that leaves a traced shade, at any distance: rings of known exitance and the lamp itself, each
 * seen past the shade's own edges.
 *
 * An element dA of exitance M sends E_n = (M/π) |n·v| dA V / d² to a point in direction v, V the share of it
 * that the other parts let pass unscattered; a lamp sends J(γ) Φ V / d² from each place of its outline;
 * mirror-like light is kept in a table of its own (mirror-light.ts). At infinity the same sum is the luminous
 * intensity, so near and far field are one model. A point near under a rim therefore reads otherwise than the
 * inverse-square law of the whole: that law is 6 % high on the axis of a disc of 0.4 m, 0.8 m below it, and 2 %
 * low 1.2 m beside it (tests/validation/direct-area-sources).
 *
 * Local frame here: z up from the shade's rim, axis at x = y = 0. By symmetry a point may be turned to azimuth
 * 0 and the half y > 0 be summed and mirrored.
 * Error: azimuth in 24 steps and rings as their centres; checked against a photon trace in the tests.
 */

import { passedAlong, type RingPlace, ringArea, ringPlace } from "../../geometry/revolved-surface.ts";
import { fraction } from "../../numerics/random-sequence.ts";
import type { Assembly } from "./assembly.ts";
import { type LampSource, lawAt } from "./lamp.ts";
import { GROUP_STRIDE, type LightTable } from "./light-table.ts";

/** Azimuth steps over half a turn. */
const STEPS = 12;
const RING_GROUPS = 6;
const AZIMUTH_GROUPS = 3;
/** Groups of sources: the rings, by height and azimuth, and the halves of each lamp. */
export const SURFACE_GROUPS = RING_GROUPS * AZIMUTH_GROUPS;
export const LAMP_GROUPS = 2;
const LAMP_SAMPLES = 96;
const SKIN = 1e-7;

/** The light that leaves a traced shade, as plain data. */
export interface ShadeLight {
  readonly assembly: Assembly;
  /** lm/m² leaving each ring towards the inside and the outside. */
  readonly inwardExitance: Float64Array;
  readonly outwardExitance: Float64Array;
  /** What leaves by a mirror-like turn; undefined when nothing is mirror-like. */
  readonly mirrored?: LightTable;
}

/** Exitances (lm/m²) of rings that send on shares of the lamps' flux. */
export function ringExitances({ surface, flux }: Assembly, shares: Float64Array): Float64Array {
  return shares.map((share, i) => {
    const area = ringArea(surface, i);
    return area > 0 ? (share * flux) / area : 0;
  });
}

/** Sums over the rings and lamps of a {@link ShadeLight}. */
export interface ShadeSums {
  /** Luminous intensity at a polar angle (cd), without what leaves by a mirror-like turn. */
  intensity(gamma: number): number;
  /** Part of {@link intensity} that a ring's unit inward or outward exitance gives. */
  ringIntensity(ring: number, gamma: number, outward: boolean): number;
  /** Adds up the rings' light at the point (r, 0, z), half y > 0 only, group by group into `out`
   * (groups × GROUP_STRIDE): vector illuminance and mean distance. */
  surfacesAt(r: number, z: number, out: Float64Array): void;
  /** The same of the lamps of one kind. */
  lampsAt(lamp: LampSource, r: number, z: number, out: Float64Array): void;
}

export function shadeSums({ assembly, inwardExitance, outwardExitance }: ShadeLight): ShadeSums {
  const { surface, straight } = assembly;
  const n = surface.count;
  const area = Float64Array.from({ length: n }, (_, i) => ringArea(surface, i));

  // Per ring: radius and height of its centre of area, unit outward normal there in the (r, z) plane.
  const rc = new Float64Array(n);
  const zc = new Float64Array(n);
  const nr = new Float64Array(n);
  const nz = new Float64Array(n);
  const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  for (let i = 0; i < n; i++) {
    const { r0, r1 } = surface;
    // The wider half of a ring holds more of its area.
    ringPlace(surface, i, r0[i] + r1[i] > 0 ? (r0[i] + 2 * r1[i]) / (3 * (r0[i] + r1[i])) : 0.5, place);
    rc[i] = place.r;
    zc[i] = place.z;
    nr[i] = place.nr;
    nz[i] = place.nz;
  }
  const cosine = Float64Array.from({ length: STEPS }, (_, k) => Math.cos(((k + 0.5) * Math.PI) / STEPS));
  const sine = Float64Array.from({ length: STEPS }, (_, k) => Math.sin(((k + 0.5) * Math.PI) / STEPS));
  const ringIntensity = (i: number, gamma: number, outward: boolean): number => {
    const dx = Math.sin(gamma);
    const dz = -Math.cos(gamma);
    let sum = 0;
    for (let k = 0; k < STEPS; k++) {
      const facing = nr[i] * cosine[k] * dx + nz[i] * dz;
      if (outward ? facing <= 0 : facing >= 0) continue;
      const passed = passedAlong(
        surface,
        straight,
        rc[i] * cosine[k],
        rc[i] * sine[k],
        zc[i],
        dx,
        0,
        dz,
        SKIN,
        Number.POSITIVE_INFINITY,
      );
      sum += Math.abs(facing) * passed;
    }
    return (sum * area[i]) / (Math.PI * STEPS);
  };

  const intensity = (gamma: number): number => {
    let total = 0;
    for (let i = 0; i < n; i++) {
      if (inwardExitance[i] > 0) total += inwardExitance[i] * ringIntensity(i, gamma, false);
      if (outwardExitance[i] > 0) total += outwardExitance[i] * ringIntensity(i, gamma, true);
    }
    const dx = Math.sin(gamma);
    const dz = -Math.cos(gamma);
    for (const lamp of assembly.lamps) {
      const value = lamp.flux * lamp.count * lawAt(lamp.law, gamma);
      if (value === 0) continue;
      let passed = 0;
      eachLampPlace(lamp, dx, 0, dz, (x, y, z, along) => {
        passed += passedAlong(
          surface,
          straight,
          x + along * dx,
          y,
          z + along * dz,
          dx,
          0,
          dz,
          SKIN,
          Infinity,
        );
      });
      total += (value * passed) / LAMP_SAMPLES;
    }
    return total;
  };

  const surfacesAt = (r: number, z: number, out: Float64Array): void => {
    out.fill(0);
    for (let i = 0; i < n; i++) {
      if (inwardExitance[i] === 0 && outwardExitance[i] === 0) continue;
      const ringGroup = Math.min(RING_GROUPS - 1, Math.floor((i * RING_GROUPS) / n));
      for (let k = 0; k < STEPS; k++) {
        const x = rc[i] * cosine[k];
        const y = rc[i] * sine[k];
        const vx = r - x;
        const vz = z - zc[i];
        const squared = vx * vx + y * y + vz * vz;
        const distance = Math.sqrt(squared);
        const facing = (nr[i] * (cosine[k] * vx - sine[k] * y) + nz[i] * vz) / distance;
        const exitance = facing > 0 ? outwardExitance[i] : inwardExitance[i];
        if (exitance === 0 || facing === 0) continue;
        const passed = passedAlong(surface, straight, x, y, zc[i], vx, -y, vz, SKIN, 1);
        if (passed === 0) continue;
        const value = ((exitance * Math.abs(facing) * area[i]) / (2 * STEPS * Math.PI)) * passed;
        const group = ringGroup * AZIMUTH_GROUPS + Math.floor((k * AZIMUTH_GROUPS) / STEPS);
        addTo(out, group, -vx, y, -vz, value / squared, distance);
      }
    }
    meanDistances(out);
  };

  const lampsAt = (lamp: LampSource, r: number, z: number, out: Float64Array): void => {
    out.fill(0);
    const toward = Math.hypot(r, z - lamp.z);
    const dx = r / toward;
    const dz = (z - lamp.z) / toward;
    eachLampPlace(lamp, dx, 0, dz, (x, y, h, along, upper) => {
      const vx = r - x;
      const vz = z - h;
      const squared = vx * vx + y * y + vz * vz;
      const distance = Math.sqrt(squared);
      const value = lawAt(lamp.law, Math.acos(Math.min(1, Math.max(-1, -vz / distance))));
      if (value === 0) return;
      const fx = x + along * dx;
      const fz = h + along * dz;
      const passed = passedAlong(surface, straight, fx, y, fz, r - fx, -y, z - fz, SKIN, 1);
      if (passed === 0) return;
      // Half the lamp: its mirror image in y is the other half.
      const power = ((lamp.flux * lamp.count * value) / (2 * LAMP_SAMPLES)) * passed;
      addTo(out, upper ? 1 : 0, -vx, y, -vz, power / squared, distance);
    });
    meanDistances(out);
  };

  return { intensity, ringIntensity, surfacesAt, lampsAt };
}

function addTo(
  out: Float64Array,
  group: number,
  vx: number,
  vy: number,
  vz: number,
  illuminance: number,
  distance: number,
): void {
  const at = group * GROUP_STRIDE;
  out[at] += (illuminance * vx) / distance;
  out[at + 1] += (illuminance * vy) / distance;
  out[at + 2] += (illuminance * vz) / distance;
  out[at + 3] += illuminance * distance;
}

function meanDistances(out: Float64Array): void {
  for (let at = 0; at < out.length; at += GROUP_STRIDE) {
    const magnitude = Math.hypot(out[at], out[at + 1], out[at + 2]);
    if (magnitude > 0) out[at + 3] /= magnitude;
  }
}

/** Visits LAMP_SAMPLES places of the half y ≥ 0 of a lamp's outline as seen along the unit direction
 * (dx, dy, dz) from it. Places lie in the plane through the lamp's centre, from which a sphere's light obeys
 * the inverse square law; its surface lies `along` further in that direction, where sight lines start. */
export function eachLampPlace(
  lamp: LampSource,
  dx: number,
  dy: number,
  dz: number,
  visit: (x: number, y: number, z: number, along: number, upper: boolean) => void,
): void {
  for (let j = 0; j < LAMP_SAMPLES; j++) {
    // Off-axis lamps: azimuths spread over their ring; each place then takes one point of the outline.
    const u = (j + 0.5) / LAMP_SAMPLES;
    const q = fraction(0.5 + j * 0.6180339887498949);
    let x = 0;
    let y = 0;
    if (lamp.radius > 0) {
      x = lamp.radius * Math.cos(Math.PI * q);
      y = lamp.radius * Math.sin(Math.PI * q);
    }
    if (lamp.shape === "filament") {
      const s = 2 * u - 1;
      visit(x, y, lamp.z + lamp.size * s, 0, s > 0);
      continue;
    }
    const rho = Math.sqrt(u) * (1 - 1e-9);
    const angle = Math.PI * (lamp.radius > 0 ? fraction(0.5 + j * 0.4142135623730951) : q);
    const across = lamp.size * rho * Math.sin(angle);
    const a = lamp.size * rho * Math.cos(angle);
    if (lamp.shape === "disc") {
      visit(x + a, y + across, lamp.z, 0, a > 0);
      continue;
    }
    // Outline of a sphere: `across` along the horizontal normal to the ray, `a` along the other.
    const level = Math.hypot(dx, dy);
    const hx = level > 1e-9 ? -dy / level : 0;
    const hy = level > 1e-9 ? dx / level : 1;
    const ex = -dz * hy;
    const ey = dz * hx;
    const ez = dx * hy - dy * hx;
    const along = lamp.size * Math.sqrt(Math.max(0, 1 - rho * rho)) * (1 + 1e-6);
    visit(x + across * hx + a * ex, y + across * hy + a * ey, lamp.z + a * ez, along, a * ez > 0);
  }
}
