/** What older eyes would be asked for: twice the figure of the middle band (from memory), once. */
import { expect, it } from "vitest";
import { oldestEyes } from "../../src/advice/age.ts";
import type { Target } from "../../src/scene/target.ts";
import { tinyScene } from "../support/tiny-scene.ts";

const target = (value: number): Target => ({
  id: "x",
  name: "x",
  requirements: [{ quantity: "illuminance", statistic: "average", value, nature: "maintained" }],
  source: "made up for the test",
  known: "read",
});
const zone = (name: string, average: number) => ({
  name,
  plane: name,
  statistics: { average, minimum: 0, maximum: 0, uniformity: 0, diversity: 0, variation: 0, points: 1 },
  checks: [],
  verdict: "meets" as const,
});

it("doubles a target of the middle band, and not one that is for older eyes already", () => {
  const person = {
    name: "aunt",
    stature: 1.6,
    at: [0, 0],
    facing: 0,
    posture: "standing",
    eye: [0, 0, 1.5],
    age: 70,
  };
  const scene = tinyScene({ people: [person as never] });
  const zones = [zone("prep", 590), zone("cooking", 590), zone("eating", 590)];
  const ids = new Map([
    ["prep", "preparation"],
    ["cooking", "preparation-over-65"],
    ["eating", undefined],
  ]);
  const remark = oldestEyes(scene, { zones }, (id) => target(id.endsWith("over-65") ? 600 : 300), ids);
  expect(remark).toMatchObject({ person: "aunt", age: 70, band: { factor: 2 } });
  expect(remark?.zones).toEqual([{ zone: "prep", asked: 600, found: 590, reached: false }]);
});
