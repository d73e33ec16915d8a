/**
 * Light near a shade against a second route: photons traced with the same surfaces and counted where they
 * land, and against the far field at a distance.
 */
import { describe, expect, it } from "vitest";
import { type Hit, nearestHit } from "../../../src/geometry/revolved-surface.ts";
import type { Luminaire } from "../../../src/luminaire/luminaire.ts";
import { assemble } from "../../../src/luminaire/shade/assembly.ts";
import { lampSource } from "../../../src/luminaire/shade/lamp.ts";
import { MAXIMUM_ELEMENTS, NearFieldLattice } from "../../../src/luminaire/shade/near-field-lattice.ts";
import { shadeLuminaire } from "../../../src/luminaire/shade/shade-luminaire.ts";
import { createRandom } from "../../../src/numerics/random-sequence.ts";
import { plainShade, pointLamp } from "../../support/shades.ts";

function horizontalIlluminance(luminaire: Luminaire, x: number, y: number, z: number): number {
  if (luminaire.emission.kind !== "surfaces") throw new Error("not a shade");
  const { emission } = luminaire;
  const near = new NearFieldLattice(emission.light, emission.farField);
  const positions = new Float64Array(3 * MAXIMUM_ELEMENTS);
  const values = new Float64Array(MAXIMUM_ELEMENTS);
  const count = near.sample(emission, x, y, z, positions, values);
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const dx = positions[3 * i] - x;
    const dy = positions[3 * i + 1] - y;
    const dz = positions[3 * i + 2] - z;
    sum += (values[i] * Math.max(0, dz)) / Math.hypot(dx, dy, dz);
  }
  return sum;
}

describe("an opal sphere", () => {
  it("obeys the inverse square law from its centre at every distance", () => {
    const shade = plainShade("globe", 0.25, 0.25, 0, {
      inside: 0.42,
      outside: 0.42,
      transmittance: 0.5,
      diffusion: 1,
    });
    const { luminaire } = shadeLuminaire(shade, [pointLamp(0.125)], {
      name: "globe",
      origin: "test",
      accuracy: { axial: 0.003, ratio: 0.001 },
    });
    let worst = 0;
    for (const d of [0.2, 0.3, 0.5, 0.8, 1.5, 4]) {
      const expected = (800 * 0.5) / 0.58 / (4 * Math.PI * d * d);
      worst = Math.max(worst, Math.abs(horizontalIlluminance(luminaire, 0, 0, -d) / expected - 1));
    }
    console.log(`worst error: ${worst.toExponential(1)}`);
    // Far field within 1 % by its band; frustums for a sphere 1 %.
    expect(worst).toBeLessThan(0.02);
  });
});

describe("an opaque white dome", () => {
  const shade = plainShade("dome", 0.3, 0.18, 0.06, { inside: 0.85, outside: 0.5 });
  const lamp = {
    flux: 800,
    finish: "frosted" as const,
    diameter: 0.06,
    orientation: "base-up" as const,
    z: 0.07,
  };
  const { luminaire } = shadeLuminaire(shade, [lamp], {
    name: "dome",
    origin: "test",
    accuracy: { axial: 0.002, ratio: 0.001 },
  });

  it("lights the top 0.8 m below its rim as a photon trace does", () => {
    const radii = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1];
    const counted = photonRings(radii, 0.8, 3_000_000);
    let worst = 0;
    const rows: string[] = [];
    for (let k = 0; k < radii.length; k++) {
      const inner = k === 0 ? 0 : radii[k - 1];
      // Mean over the ring, by area.
      let mean = 0;
      const steps = 8;
      for (let s = 0; s < steps; s++) {
        const r = Math.sqrt(inner ** 2 + ((radii[k] ** 2 - inner ** 2) * (s + 0.5)) / steps);
        mean += horizontalIlluminance(luminaire, r, 0, -0.8) / steps;
      }
      worst = Math.max(worst, Math.abs(mean / counted[k].value - 1));
      rows.push(
        `${radii[k]}: ${mean.toFixed(2)} / ${counted[k].value.toFixed(2)} ± ${counted[k].error.toFixed(2)}`,
      );
    }
    console.log(`worst error: ${worst.toExponential(1)} (${rows.join("; ")})`);
    expect(worst).toBeLessThan(0.01);
  });

  it("joins its own far field at a distance", () => {
    let worst = 0;
    for (const gamma of [0, 20, 40, 55]) {
      const g = (gamma * Math.PI) / 180;
      const d = 30;
      const value = horizontalIlluminance(luminaire, d * Math.sin(g), 0, -d * Math.cos(g));
      const expected = (luminaire.distribution.intensity[gamma] * Math.cos(g)) / d ** 2;
      worst = Math.max(worst, Math.abs(value / expected - 1));
    }
    console.log(`worst error: ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(0.01);
  });

  /** Analog photons: mean illuminance of rings on a plane `drop` below the rim, with standard error. */
  function photonRings(
    radii: readonly number[],
    drop: number,
    photons: number,
  ): { value: number; error: number }[] {
    const assembly = assemble(shade, [lampSource(lamp)]);
    const random = createRandom(99);
    const counts = new Float64Array(radii.length);
    const hit: Hit = { frustum: -1, t: 0, fromInside: false };
    const bulb = 0.03 * (1 + 1e-6);
    for (let n = 0; n < photons; n++) {
      // Lambertian sphere: uniform place, cosine direction.
      const cz = 2 * random() - 1;
      const cs = Math.sqrt(1 - cz * cz);
      const cp = 2 * Math.PI * random();
      let normal = [cs * Math.cos(cp), cs * Math.sin(cp), cz];
      let p = [bulb * normal[0], bulb * normal[1], 0.07 + bulb * normal[2]];
      for (;;) {
        const d = cosine(normal, random);
        nearestHit(assembly.surface, p[0], p[1], p[2], d[0], d[1], d[2], 1e-7, Number.POSITIVE_INFINITY, hit);
        if (hit.frustum < 0) {
          if (d[2] < 0) {
            const t = (-drop - p[2]) / d[2];
            const r = Math.hypot(p[0] + t * d[0], p[1] + t * d[1]);
            const ring = radii.findIndex((limit) => r < limit);
            if (ring >= 0) counts[ring]++;
          }
          break;
        }
        const material = assembly.materials[hit.frustum];
        if (random() >= (hit.fromInside ? material.inside : material.outside)) break;
        p = [p[0] + hit.t * d[0], p[1] + hit.t * d[1], p[2] + hit.t * d[2]];
        const { r0, z0, r1, z1 } = assembly.surface;
        const i = hit.frustum;
        const slant = Math.hypot(r1[i] - r0[i], z1[i] - z0[i]);
        const radius = Math.hypot(p[0], p[1]);
        const sign = hit.fromInside ? -1 : 1;
        const nr = (sign * (z1[i] - z0[i])) / slant;
        normal = [(nr * p[0]) / radius, (nr * p[1]) / radius, (sign * (r0[i] - r1[i])) / slant];
      }
    }
    return radii.map((radius, k) => {
      const area = Math.PI * (radius ** 2 - (k === 0 ? 0 : radii[k - 1]) ** 2);
      return {
        value: ((counts[k] / photons) * lamp.flux) / area,
        error: ((Math.sqrt(counts[k]) / photons) * lamp.flux) / area,
      };
    });
  }

  function cosine(n: readonly number[], random: () => number): [number, number, number] {
    // A uniform point of the unit sphere added to the normal is cosine-distributed about it.
    const z = 2 * random() - 1;
    const s = Math.sqrt(1 - z * z);
    const a = 2 * Math.PI * random();
    const d: [number, number, number] = [n[0] + s * Math.cos(a), n[1] + s * Math.sin(a), n[2] + z];
    const l = Math.hypot(...d);
    return [d[0] / l, d[1] / l, d[2] / l];
  }
});
