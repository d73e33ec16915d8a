/**
 * 2026-11: which plane stands for the whole top was found in three ways. A level plane anywhere, such as the floor, was the
 * whole top to commands and papers and none to the screen; of two planes on the top the screen took the first and
 * commands the whole one.
 */
import { expect, it } from "vitest";
import { rankedPlane } from "../../src/app/ranking.ts";
import { IlluminanceProbe, judgedTop } from "../../src/elements/shared/illuminance-probe.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { topPlane } from "../../src/scene/top-plane.ts";
import { kitchen, resolved } from "../support/studies.ts";
import { syntheticAssessment } from "../support/synthetic-island.ts";

const ZONES = [
  { name: "left", from: [0, 0], size: [1.2, 1.1], target: "preparation" },
  { name: "right", from: [1.2, 0], size: [1.2, 1.1], target: "preparation" },
];
const FLOOR = { name: "floor", rectangle: { corner: [0.5, 0.5, 0], u: [2, 0, 0], v: [0, 2, 0] } };
const STRIP = { name: "strip", rectangle: { corner: [1.6, 1.7, 0.92], u: [0.5, 0, 0], v: [0, 0.3, 0] } };

function sceneWith(planes: readonly unknown[]): Scene {
  const { island, ...rest } = kitchen({ planes });
  return resolved({ ...rest, island: { ...(island as object), zones: ZONES } }).scenes[0];
}

it.each([
  ["a floor alone", [FLOOR], "island top"],
  ["a floor before the whole top", [FLOOR, { name: "whole", on: "island" }], "whole"],
  ["a strip before the whole top", [STRIP, { name: "whole", on: "island" }], "whole"],
  ["no planes of its own", undefined, "island top"],
])("%s has one whole top for commands, papers and screen", (_, planes, name) => {
  const scene = sceneWith(planes as readonly unknown[]);
  const assessment = syntheticAssessment(scene);
  const plane = scene.planes[topPlane(scene)];
  expect(plane?.zone === undefined ? plane?.name : undefined).toBe(name);
  expect(new IlluminanceProbe(scene, assessment).top?.plane.name).toBe(name);
  // Without any, figures are of the first zone, as in `check`.
  expect(judgedTop(scene, assessment)?.name).toBe(name ?? "left");
  expect(scene.planes[rankedPlane(scene, assessment)].name).toBe(name ?? "left");
});
