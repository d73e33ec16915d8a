/** The near field as a table gives what the sampler gives, also scaled and re-lamped. */
import { describe, expect, it } from "vitest";
import type { Luminaire } from "../../../src/luminaire/luminaire.ts";
import type { NearFieldTable } from "../../../src/luminaire/near-field.ts";
import { scaledLuminaire } from "../../../src/luminaire/scaled.ts";
import { MAXIMUM_ELEMENTS, NearFieldLattice } from "../../../src/luminaire/shade/near-field-lattice.ts";
import { shadeLuminaire } from "../../../src/luminaire/shade/shade-luminaire.ts";
import { relamped } from "../../../src/luminaire/with-lamp-flux.ts";
import { randomStream } from "../../support/random-stream.ts";
import { plainShade } from "../../support/shades.ts";

/** Illuminance (lx) on a plane through the local point facing along n, summed over the elements. */
function bySampler(luminaire: Luminaire, p: readonly number[], n: readonly number[]): number {
  if (luminaire.emission.kind !== "surfaces") throw new Error("not a shade");
  const { emission } = luminaire;
  const near = new NearFieldLattice(emission.light, emission.farField);
  const at = new Float64Array(3 * MAXIMUM_ELEMENTS);
  const E = new Float64Array(MAXIMUM_ELEMENTS);
  const count = near.sample(emission, p[0], p[1], p[2], at, E);
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const d = [0, 1, 2].map((k) => at[3 * i + k] - p[k]);
    const cosine = d.reduce((dotted, x, k) => dotted + x * n[k], 0) / Math.hypot(...d);
    sum += E[i] * Math.max(0, cosine);
  }
  return sum;
}

/** The same from the table alone, as its description says. */
function byTable(t: NearFieldTable, [x, y, z]: readonly number[], n: readonly number[]): number {
  const r = Math.hypot(x, y);
  const d = Math.hypot(r, z);
  const a = Math.log(d / t.nearest) / t.logStep;
  const b = (Math.atan2(r, -z) / Math.PI) * (t.angles - 1);
  const [i, j] = [Math.min(t.distances - 2, Math.floor(a)), Math.min(t.angles - 2, Math.floor(b))];
  const value = (k: number): number => {
    const node = (di: number, dj: number) => t.values[((i + di) * t.angles + j + dj) * 4 * t.groups + k];
    const [s, u] = [a - i, b - j];
    return (1 - u) * ((1 - s) * node(0, 0) + s * node(1, 0)) + u * ((1 - s) * node(0, 1) + s * node(1, 1));
  };
  let sum = 0;
  for (let g = 0; g < t.groups; g++)
    for (const side of [1, -1]) {
      const [vx, vy, vz] = [value(4 * g), side * value(4 * g + 1), value(4 * g + 2)];
      const turned = [(vx * x - vy * y) / r, (vx * y + vy * x) / r, vz];
      sum +=
        Math.max(
          0,
          turned.reduce((dotted, v, k) => dotted + v * n[k], 0),
        ) /
        (d * d);
    }
  return sum;
}

const { luminaire: dome } = shadeLuminaire(
  plainShade("dome", 0.3, 0.18, 0.06, { inside: 0.85, outside: 0.5 }),
  [{ flux: 800, finish: "frosted", diameter: 0.06, orientation: "base-up", z: 0.1, capDiameter: 0.027 }],
  { name: "dome", origin: "test", accuracy: { axial: 0.03, ratio: 0.01 } },
);

describe("the table of a traced shade's near field", () => {
  for (const [what, luminaire] of [
    ["as it is", dome],
    ["half as large again", scaledLuminaire(dome, 1.5)],
    ["with a lamp of twice the flux", relamped(dome, 2)],
  ] as const)
    it(what, () => {
      const { emission } = luminaire;
      if (emission.kind !== "surfaces") throw new Error("not a shade");
      const table = new NearFieldLattice(emission.light, emission.farField).table(emission, 6);
      expect(table.values.length).toBe(table.distances * table.angles * table.groups * 4);
      expect(table.nearest * Math.exp(table.logStep * (table.distances - 1))).toBeGreaterThan(6);
      const random = randomStream(4);
      let worst = 0;
      let most = 0;
      for (let k = 0; k < 400; k++) {
        const d = 0.4 + 5.4 * random();
        const γ = Math.PI * random();
        const φ = 2 * Math.PI * random();
        const p = [d * Math.sin(γ) * Math.cos(φ), d * Math.sin(γ) * Math.sin(φ), -d * Math.cos(γ)];
        const n = [random() - 0.5, random() - 0.5, random() - 0.5];
        const size = Math.hypot(...n);
        const unit = n.map((x) => x / size);
        const E = bySampler(luminaire, p, unit);
        most = Math.max(most, E * d * d);
        worst = Math.max(worst, Math.abs(byTable(table, p, unit) - E) * d * d);
      }
      console.log(`worst error of the table, ${what}: ${(worst / most).toExponential(1)} of the most`);
      // Single precision.
      expect(worst / most).toBeLessThan(1e-6);
    });
});
