/**
 * 2026-11-27. The plan of a study without zones was empty: outline and pendants, but neither lines nor shading nor figures, because its one
 * zone was taken for another plane than the top's. And nothing was asked of it, so that every such study passed.
 */
import { expect, it } from "vitest";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { Engines } from "../../src/app/engines.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const quick = { calculation: { interreflection: false, occlusion: false } };
const plan = async (more: Json): Promise<string> => {
  const study = resolved(kitchen({ ...quick, ...more }));
  const light = await arrangementLight({ study, engines: new Engines() }, study.scenes[0], { judged: false });
  return isoluxSheet(study, [light]);
};
const lines = (svg: string): number => (svg.match(/<path /g) ?? []).length;

it("draws the lines of a top that is one zone", async () => {
  const island = { centre: [2.7, 2.1], length: 2.4, width: 1.1, height: 0.92 };
  const bare = await plan({ island });
  const zoned = await plan({
    island: { ...island, zones: [{ name: "whole", from: [0, 0], size: [2.4, 1.1], target: "preparation" }] },
  });
  expect(lines(bare)).toBeGreaterThan(20);
  expect(lines(bare)).toBe(lines(zoned));
});

it("asks of a top without zones what preparation asks, and lists it", () => {
  const study = resolved(kitchen());
  expect(study.scenes[0].zones).toMatchObject([{ name: "top", target: "preparation" }]);
  expect(study.defaults.find(({ path }) => path === "/island/zones")?.value).toMatchObject({
    target: "preparation",
  });
});

it("asks nothing where the study says so, and warns where it says nothing", () => {
  const zone = { name: "whole", from: [0, 0], size: [2.4, 1.1] };
  const of = (more: Json) =>
    resolved(kitchen({ island: { length: 2.4, width: 1.1, zones: [{ ...zone, ...more }] } }));
  expect(of({ target: null }).warnings).toEqual([]);
  expect(of({ target: null }).scenes[0].zones[0].target).toBeUndefined();
  expect(of({}).warnings.map(({ code, where }) => [code, where.path])).toEqual([
    ["zone-no-target", "/island/zones/0/target"],
  ]);
});

it("lets recessed luminaires follow a sloped ceiling, and lists it", () => {
  const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 22, towards: 90 } };
  const study = resolved(kitchen({ room }));
  const [pendants, ambient] = study.scenes[0].layers;
  expect(pendants.luminaires[0].frame.rotation[8]).toBeCloseTo(1, 12);
  expect(ambient.luminaires[0].frame.rotation[8]).toBeCloseTo(Math.cos((22 * Math.PI) / 180), 12);
  expect(study.defaults.map(({ path }) => path)).toContain("/arrangements/0/layers/1/grid/followSlope");
});
