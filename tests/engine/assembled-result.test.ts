/** What a calculation states of its own error. */
import { expect, it } from "vitest";
import { assembledResult } from "../../src/engine/assembled-result.ts";
import { QUALITY } from "../../src/engine/quality.ts";
import { DEFAULT_OPTIONS } from "../../src/scene/calculation-options.ts";
import type { Scene } from "../../src/scene/scene.ts";

const quality = QUALITY.full;
const scene = { layers: [{ name: "a" }] } as unknown as Scene;
const field = { layers: [{ layer: "a", direct: Float64Array.of(1), interreflected: new Float64Array(1) }] };

/** Answer of two planes, of which dividing patches twice as finely moves so much. */
function stated(differences: readonly number[], imbalance: number) {
  const light = {
    patches: {
      count: 1,
      surface: new Uint32Array(1),
      centre: new Float64Array(3),
      area: Float64Array.of(1),
    },
    illuminance: [Float64Array.of(2)],
    exitance: [Float64Array.of(1)],
    residual: 1e-4,
    balance: { imbalance },
    planes: differences.map((divisionDifference, k) => ({
      divisionDifference,
      interpolationError: 0.001 * (k + 1),
      layers: [Float64Array.of(5 + k)],
    })),
  } as unknown as NonNullable<Parameters<typeof assembledResult>[2]>;
  const fields = differences.map(() => field) as unknown as Parameters<typeof assembledResult>[1];
  const chosen = { ...DEFAULT_OPTIONS, quality: "full" as const };
  return assembledResult(scene, fields, light, chosen, quality, 0.0025, { tooMany: false, tooNear: 0 });
}

it("is the least there is and half of what halving the patches moves, plane by plane, and the worst of all", () => {
  const { planes, method } = stated([0.02, 0.006], 0);
  const least = quality.leastInterreflectionBound;
  expect(planes.map(({ interreflectionBound }) => interreflectionBound)).toEqual(
    [least + 0.01, least + 0.003].map((bound) => expect.closeTo(bound, 12)),
  );
  expect(method.interreflectionBound).toBeCloseTo(least + 0.01, 12);
  expect(method.interpolationError).toBe(0.002);
  expect(planes.map(({ layers }) => layers[0].interreflected[0])).toEqual([5, 6]);
});

it("says what light is not accounted for beyond that, lost or found", () => {
  const bound = quality.leastInterreflectionBound + 0.01;
  expect(stated([0.02], 0.9 * bound).method.unaccounted).toBeUndefined();
  for (const sign of [1, -1])
    expect(stated([0.02], sign * 1.1 * bound).method.unaccounted).toBeCloseTo(1.1 * bound, 12);
});
