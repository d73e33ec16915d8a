/** Factors to the quarters of a patch: what a point gathers from all of it, shared out, over as many normals as it has. */
import { expect, it } from "vitest";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { nearQuarters } from "../../../src/engine/interreflection/near-quarters.ts";
import { patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { surfaceOf } from "../../support/rooms.ts";

it("add up to the factor of the patch, the mean over the normals of the point", () => {
  const floor = surfaceOf(
    "floor",
    [
      [0, 0, 0],
      [1, 0, 0],
      [1, 1, 0],
      [0, 1, 0],
    ],
    0.4,
  );
  const gather = new Gather(patchesOf([floor], 1), []);
  const others = new Array(gather.patches.count - 1).fill(0);
  const gathered = (normals: readonly number[], factors: readonly number[]) => {
    const { row, weight } = nearQuarters("", [0], {
      gather,
      points: Float64Array.of(9, 9, 9, 0.3, 0.4, 1),
      nodes: Uint32Array.of(1),
      normals: Float64Array.from(normals),
      rows: Float64Array.from(factors.flatMap((factor) => [factor, ...others])),
    });
    return weight.reduce((total, share, k) => total + share * factors[row[Math.floor(k / 4)]], 0);
  };
  // A plane has one normal, a cylinder many: it takes the mean of what each of them gathers.
  expect(gathered([0, 0, -1], [0.6])).toBeCloseTo(0.6, 12);
  expect(gathered([0, 0, -1, 0.6, 0, -0.8], [0.6, 0.2])).toBeCloseTo(0.4, 12);
});
