/**
 * Fifteen shades, every finish and every form, against photons counted on the exact surface
 * (`support/shade-photons.ts`): mean illuminance below within 1 %, 5 cm rings and intensity within 3 %, beyond four
 * standard errors of the count.
 */

import { describe, expect, it } from "vitest";
import type { DirectSource } from "../../src/engine/direct/direct-source.ts";
import { DirectSources } from "../../src/engine/direct/direct-sources.ts";
import { Receiver } from "../../src/engine/direct/receiver.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { buildShadeLuminaire } from "../../src/luminaire/shade/build.ts";
import type { ShadeDocument } from "../../src/luminaire/shade/shade-document.ts";
import { SHADE_FORMS, type ShadeFormName } from "../../src/luminaire/shade/shade-forms.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { SHADES } from "../support/shade-cases.ts";
import { traceShadePhotons } from "../support/shade-photons.ts";

const DROPS = [0.3, 0.5, 0.8];
const RING = 0.05;
const RINGS = 16;
const ZONE = 5;
const PHOTONS = 300_000;

describe("a lamp in its shade lights what is below as photons do", () => {
  for (const [name, given] of Object.entries(SHADES))
    it(name, () => {
      const built = buildShadeLuminaire(name, given.lamp, given.shade as ShadeDocument);
      if (!built.ok) throw new Error(built.issues[0].message);
      const { luminaire, traced, lightOutputRatio, band } = built.value;
      const counted = traceShadePhotons(given, PHOTONS, 7, DROPS, RING, RINGS, ZONE);
      const centre = traced?.light.assembly.centre ?? 0;
      const source = new DirectSources().of(luminaire, 0.0025);
      let mean: Worst = { excess: 0, words: "" };
      let ring: Worst = { excess: 0, words: "" };
      DROPS.forEach((drop, p) => {
        const E = Array.from({ length: RINGS }, (_, i) => ringMean(source, i, -drop - centre));
        const area = (i: number) => 2 * i + 1;
        const total = (values: ArrayLike<number>) =>
          Array.from({ length: 12 }, (_, i) => values[i] * area(i)).reduce((a, b) => a + b, 0);
        const scatter = Math.hypot(
          ...Array.from({ length: 12 }, (_, i) => counted.ringErrors[p][i] * area(i)),
        );
        mean = worse(mean, total(E), total(counted.rings[p]), scatter, 0, `${drop} m`);
        const least = 0.02 * Math.max(...counted.rings[p]);
        E.forEach((value, i) => {
          ring = worse(
            ring,
            value,
            counted.rings[p][i],
            counted.ringErrors[p][i],
            least,
            `${drop} m, ring ${i}`,
          );
        });
      });
      let zone: Worst = { excess: 0, words: "" };
      const brightest = Math.max(...counted.zones);
      counted.zones.forEach((value, i) => {
        const own = zoneMean(luminaire, i);
        zone = worse(zone, own, value, counted.zoneErrors[i], 0.02 * brightest, `${ZONE * i}°`);
      });
      const axial = worse(
        { excess: 0, words: "" },
        zoneMean(luminaire, 0),
        counted.zones[0],
        counted.zoneErrors[0],
        0,
        "0°",
      );
      const ratio = lightOutputRatio / counted.lightOutputRatio - 1;
      console.log(
        `worst error, ${name}: mean ${mean.words}, ring ${ring.words}, intensity ${zone.words}, light output ratio ${percent(ratio)}`,
      );
      expectAccuracy("shade, mean", mean.excess, `${name}: ${mean.words}`);
      expectAccuracy("shade, ring", ring.excess, `${name}: ${ring.words}`);
      expectAccuracy("shade, intensity", zone.excess, `${name}: ${zone.words}`);
      expect(axial.excess).toBeLessThan(band.axial);
      // 0.5 % was asked of the trace; the count's own 95 % band.
      const scatter = 1.96 * Math.sqrt((1 - counted.lightOutputRatio) / counted.lightOutputRatio / PHOTONS);
      expect(Math.abs(ratio)).toBeLessThan(0.005 + scatter);
    });
});

it("traces every form a second time", () => {
  const traced = new Set(Object.values(SHADES).map(({ shade }) => shade.profile));
  expect(Object.keys(SHADE_FORMS).filter((form) => !traced.has(form as ShadeFormName))).toEqual([]);
});

interface Worst {
  readonly excess: number;
  readonly words: string;
}

const percent = (share: number) => `${(100 * share).toFixed(2)} %`;

/** The worse of two; an error counts beyond four standard errors (of some 1,500 values none is expected there), against the larger of the value and `least`. */
function worse(so: Worst, own: number, truth: number, error: number, least: number, where: string): Worst {
  const scale = Math.max(truth, least);
  const excess = (Math.abs(own - truth) - 4 * error) / scale;
  if (excess <= so.excess && so.words !== "") return so;
  return {
    excess,
    words: `${percent((own - truth) / scale)} (± ${percent(error / scale)}) at ${where}`,
  };
}

/** Mean horizontal illuminance of a ring, `z` relative to the photometric centre. */
function ringMean(source: DirectSource, ring: number, z: number): number {
  const receiver = new Receiver("planar", [0, 0, 1], Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1));
  const steps = 16;
  let sum = 0;
  for (let s = 0; s < steps; s++) {
    const rr = ring ** 2 + ((2 * ring + 1) * (s + 0.5)) / steps;
    sum += source.illuminance(RING * Math.sqrt(rr), 0, z, receiver, 0);
  }
  return sum / steps;
}

function zoneMean(luminaire: Luminaire, zone: number): number {
  const { intensity } = luminaire.distribution;
  let sum = 0;
  let weight = 0;
  const steps = 50;
  for (let s = 0; s < steps; s++) {
    const gamma = ZONE * (zone + (s + 0.5) / steps);
    const i = Math.min(179, Math.floor(gamma));
    const w = Math.sin((gamma * Math.PI) / 180);
    sum += w * (intensity[i] + (gamma - i) * (intensity[i + 1] - intensity[i]));
    weight += w;
  }
  return sum / weight;
}
