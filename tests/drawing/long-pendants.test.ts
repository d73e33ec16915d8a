/** The screen draws canopy and cords of a long luminaire where the set-out puts its box and its points. */
import { expect, it } from "vitest";
import type { LuminaireMarks } from "../../src/drawing/drawing.ts";
import { elevation } from "../../src/drawing/elevation.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { section, sectionScale } from "../../src/drawing/section.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { boxesInPlace } from "../../src/scene/box-places.ts";
import { wording } from "../../src/words/wording.ts";
import { kitchen, resolved } from "../support/studies.ts";

const bars = (more: object, row: object = {}) =>
  resolved(
    kitchen({
      luminaires: {
        bar: {
          beam: { flux: 2400, angle: 100 },
          opening: { length: 1.1, width: 0.04 },
          body: { profile: "box", length: 1.16, width: 0.05, height: 0.06 },
          ...more,
        },
      },
      arrangements: [
        {
          name: "a",
          layers: [{ name: "bars", luminaire: "bar", row: { count: 2, clearance: 0.85, ...row } }],
        },
      ],
    }),
  ).scenes[0];

const middles = (luminaires: readonly LuminaireMarks[], depicts: string, axis: 0 | 1 = 0): number[] =>
  luminaires.flatMap(({ marks }) =>
    marks.flatMap((mark) => {
      if (mark.kind !== "line" || mark.depicts !== depicts) return [];
      const places = mark.points.map((point) => point[axis]);
      return [(Math.min(...places) + Math.max(...places)) / 2];
    }),
  );

// 2026-11-28: each long bar's canopy was drawn at its middle, 464 mm beside the box that the paper sets out.
it.each([
  ["nothing is stated", {}, [-0.464, 0.464], -0.464],
  // 2026-11-28: with the long side along its file's other axis, point 1 was on the right.
  [
    "nothing is stated and the file lays it crosswise",
    {
      opening: { length: 0.04, width: 1.1 },
      body: { profile: "box", length: 0.05, width: 1.16, height: 0.06 },
    },
    [-0.464, 0.464],
    -0.464,
  ],
  ["it is fed at its middle", { feed: [0, 0] }, [-0.464, 0, 0.464], 0],
  [
    "points and feed are stated",
    {
      suspensions: [
        [-0.3, 0],
        [0.5, 0],
      ],
      feed: [0.5, 0],
    },
    [-0.3, 0.5],
    0.5,
  ],
] as const)("where %s", (_, more, cords, feed) => {
  const scene = bars(more);
  const axes = islandAxes(scene);
  const scale = sheetScale(axes, 1100);
  const origins = scene.layers[0].luminaires.map(
    ({ frame }) => axes.toIsland([frame.origin[0], frame.origin[1]])[0],
  );
  const { luminaires } = elevation(scene, scale, wording());
  const places = (offsets: readonly number[]) =>
    origins.flatMap((along) => offsets.map((off) => scale.x(along + off))).sort((a, b) => a - b);
  const rising = (all: readonly number[]) =>
    [...new Set(all.map((x) => Math.round(x * 1e6) / 1e6))].sort((a, b) => a - b);
  expect(rising(middles(luminaires, "canopy"))).toEqual(places([feed]).map((x) => expect.closeTo(x, 5)));
  expect(rising(middles(luminaires, "cord"))).toEqual(places(cords).map((x) => expect.closeTo(x, 5)));
  // The other route: the box as the paper sets it out.
  const boxes = boxesInPlace(scene).map(({ at }) => scale.x(axes.toIsland(at)[0]));
  expect(rising(middles(luminaires, "canopy"))).toEqual(boxes.map((x) => expect.closeTo(x, 5)));
  const parts = { zones: false, people: false, dimensions: true };
  const plan = planObjects(scene, scale, wording(), parts, planFrame(scene, scale, parts));
  expect(rising(middles(plan.luminaires, "canopy"))).toEqual(boxes.map((x) => expect.closeTo(x, 5)));
  expect(middles(plan.luminaires, "suspension point")).toHaveLength(2 * (cords.length - 1));
});

it("turned across the island, in the section too", () => {
  const scene = bars({}, { turn: 90 });
  const axes = islandAxes(scene);
  const scale = sectionScale(scene, 900);
  const { luminaires } = section(scene, scale, wording());
  const [box] = boxesInPlace(scene);
  const at = scale.x(axes.toIsland(box.at)[1]);
  const [canopy] = middles(luminaires, "canopy");
  expect(canopy).toBeCloseTo(at, 6);
  expect(Math.abs(at - scale.x(axes.width / 2))).toBeCloseTo(0.464 * scale.perMetre, 6);
});

it("leaves a round pendant its canopy over its middle, and the plan without a mark for it", () => {
  const [scene] = resolved(kitchen()).scenes;
  const axes = islandAxes(scene);
  const scale = sheetScale(axes, 1100);
  const parts = { zones: false, people: false, dimensions: true };
  const plan = planObjects(scene, scale, wording(), parts, planFrame(scene, scale, parts));
  expect(middles(plan.luminaires, "canopy")).toEqual([]);
  expect(middles(elevation(scene, scale, wording()).luminaires, "canopy")).toHaveLength(3);
});
