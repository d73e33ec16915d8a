/** The registry of luminous openings: every stated shape finds its surface, degenerate or not; shaders number them alike;
 * each surface's operations say the same of it. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ElementRules, NO_HORIZON } from "../../../src/luminaire/opening/element-rules.ts";
import { OPENING_KINDS, openingShape } from "../../../src/luminaire/opening/openings.ts";
import type { OpeningShape } from "../../../src/photometry/luminous-opening.ts";
import { opening } from "../../support/luminaires.ts";

it.each([
  ["point", [0.3, 0.2, 0.1], "point", 2],
  ["rectangle", [0.3, 0.2, 0.1], "flat rectangle", 2],
  ["rectangle", [0.3, 0, 0], "flat rectangle", 2],
  ["disc", [0.3, 0.2, 0], "flat disc", 2],
  ["disc", [0, 0.2, 0], "flat rectangle", 2],
  ["upright disc", [0, 0.2, 0.3], "flat disc", 0],
  ["upright disc", [0, 0.2, 0], "point", 2],
  ["box", [0.3, 0.2, 0.1], "box", 2],
  ["box", [0.3, 0.2, 0], "flat rectangle", 2],
  ["box", [0, 0, 0.4], "flat rectangle", 2],
  ["ellipsoid", [0.3, 0.2, 0.1], "ellipsoid", 2],
  ["ellipsoid", [0.3, 0.2, 0], "flat disc", 2],
  ["cylinder", [0.2, 0.2, 0.5], "cylinder", 2],
  ["cylinder", [0.2, 0.2, 0], "flat disc", 2],
  ["cylinder along length", [0.9, 0.05, 0.05], "cylinder", 0],
  ["cylinder along width", [0.05, 0.9, 0.05], "cylinder", 1],
  ["cylinder along width", [0.05, 0.9, 0], "flat rectangle", 2],
  ["cylinder", [Number.NaN, 0.2, 0.5], "point", 2],
] as const)("%s of %j is a %s", (shape, [length, width, height], kind, axis) => {
  const surface = openingShape(opening(shape as OpeningShape, length, width, height));
  expect(surface.kind).toBe(kind);
  expect(surface.axis).toBe(axis);
});

it("is numbered in the shaders as in the registry", () => {
  const text = readFileSync(new URL("../../../shaders/light/opening.glsl", import.meta.url), "utf8");
  for (const { kind, shader } of OPENING_KINDS) {
    const name = kind.replace("flat ", "").toUpperCase();
    expect(text).toContain(`const int ${name} = ${shader};`);
  }
});

it.each([
  ["rectangle", 0.6, 0.1, 0],
  ["disc", 0.3, 0.3, 0],
  ["upright disc", 0, 0.3, 0.2],
  ["box", 0.4, 0.3, 0.2],
  ["ellipsoid", 0.4, 0.3, 0.2],
  ["cylinder", 0.2, 0.2, 0.5],
  ["cylinder along length", 0.5, 0.2, 0.2],
  ["cylinder along width", 0.2, 0.5, 0.2],
] as const)("%s: elements and samples lie within its extent, and its elements add up to A_p", (...of) => {
  const [shape, length, width, height] = of;
  const surface = openingShape(opening(shape as OpeningShape, length, width, height));
  const [px, py, pz] = [280, 200, -360];
  const level = 12;
  const most = surface.maximumElements(level);
  const at = new Float64Array(3 * most);
  const weights = new Float64Array(most);
  const rules = new ElementRules();
  rules.begin(NO_HORIZON, at, weights);
  surface.elements(rules, px, py, pz, level);
  const within = (x: number, y: number, z: number): boolean =>
    Math.hypot(x, y, z) <= surface.radius * (1 + 1e-12) &&
    [x, y, z].every((p, k) => Math.abs(p) <= surface.half[k] * (1 + 1e-12));
  const distance = Math.hypot(px, py, pz);
  let sum = 0;
  let outside = 0;
  for (let i = 0; i < rules.count; i++) {
    const [x, y, z] = at.subarray(3 * i, 3 * i + 3);
    if (!within(x, y, z)) outside++;
    const area = surface.projectedArea(px - x, py - y, pz - z);
    sum += surface.flat ? weights[i] : weights[i] / area;
  }
  // One from afar; the change of direction over the surface is a few radii in the distance.
  console.log(
    `${shape}: Σ n·v dA / A_p = ${sum.toFixed(6)} at ${(distance / surface.radius).toFixed(1)} radii`,
  );
  expect(Math.abs(sum - 1)).toBeLessThan(surface.flat ? 1e-12 : (3 * surface.radius) / distance);
  const n = 400;
  const one = new Float64Array(3);
  let mean = 0;
  for (let k = 0; k < n; k++) {
    mean += surface.sample(px, py, pz, (k + 0.5) / n, (k * 0.6180339887498949) % 1, one, 0) / n;
    if (!within(one[0], one[1], one[2])) outside++;
  }
  expect(mean).toBeGreaterThan(0);
  expect(outside).toBe(0);
});
