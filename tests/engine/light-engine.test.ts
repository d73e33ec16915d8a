/** What the engine remembers never shows: the same bits from a fresh engine and a warm one, whatever was asked
 * before; superposition of layers; progress, cancelling; `quick` and `full` within the bounds they state. */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../src/diagnostics/cancelled.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import type { CalculationResult } from "../../src/engine/result.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { calculate } from "../support/calculate.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const withCook: Json = {
  people: [{ name: "cook", stature: 1.72, at: [2.7, 1.3], facing: 90, posture: "leaning" }],
  bodies: [
    {
      name: "hood",
      box: [
        [0.5, 0, 1.6],
        [1.2, 0.5, 2.3],
      ],
      reflectance: 0.5,
    },
  ],
};

function sceneWith(more: Json = {}, gap = 0.5): Scene {
  const study = kitchen({ ...withCook, ...more });
  (study.arrangements as { layers: { row?: Json }[] }[])[0].layers[0].row = {
    count: 3,
    clearance: 0.85,
    gap,
  };
  return resolved(study).scenes[0];
}

function same(a: CalculationResult, b: CalculationResult): void {
  expect(a).toEqual(b);
}

describe("an engine that remembers", () => {
  const base = sceneWith();

  it("gives the bits of a fresh one after a pendant moved, a wall was painted and people came", () => {
    const engine = new LightEngine();
    const moved = sceneWith({}, 0.55);
    const painted = sceneWith({
      room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, reflectance: { ceiling: 0.6 } },
    });
    engine.calculate(base, { quality: "quick" });
    same(engine.calculate(moved, { quality: "quick" }), calculate(moved, { quality: "quick" }));
    same(engine.calculate(painted, { quality: "quick" }), calculate(painted, { quality: "quick" }));
    const people = engine.calculate(base, { quality: "quick", people: true });
    same(people, calculate(base, { quality: "quick", people: true }));
    same(engine.calculate(base, { quality: "quick" }), calculate(base, { quality: "quick" }));
    expect(people.planes[0].layers[1].direct).not.toEqual(
      calculate(base, { quality: "quick" }).planes[0].layers[1].direct,
    );
  });

  it("gives a division its own light in either quality", () => {
    const engine = new LightEngine();
    const coarse = { patches: 160, nearFieldError: 0.05 };
    for (const quality of ["quick", "full", "quick"] as const)
      same(engine.calculate(base, { ...coarse, quality }), calculate(base, { ...coarse, quality }));
  });

  it("says the same of a plane whatever others are calculated with it", () => {
    const [top] = base.planes;
    const raised = {
      ...top,
      name: "raised",
      points: top.points.map((value, k) => (k % 3 === 2 ? value + 0.3 : value)),
    };
    const both = { ...base, planes: [top, raised] };
    const alone = both.planes.map((plane) => calculate({ ...base, planes: [plane] }, { quality: "quick" }));
    const bounds = alone.map(({ planes }) => planes[0].interreflectionBound);
    console.log(`bounds on interreflected light by plane: ${bounds.join(", ")}`);
    expect(new Set(bounds).size).toBeGreaterThan(1);
    const together = calculate(both, { quality: "quick" });
    expect(together.planes).toEqual(alone.map(({ planes }) => planes[0]));
    expect(together.method.interreflectionBound).toBe(Math.max(...bounds.map(Number)));
  });

  it("says so where light is unaccounted for", () => {
    expect(calculate(base, { quality: "quick" }).method.unaccounted).toBeUndefined();
    // A luminaire inside the island: nothing of its light arrives anywhere.
    const layers = [{ name: "l", luminaire: "spot", at: [{ position: [2.7, 2.1, 0.5] }] }];
    const trapped = resolved(kitchen({ arrangements: [{ name: "a", layers }] })).scenes[0];
    const { method, balance } = calculate(trapped, { quality: "quick" });
    expect(balance?.imbalance).toBeLessThan(-0.9);
    expect(method.unaccounted).toBe(-(balance?.imbalance ?? 0));
  });

  it("hands out copies: what a caller does to a result stays with the caller", () => {
    const engine = new LightEngine();
    const first = engine.calculate(base, { quality: "quick" });
    const kept = first.planes[0].layers[0].interreflected.slice();
    first.planes[0].layers[0].interreflected.fill(0);
    first.planes[0].layers[0].direct.fill(0);
    first.patches!.layers[0].exitance.fill(0);
    expect(engine.calculate(base, { quality: "quick" }).planes[0].layers[0].interreflected).toEqual(kept);
  });

  it("keeps layers apart: each alone adds up to both together", () => {
    const both = calculate(base, { quality: "quick" });
    let worst = 0;
    for (const l of [0, 1]) {
      // The other layer's bodies stay in the room; only its light goes out.
      const dark: Scene = {
        ...base,
        layers: base.layers.map((layer, k) =>
          k === l
            ? layer
            : {
                ...layer,
                luminaires: layer.luminaires.map(({ luminaire, frame }) => ({
                  frame,
                  luminaire: {
                    ...luminaire,
                    flux: 0,
                    distribution: {
                      ...luminaire.distribution,
                      intensity: luminaire.distribution.intensity.map(() => 0),
                    },
                  },
                })),
              },
        ),
      };
      const alone = calculate(dark, { quality: "quick" });
      both.planes.forEach(({ layers }, p) => {
        layers[l].interreflected.forEach((E, i) => {
          worst = Math.max(worst, Math.abs(alone.planes[p].layers[l].interreflected[i] / E - 1));
        });
      });
    }
    console.log(`superposition: worst error ${worst.toExponential(1)} of a layer's interreflected light`);
    // The residual bound of the patch solution.
    expect(worst).toBeLessThan(1e-4);
  });

  it("states bounds for quick and full that hold against more patches and direct gathering", () => {
    const quick = calculate(base, { quality: "quick" });
    const full = calculate(base, { quality: "full" });
    let worst = 0;
    full.planes.forEach(({ layers }, p) => {
      const points = layers[0].interreflected.length;
      let mean = 0;
      let most = 0;
      for (let i = 0; i < points; i++) {
        let a = 0;
        let b = 0;
        layers.forEach(({ interreflected }, l) => {
          a += interreflected[i];
          b += quick.planes[p].layers[l].interreflected[i];
        });
        mean += a / points;
        most = Math.max(most, Math.abs(a - b));
      }
      worst = Math.max(worst, most / mean);
    });
    console.log(
      `quick against full: worst error ${(100 * worst).toFixed(2)} % of a plane's interreflected mean (${quick.method.patches} and ${full.method.patches} patches)`,
    );
    expect(worst).toBeLessThan(quick.method.interreflectionBound!);
    expect(full.method.interpolationError).toBeLessThan(full.method.interreflectionBound!);
    expect(Math.abs(full.balance!.imbalance)).toBeLessThan(3e-3);
  });

  it("tells its stages and stops when asked, leaving the engine sound", () => {
    const engine = new LightEngine();
    const stages = new Set<string>();
    let asked = 0;
    expect(() =>
      engine.calculate(
        base,
        { quality: "quick" },
        {
          progress: (stage, fraction) => {
            stages.add(stage);
            expect(fraction).toBeGreaterThanOrEqual(0);
            expect(fraction).toBeLessThanOrEqual(1);
          },
          cancelled: () => ++asked > 60,
        },
      ),
    ).toThrow(Cancelled);
    expect(stages.size).toBeGreaterThan(1);
    same(engine.calculate(base, { quality: "quick" }), calculate(base, { quality: "quick" }));
  });
});
