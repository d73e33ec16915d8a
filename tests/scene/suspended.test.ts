/** What is fixed under a wall unit needs no cord: 2026-11-28, a strip there was drawn hanging from the ceiling in the island's elevation. */
import { expect, it } from "vitest";
import { isUnderBody } from "../../src/scene/suspended.ts";
import { placed } from "../support/luminaires.ts";
import { lambertian } from "../support/tiny-scene.ts";

const unit = {
  name: "wall unit",
  outline: [
    [0, 0],
    [2, 0],
    [2, 0.35],
    [0, 0.35],
  ],
  bottom: 1.45,
  top: 2.2,
} as const;

it("tells a strip under a wall unit from what hangs", () => {
  const under = (x: number, y: number, z: number) =>
    isUnderBody({ bodies: [unit] }, placed(lambertian("strip", 700, "A"), [x, y, z]));
  expect(under(1, 0.3, 1.44)).toBe(true);
  expect(under(1, 0.3, 1.3)).toBe(false);
  expect(under(1, 0.6, 1.44)).toBe(false);
  expect(under(1, 0.3, 2.3)).toBe(false);
});
