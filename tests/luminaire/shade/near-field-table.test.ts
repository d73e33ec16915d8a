/** The near field as a table gives what the sampler gives, also scaled and re-lamped. */
import { describe, expect, it } from "vitest";
import { DirectSources } from "../../../src/engine/direct/direct-sources.ts";
import type { SurfaceEmission } from "../../../src/luminaire/emission.ts";
import { scaledLuminaire } from "../../../src/luminaire/scaled.ts";
import type { LightTable } from "../../../src/luminaire/shade/light-table.ts";
import { MAXIMUM_ELEMENTS, NearFieldLattice } from "../../../src/luminaire/shade/near-field-lattice.ts";
import { shadeLuminaire } from "../../../src/luminaire/shade/shade-luminaire.ts";
import { relamped } from "../../../src/luminaire/with-lamp-flux.ts";
import { randomStream } from "../../support/random-stream.ts";
import { plainShade } from "../../support/shades.ts";

/** Illuminance (lx) on a plane through the local point facing along n, summed over the elements. */
function bySampler(
  near: NearFieldLattice,
  emission: SurfaceEmission,
  p: readonly number[],
  n: readonly number[],
): number {
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

/** The same from the tables alone, as their description says. */
function byTables(tables: readonly LightTable[], [x, y, z]: readonly number[], n: readonly number[]): number {
  const r = Math.hypot(x, y);
  let sum = 0;
  for (const t of tables) {
    const fall = t.centre - z;
    const d = Math.hypot(r, fall);
    const a = ((t.rows - 1) * t.nearest) / d;
    const b = (Math.atan2(r, fall) / Math.PI) * (t.angles - 1);
    const [i, j] = [Math.min(t.rows - 2, Math.floor(a)), Math.min(t.angles - 2, Math.floor(b))];
    const value = (k: number): number => {
      const node = (di: number, dj: number) => t.values[((i + di) * t.angles + j + dj) * 4 * t.groups + k];
      const [s, u] = [a - i, b - j];
      return (1 - u) * ((1 - s) * node(0, 0) + s * node(1, 0)) + u * ((1 - s) * node(0, 1) + s * node(1, 1));
    };
    for (let g = 0; g < t.groups; g++)
      for (const side of [1, -1]) {
        const [vx, vy, vz] = [value(4 * g), side * value(4 * g + 1), value(4 * g + 2)];
        const turned = [(vx * x - vy * y) / r, (vx * y + vy * x) / r, vz];
        const facing = turned.reduce((dotted, v, k) => dotted + v * n[k], 0);
        sum += Math.max(0, facing) / (d * d);
      }
  }
  return sum;
}

const { luminaire: dome } = shadeLuminaire(
  plainShade("dome", 0.3, 0.18, 0.06, { inside: 0.85, outside: 0.5 }),
  [{ flux: 800, finish: "frosted", diameter: 0.06, orientation: "base-up", z: 0.1, capDiameter: 0.027 }],
  { name: "dome", origin: "test", accuracy: { axial: 0.03, ratio: 0.01 } },
);

const { luminaire: mirrorlike } = shadeLuminaire(
  plainShade("dome", 0.3, 0.18, 0.06, { inside: 0.7, outside: 0.5, specular: 0.5 }),
  [{ flux: 800, finish: "clear", diameter: 0.06, orientation: "base-up", z: 0.1 }],
  { name: "dome", origin: "test", accuracy: { axial: 0.03, ratio: 0.01 } },
);

describe("the tables of a traced shade's near field", () => {
  /** Whose lattice is one for all sizes and lamps of a shade. */
  const sources = new DirectSources();
  for (const [what, luminaire] of [
    ["as it is", dome],
    ["half as large again", scaledLuminaire(dome, 1.5)],
    ["with a lamp of twice the flux", relamped(dome, 2)],
    ["with a mirror-like inside", mirrorlike],
  ] as const)
    it(what, () => {
      const { emission } = luminaire;
      if (emission.kind !== "surfaces") throw new Error("not a shade");
      const tables = sources.lattice(emission).tables(emission);
      const sampler = new NearFieldLattice(emission.light);
      for (const { values, rows, angles, groups } of tables)
        expect(values.length).toBe(rows * angles * groups * 4);
      // Small enough to be handed to workers and shaders: what the trace leaves, and all together.
      expect((emission.light.mirrored?.values.byteLength ?? 0) / 2 ** 20).toBeLessThan(1);
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
        const E = bySampler(sampler, emission, p, unit);
        most = Math.max(most, E * d * d);
        worst = Math.max(worst, Math.abs(byTables(tables, p, unit) - E) * d * d);
      }
      console.log(`worst error of the tables, ${what}: ${(worst / most).toExponential(1)} of the most`);
      // Single precision.
      expect(worst / most).toBeLessThan(1e-6);
    });
});
