/** The illuminance below which a contribution's error is judged by the plane: a thousandth of its highest, never more. */
import { expect, it } from "vitest";
import { addDirectLight, contributionFloor } from "../../../src/engine/direct/direct-light.ts";
import { beam, lit, luminaire, opening, placed } from "../../support/luminaires.ts";
import { rectanglePlane } from "../../support/tiny-scene.ts";

it.each([
  ["a point source", 60, opening("point", 0)],
  ["a narrow beam from a wide opening", 15, opening("disc", 0.4)],
])("is a thousandth of the highest, under %s", (_, angle, of) => {
  const source = lit(placed(luminaire(beam(angle), of), [1.1, 0.6, 1]), 1e-3);
  const plane = rectanglePlane("top", [0, 0, 0], [2.4, 1.1], 48, 22);
  const light = new Float64Array(plane.weights.length);
  addDirectLight(source, plane, 0, light);
  const highest = Math.max(...light);
  const share = contributionFloor(plane, [source]) / highest;
  console.log(`floor ${share.toExponential(2)} of the plane's highest illuminance`);
  expect(share).toBeLessThanOrEqual(1e-3 * (1 + 1e-9));
  // Every fourth point is looked at: the highest lies at most two cells off.
  expect(share).toBeGreaterThan(5e-4);
});
