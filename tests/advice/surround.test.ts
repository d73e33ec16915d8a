/**
 * Surround of a task: EN 12464-1 (from memory: task ≥ 750 → 500, 500 → 300, 300 → 200, 200 → 150, up to 150 the same),
 * and the fall of light towards the ends of a profile.
 */
import { describe, expect, it } from "vitest";
import { surround, surroundIlluminance } from "../../src/advice/surround.ts";
import { assess } from "../../src/assessment/assess.ts";
import { endShares } from "../../src/assessment/gradient.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import type { CalculationResult } from "../../src/engine/result.ts";
import type { Zone } from "../../src/scene/scene.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

describe("surround", () => {
  it("steps as the standard does", () => {
    expect([1000, 750, 500, 300, 200, 150, 100].map(surroundIlluminance)).toEqual([
      500, 500, 300, 200, 150, 150, 100,
    ]);
  });

  it("means the walls and the ceiling, and names zones too dim beside a task", () => {
    const study = resolved(
      kitchen({
        island: {
          ...ISLAND,
          zones: [
            { name: "prep", from: [0, 0], size: [0.6, 1.1], target: "preparation" },
            { name: "rest", from: [0.7, 0], size: [0.6, 1.1] },
          ],
        },
        arrangements: [
          {
            name: "one",
            layers: [
              { name: "pendants", luminaire: "dome", row: { count: 1, clearance: 0.85, offset: [-0.9, 0] } },
            ],
          },
        ],
      }),
    );
    const [scene] = study.scenes;
    const result = new LightEngine().calculate(scene, { quality: "quick" });
    const found = surround(scene, result, assess(study, scene, result, null));
    // Only light from the floor and the top reaches a ceiling above pendants that shine downward.
    expect(found.walls).toBeGreaterThan(0);
    expect(found.ceiling).toBeGreaterThan(0);
    expect(found.dim).toHaveLength(1);
    expect(found.dim[0]).toMatchObject({ zone: "rest", beside: "prep", asked: 200 });
  });

  it("asks it of what lies within half a metre of the task, however it lies there", () => {
    const square = (x: number, y: number): Zone["outline"] => [
      [x, y],
      [x + 0.5, y],
      [x + 0.5, y + 0.5],
      [x, y + 0.5],
    ];
    const places: Readonly<Record<string, Zone["outline"]>> = {
      prep: square(0, 0),
      near: square(0.99, 0.2),
      far: square(0, 1.01),
      // 0.36 m each way is 0.51 m across the corner.
      corner: square(0.86, 0.86),
      "within the corner": square(0.84, 0.84),
    };
    const zones = Object.entries(places).map(([name, outline]) => ({ name, outline, height: 0.9 }));
    const judged = zones.map(({ name }) => ({
      name,
      statistics: { average: 250 },
      checks: name === "prep" ? [{ quantity: "illuminance", target: 500 }] : [],
    })) as unknown as Parameters<typeof surround>[2]["zones"];
    const scene = { zones, surfaces: [], layers: [] } as unknown as Parameters<typeof surround>[0];
    const { dim } = surround(scene, { planes: [] } as unknown as CalculationResult, { zones: judged });
    expect(dim.map(({ zone }) => zone)).toEqual(["near", "within the corner"]);
    expect(dim[0]).toEqual({ zone: "near", beside: "prep", asked: 300, found: 250 });
  });
});

describe("ends of a profile", () => {
  it("are the first and last over the mean of the middle third", () => {
    const profile = (values: number[]) => ({
      distance: Float64Array.from(values.keys()),
      values: Float64Array.from(values),
    });
    expect(endShares(profile([100, 1, 200, 300, 9, 50]))).toEqual([0.4, 0.2]);
    expect(endShares(profile([1, 2]))).toBeUndefined();
    expect(endShares(profile([1, 0, 1]))).toBeUndefined();
  });
});
