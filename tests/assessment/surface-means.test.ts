/** The light of a part of the room, by hand. */
import { expect, it } from "vitest";
import { surfaceMean } from "../../src/assessment/surface-means.ts";
import type { CalculationResult } from "../../src/engine/result.ts";
import type { Scene } from "../../src/scene/scene.ts";

it("weighs patches by their area and layers by dimmer and maintenance", () => {
  const scene = {
    maintenance: 0.8,
    layers: [{ dim: 0.5 }, { dim: 1 }],
    surfaces: [{ part: "wall 0" }, { part: "ceiling" }, { part: "wall 1" }],
  } as unknown as Scene;
  const light = (illuminance: number[], exitance: number[]) => ({
    illuminance: Float64Array.from(illuminance),
    exitance: Float64Array.from(exitance),
  });
  const patches = {
    surface: Uint32Array.of(0, 0, 1, 2),
    area: Float64Array.of(1, 3, 5, 4),
    layers: [light([100, 200, 7, 50], [10, 20, 7, 5]), light([40, 80, 7, 20], [4, 8, 7, 2])],
  } as unknown as NonNullable<CalculationResult["patches"]>;
  const isWall = (part: string): boolean => part.startsWith("wall");
  // (100 + 600 + 200) lm of the first layer, (40 + 240 + 80) lm of the second, over 8 m².
  const mean = (0.8 * (0.5 * 900 + 360)) / 8;
  expect(surfaceMean(scene, { patches }, "illuminance", isWall)).toBeCloseTo(mean, 9);
  expect(surfaceMean(scene, { patches }, "exitance", isWall)).toBeCloseTo(mean / 10, 9);
  expect(surfaceMean(scene, { patches }, "illuminance", (part) => part === "floor")).toBeUndefined();
  expect(surfaceMean(scene, {}, "illuminance", isWall)).toBeUndefined();
});
