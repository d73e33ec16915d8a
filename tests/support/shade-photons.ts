/**
 * A lamp in its shade by brute force: photons leave the lamp one by one, are reflected, passed or lost by chance on
 * the exact surface (ellipsoids, cones and planes in closed form, a flare by bisection), and those that leave are
 * counted on planes below and by direction. No tables, no exitance, nothing of the project's but the words of a
 * study and the finishes' figures.
 *
 * Heights above the lower rim (m).
 */

import { FINISHES } from "../../src/luminaire/shade/finishes.ts";
import type { LampDocument, ShadeDocument } from "../../src/luminaire/shade/shade-document.ts";
import { randomStream } from "./random-stream.ts";

/** What is traced: every length said, nothing left to defaults but the top and lower end. */
export interface PhotonShade {
  readonly lamp: LampDocument & { readonly diameter: number; readonly height: number };
  readonly shade: Omit<ShadeDocument, "profile"> & {
    readonly profile: string | readonly (readonly [number, number])[];
  };
}

export interface PhotonShadeCount {
  /** Mean illuminance (lx) of the ring `k` of a plane, and its standard error: [plane][ring]. */
  readonly rings: readonly Float64Array[];
  readonly ringErrors: readonly Float64Array[];
  /** Mean luminous intensity (cd) over each zone of `zoneStep` degrees of γ, and its standard error. */
  readonly zones: Float64Array;
  readonly zoneErrors: Float64Array;
  readonly lightOutputRatio: number;
}

interface Optics {
  readonly inside: number;
  readonly outside: number;
  readonly specular: number;
  readonly transmittance: number;
  readonly diffusion: number;
}

/** Smallest t > 1e-9 at which a ray meets a surface; normal (away from the axis or, on a plane, as stated) then in `n`. */
interface Surface {
  readonly optics: Optics;
  meet(o: Float64Array, d: Float64Array): number;
  normal(x: number, y: number, z: number, n: Float64Array): void;
}

const NEAR = 1e-9;

/** x² + y² = A + B z + C z² between two heights: cones (C = slope²), cylinders, ellipsoids of revolution. */
function quadric(A: number, B: number, C: number, low: number, high: number, optics: Optics): Surface {
  return {
    optics,
    meet(o, d) {
      const a = d[0] * d[0] + d[1] * d[1] - C * d[2] * d[2];
      const b = 2 * (o[0] * d[0] + o[1] * d[1]) - B * d[2] - 2 * C * o[2] * d[2];
      const c = o[0] * o[0] + o[1] * o[1] - A - B * o[2] - C * o[2] * o[2];
      if (Math.abs(a) < 1e-13) {
        const t = -c / b;
        const z = o[2] + t * d[2];
        return t > NEAR && z >= low && z <= high ? t : Infinity;
      }
      const D = b * b - 4 * a * c;
      if (D < 0) return Infinity;
      const q = -0.5 * (b + Math.sign(b || 1) * Math.sqrt(D));
      const first = Math.min(q / a, c / q);
      const second = Math.max(q / a, c / q);
      const z1 = o[2] + first * d[2];
      if (first > NEAR && z1 >= low && z1 <= high) return first;
      const z2 = o[2] + second * d[2];
      return second > NEAR && z2 >= low && z2 <= high ? second : Infinity;
    },
    normal(x, y, z, n) {
      const nz = -(B + 2 * C * z) / 2;
      const l = Math.hypot(x, y, nz);
      n[0] = x / l;
      n[1] = y / l;
      n[2] = nz / l;
    },
  };
}

function coneBand(r0: number, z0: number, r1: number, z1: number, optics: Optics): Surface {
  const k = (r1 - r0) / (z1 - z0);
  const at = r0 - k * z0;
  return quadric(at * at, 2 * at * k, k * k, z0, z1, optics);
}

/** Semi-axes a across and b along, centre at height c. */
function ellipsoidBand(a: number, b: number, c: number, low: number, high: number, optics: Optics): Surface {
  const s = (a / b) ** 2;
  return quadric(a * a - s * c * c, 2 * s * c, -s, low, high, optics);
}

function plate(height: number, inner: number, outer: number, up: 1 | -1, optics: Optics): Surface {
  return {
    optics,
    meet(o, d) {
      const t = (height - o[2]) / d[2];
      if (!(t > NEAR)) return Infinity;
      const rr = (o[0] + t * d[0]) ** 2 + (o[1] + t * d[1]) ** 2;
      return rr >= inner * inner && rr <= outer * outer ? t : Infinity;
    },
    normal(_x, _y, _z, n) {
      n[0] = 0;
      n[1] = 0;
      n[2] = up;
    },
  };
}

/** Any r(z): sign changes of r(z)² − x² − y² in 48 steps of the ray inside its heights, then bisection. */
function flare(r: (z: number) => number, low: number, high: number, optics: Optics): Surface {
  const widest = Math.max(r(low), r(high));
  return {
    optics,
    meet(o, d) {
      const side = (t: number) =>
        r(Math.min(high, Math.max(low, o[2] + t * d[2]))) ** 2 -
        (o[0] + t * d[0]) ** 2 -
        (o[1] + t * d[1]) ** 2;
      let from = 1e-6;
      let to = 4 * widest + 4 * (high - low);
      if (Math.abs(d[2]) > 1e-12) {
        const a = (low - o[2]) / d[2];
        const b = (high - o[2]) / d[2];
        from = Math.max(from, Math.min(a, b));
        to = Math.min(to, Math.max(a, b));
      } else if (o[2] < low || o[2] > high) return Infinity;
      if (to <= from) return Infinity;
      let before = side(from);
      for (let k = 1; k <= 48; k++) {
        const t = from + ((to - from) * k) / 48;
        const now = side(t);
        if (now > 0 !== before > 0) {
          let a = from + ((to - from) * (k - 1)) / 48;
          let b = t;
          for (let j = 0; j < 32; j++) {
            const m = (a + b) / 2;
            if (side(m) > 0 === before > 0) a = m;
            else b = m;
          }
          return (a + b) / 2;
        }
        before = now;
      }
      return Infinity;
    },
    normal(x, y, z, n) {
      const slope = (r(z + 1e-6) - r(z - 1e-6)) / 2e-6;
      const radius = Math.hypot(x, y);
      const l = Math.hypot(1, slope);
      n[0] = x / radius / l;
      n[1] = y / radius / l;
      n[2] = -slope / l;
    },
  };
}

function surfacesOf({ lamp, shade }: PhotonShade): Surface[] {
  const optics: Optics = FINISHES[shade.finish ?? "white"].material;
  const R = (shade.diameter ?? 0) / 2;
  const h = shade.height ?? 0;
  const top = (shade.topDiameter ?? 0) / 2;
  const out: Surface[] = [];
  let rim = R;
  let crown: readonly [number, number] = [top, h];
  let openTop = shade.top === "open";
  if (typeof shade.profile !== "string") {
    shade.profile.slice(1).forEach(([r1, z1], i) => {
      const [r0, z0] = shade.profile[i] as readonly [number, number];
      if (z0 !== z1) out.push(coneBand(r0, z0, r1, z1, optics));
      else out.push(plate(z0, Math.min(r0, r1), Math.max(r0, r1), r1 < r0 ? 1 : -1, optics));
    });
    rim = shade.profile[0][0] as number;
    crown = shade.profile[shade.profile.length - 1] as readonly [number, number];
  } else if (shade.profile === "dome")
    out.push(ellipsoidBand(R, h / Math.sqrt(1 - (top / R) ** 2), 0, 0, h, optics));
  else if (shade.profile === "globe") {
    out.push(ellipsoidBand(R, h / 2, h / 2, 0, h, optics));
    rim = 0;
    crown = [0, h];
  } else if (shade.profile === "bowl") {
    out.push(ellipsoidBand(R, h, h, 0, h, optics));
    rim = 0;
    crown = [R, h];
    openTop = shade.top !== "closed";
  } else if (shade.profile === "bell")
    out.push(flare((z) => top + (R - top) * (1 - Math.sin((Math.PI * z) / (2 * h))) ** 1.2, 0, h, optics));
  else if (!["cone", "disc", "drum", "cylinder"].includes(shade.profile))
    throw new Error(`no second trace of the form ${shade.profile}: give it a branch here`);
  else {
    const upper = shade.profile === "cylinder" ? R : top;
    out.push(coneBand(R, 0, upper, h, optics));
    crown = [upper, h];
    openTop = shade.profile === "drum" ? shade.top !== "closed" : openTop;
  }
  if (!openTop && crown[0] > 0) out.push(plate(crown[1], 0, crown[0], 1, optics));
  if (shade.bottom === "diffuser")
    out.push(plate(0, 0, rim, -1, FINISHES[shade.diffuser?.finish ?? "opal plastic"].material));
  else if (shade.bottom === "closed") out.push(plate(0, 0, rim, -1, optics));
  // The lamp's own body; the outside of these solids is what light meets.
  const body = (outside: number): Optics => ({
    inside: 0,
    outside,
    specular: 0,
    transmittance: 0,
    diffusion: 0,
  });
  const bulb = lamp.finish === "frosted" || lamp.finish === "half-mirrored" ? lamp.diameter / 2 : 0;
  if (bulb > 0)
    out.push(
      ellipsoidBand(
        bulb,
        bulb,
        lamp.height,
        lamp.height - bulb,
        lamp.height + bulb,
        body(lamp.finish === "half-mirrored" ? 0.8 : 0.6),
      ),
    );
  if (lamp.finish !== "module") {
    const cap = Math.min(0.0135, 0.3 * lamp.diameter);
    const side = lamp.orientation === "base-down" ? -1 : 1;
    const start =
      lamp.height + side * (bulb || (lamp.finish === "clear" ? 0.6 * (lamp.filament ?? 0.04) : 0));
    const low = Math.min(start, start + side * 0.05);
    const high = low + 0.05;
    out.push(plate(low, 0, cap, -1, body(0.3)), coneBand(cap, low, cap, high, body(0.3)));
    out.push(plate(high, 0, cap, 1, body(0.3)));
  }
  return out;
}

/** Relative intensity of the lamp at γ from its own nadir, at most 1. */
function lampLaw({ finish, beam }: LampDocument): (cos: number) => number {
  if (finish === "clear") return (cos) => 0.5 + 0.5 * Math.sqrt(1 - cos * cos);
  if (finish === "half-mirrored") return (cos) => (cos < 0 ? 1 : 0);
  if (finish === "module") return (cos) => Math.max(0, cos);
  if (finish === "directional") {
    const power = Math.log(0.5) / Math.log(Math.cos(((beam ?? 60) * Math.PI) / 360));
    return (cos) => (cos > 0 ? cos ** power : 0);
  }
  return () => 1;
}

/** @param drops depths below the rim of the planes whose rings are counted (m) @param ringWidth m */
export function traceShadePhotons(
  given: PhotonShade,
  photons: number,
  seed: number,
  drops: readonly number[],
  ringWidth: number,
  ringCount: number,
  zoneStep: number,
): PhotonShadeCount {
  const { lamp } = given;
  const surfaces = surfacesOf(given);
  const random = randomStream(seed);
  const law = lampLaw(lamp);
  const up = lamp.orientation === "base-down" ? -1 : 1;
  const rings = drops.map(() => new Float64Array(ringCount));
  const zoneCount = Math.round(180 / zoneStep);
  const zones = new Float64Array(zoneCount);
  let escaped = 0;
  const o = new Float64Array(3);
  const d = new Float64Array(3);
  const n = new Float64Array(3);
  for (let k = 0; k < photons; k++) {
    leaveLamp();
    for (;;) {
      let t = Infinity;
      let met: Surface | undefined;
      for (const surface of surfaces) {
        const s = surface.meet(o, d);
        if (s < t) {
          t = s;
          met = surface;
        }
      }
      if (met === undefined) {
        escaped++;
        zones[Math.min(zoneCount - 1, Math.floor((Math.acos(-d[2]) * 180) / Math.PI / zoneStep))]++;
        if (d[2] < 0)
          for (let p = 0; p < drops.length; p++) {
            const fall = (-drops[p] - o[2]) / d[2];
            const ring = Math.floor(Math.hypot(o[0] + fall * d[0], o[1] + fall * d[1]) / ringWidth);
            if (fall > 0 && ring < ringCount) rings[p][ring]++;
          }
        break;
      }
      o[0] += t * d[0];
      o[1] += t * d[1];
      o[2] += t * d[2];
      met.normal(o[0], o[1], o[2], n);
      if (!turn(met.optics)) break;
    }
  }
  const perPhoton = lamp.flux / photons;
  const areas = Float64Array.from(
    { length: ringCount },
    (_, i) => Math.PI * ringWidth ** 2 * ((i + 1) ** 2 - i ** 2),
  );
  const angles = Float64Array.from({ length: zoneCount }, (_, i) => {
    const step = (zoneStep * Math.PI) / 180;
    return 2 * Math.PI * (Math.cos(i * step) - Math.cos((i + 1) * step));
  });
  return {
    rings: rings.map((counts) => counts.map((c, i) => (c * perPhoton) / areas[i])),
    ringErrors: rings.map((counts) => counts.map((c, i) => (Math.sqrt(c) * perPhoton) / areas[i])),
    zones: zones.map((c, i) => (c * perPhoton) / angles[i]),
    zoneErrors: zones.map((c, i) => (Math.sqrt(c) * perPhoton) / angles[i]),
    lightOutputRatio: escaped / photons,
  };

  function leaveLamp(): void {
    let cos: number;
    do cos = 2 * random() - 1;
    while (random() >= law(cos));
    const sin = Math.sqrt(1 - cos * cos);
    const c = 2 * Math.PI * random();
    d[0] = sin * Math.cos(c);
    d[1] = sin * Math.sin(c);
    d[2] = -up * cos;
    o[0] = 0;
    o[1] = 0;
    o[2] = lamp.height;
    if (lamp.finish === "clear") {
      o[2] += (lamp.filament ?? 0.04) * (random() - 0.5);
      return;
    }
    const r = (lamp.diameter / 2) * Math.sqrt(random());
    const a = 2 * Math.PI * random();
    if (lamp.finish === "directional" || lamp.finish === "module") {
      o[0] += r * Math.cos(a);
      o[1] += r * Math.sin(a);
      return;
    }
    // A place of the sphere's outline seen along the ray, then forward to its face.
    const u = [-Math.sin(c), Math.cos(c), 0];
    const v = [-d[2] * u[1], d[2] * u[0], d[0] * u[1] - d[1] * u[0]];
    const forward = Math.sqrt(Math.max(0, (lamp.diameter / 2) ** 2 - r * r)) + 1e-8;
    for (let i = 0; i < 3; i++) o[i] += r * (Math.cos(a) * u[i] + Math.sin(a) * v[i]) + forward * d[i];
  }

  /** Turns the photon at a surface whose outward normal is `n`; false when it is lost. */
  function turn({ inside, outside, specular, transmittance, diffusion }: Optics): boolean {
    const along = d[0] * n[0] + d[1] * n[1] + d[2] * n[2];
    const fromInside = along > 0;
    const reflectance = fromInside ? inside : outside;
    const event = random();
    if (event >= reflectance + transmittance) return false;
    const reflected = event < reflectance;
    if (reflected && fromInside && random() < specular) {
      for (let i = 0; i < 3; i++) d[i] -= 2 * along * n[i];
      return true;
    }
    if (!reflected && random() >= diffusion) return true;
    // A point of the unit sphere added to the normal of the side it leaves by: cosine law.
    const side = reflected === fromInside ? -1 : 1;
    const z = 2 * random() - 1;
    const s = Math.sqrt(1 - z * z);
    const a = 2 * Math.PI * random();
    d[0] = side * n[0] + s * Math.cos(a);
    d[1] = side * n[1] + s * Math.sin(a);
    d[2] = side * n[2] + z;
    const l = Math.hypot(d[0], d[1], d[2]);
    for (let i = 0; i < 3; i++) d[i] /= l;
    return true;
  }
}
