/**
 * 2026-11: whether hands reach a zone was answered twice, by steps of 20 and of 25 mm: someone 0.732 m from the top had a shadow on it and
 * stood upright, because no zone was in reach.
 */
import { expect, it } from "vitest";
import { bodyShadows } from "../../src/advice/body-shadow.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

function cook(away: number) {
  const at = [ISLAND.centre[0], ISLAND.centre[1] - ISLAND.width / 2 - away];
  const [scene] = resolved(kitchen({ people: [{ name: "cook", at, facing: 90 }] })).scenes;
  return {
    posture: scene.people[0].posture,
    shadows: bodyShadows(scene, { withoutStandIns: true, usualAlone: true }).length,
  };
}

it("says of nobody that a zone is in reach for the shadow and out of it for the posture", () => {
  expect(cook(0.5)).toEqual({ posture: "leaning", shadows: 1 });
  expect(cook(0.732)).toEqual({ posture: "standing", shadows: 0 });
});
