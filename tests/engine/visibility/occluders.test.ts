/** Light that passes along a line where several solids stand, each of which lets a share of it through. */
import { expect, it } from "vitest";
import { Occluders } from "../../../src/engine/visibility/occluders.ts";
import type { Blocker } from "../../../src/scene/scene.ts";
import { boxMesh } from "../../support/solids.ts";

const blocker = (x: number, transmittance: number): Blocker => ({
  name: `at ${x}`,
  kind: "body",
  mesh: boxMesh([x, 0, 0], [x + 1, 1, 1]),
  transmittance,
});

it("is the product of what each passes, of those asked alone and each once", () => {
  const occluders = new Occluders([blocker(1, 0.5), blocker(3, 0.4), blocker(5, 0)]);
  const passed = (to: number, among: readonly number[]): number =>
    occluders.transmittance(0, 0.5, 0.5, to, 0.6, 0.4, among);
  expect(passed(4.5, [0, 1, 2])).toBeCloseTo(0.2, 12);
  expect(passed(4.5, [1, 0])).toBeCloseTo(0.2, 12);
  expect(passed(4.5, [1])).toBeCloseTo(0.4, 12);
  expect(passed(7, [0, 1])).toBeCloseTo(0.2, 12);
  expect(passed(7, [0, 1, 2])).toBe(0);
  expect(passed(0.9, [0, 1, 2])).toBe(1);
  // Two boxes of one solid along the line: its light is taken once.
  const mesh = boxMesh([1, 0, 0], [2, 1, 1]);
  const other = boxMesh([3, 0, 0], [4, 1, 1]);
  const count = mesh.positions.length / 3;
  const both = {
    positions: Float64Array.of(...mesh.positions, ...other.positions),
    triangles: Uint32Array.of(...mesh.triangles, ...[...other.triangles].map((i) => i + count)),
  };
  const one = new Occluders([{ ...blocker(1, 0.5), mesh: both }]);
  expect(one.transmittance(0, 0.5, 0.5, 7, 0.6, 0.4, [0])).toBe(0.5);
});
