/** The cross-section: where base and overhang stand, and which pendant each eye is held against. */
import { expect, it } from "vitest";
import { section, sectionScale } from "../../src/drawing/section.ts";
import { frame } from "../../src/geometry/frame.ts";
import type { Polygon } from "../../src/geometry/polygon.ts";
import { verticalExtent } from "../../src/luminaire/vertical-extent.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticScene } from "../support/synthetic-island.ts";

function lines(scene: Scene, depicts: string) {
  const scale = sectionScale(scene, 900);
  const found = section(scene, scale, wording()).marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === depicts ? [mark.points] : [],
  );
  return { scale, found };
}

it("sets the base back under the side that hangs over", () => {
  const plain = syntheticScene();
  if (plain.island === undefined) throw new Error("no island");
  // A top 1.1 m deep; a side without overhang is flush with its base, as the light is calculated and as paper draws it.
  for (const [side, from, to] of [
    ["y-", 0.3, 1.1],
    ["y+", 0, 0.8],
    ["x+", 0, 1.1],
  ] as const) {
    const scene = { ...plain, island: { ...plain.island, overhang: { side, depth: 0.3 } } };
    const { scale, found } = lines(scene, "island base");
    expect(found).toHaveLength(1);
    const acrosses = found[0].map(([x]) => x);
    expect(Math.min(...acrosses), side).toBeCloseTo(scale.x(from), 6);
    expect(Math.max(...acrosses), side).toBeCloseTo(scale.x(to), 6);
  }
});

// 2026-11-29: the section took the bounding box of an island that is no rectangle, where paper cuts it.
it("is cut at the first pendant as deep as the island is there", () => {
  const plain = syntheticScene();
  if (plain.island === undefined) throw new Error("no island");
  const { length, width } = plain.island;
  const outline: Polygon = [
    [0, 0],
    [length, 0],
    [length, width],
    [length - 0.2, width],
    [length - 0.2, 0.8],
    [0, 0.8],
  ];
  const scene = { ...plain, island: { ...plain.island, outline, overhang: undefined } };
  for (const [depicts, to] of [
    ["island top", 0.8],
    ["island base", 0.8],
    // What stands beyond.
    ["island side", 1.1],
  ] as const) {
    const { scale, found } = lines(scene, depicts);
    expect(found, depicts).toHaveLength(1);
    const acrosses = found[0].map(([x]) => x);
    expect(Math.min(...acrosses), depicts).toBeCloseTo(scale.x(0), 6);
    expect(Math.max(...acrosses), depicts).toBeCloseTo(scale.x(to), 6);
  }
});

it("looks from each eye to the nearest pendant, not to another one", () => {
  const plain = syntheticScene();
  const [pendants, ...rest] = plain.layers;
  // Each hung lower than the one before, so that the drawing tells them apart.
  const luminaires = pendants.luminaires.map(({ luminaire, frame: { origin } }, i) => ({
    luminaire,
    frame: frame([origin[0], origin[1], origin[2] - 0.1 * i]),
  }));
  const [, guest] = plain.people;
  const scene = { ...plain, people: [guest], layers: [{ ...pendants, luminaires }, ...rest] };
  const { scale, found } = lines(scene, "line of sight");
  expect(found).toHaveLength(1);
  // The guest's eye is 0.3 m along from the third, 0.5 m from the second.
  const { luminaire, frame: nearest } = luminaires[2];
  expect(found[0][0]).toEqual([expect.closeTo(scale.x(-0.15), 0), expect.anything()]);
  expect(found[0][1][1]).toBeCloseTo(scale.y(nearest.origin[2] + verticalExtent(luminaire)[0]), 6);
});

// 2026-11-28: the section drew every canopy 4 units high, the elevation as high as it is.
it.each([
  ["as large as is stated", { diameter: 0.12, height: 0.06 }, 0.12, 0.06],
  ["the usual one where nothing is stated", undefined, 0.1, 0.025],
  ["of the usual height where only the width is stated", { diameter: 0.14 }, 0.14, 0.025],
])("draws a canopy %s", (_, canopy, width, height) => {
  const plain = syntheticScene();
  const layers = plain.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => ({ ...placed, luminaire: { ...placed.luminaire, canopy } })),
  }));
  const scene = { ...plain, layers } as Scene;
  const scale = sectionScale(scene, 900);
  const all = section(scene, scale, wording()).luminaires.flatMap(({ marks }) =>
    marks.flatMap((mark) => (mark.kind === "line" && mark.depicts === "canopy" ? [mark.points] : [])),
  );
  expect(all.length).toBeGreaterThan(0);
  for (const [[x0, y0], , [x1, y1]] of all) {
    expect((x1 - x0) / scale.perMetre).toBeCloseTo(width, 9);
    expect((y1 - y0) / scale.perMetre).toBeCloseTo(height, 9);
  }
});
