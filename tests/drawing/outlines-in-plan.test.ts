/** A luminaire has one outline in plan, on every drawing and among the clashes: a bar its rectangle, an oblong opening its ellipse. */
import { describe, expect, it } from "vitest";
import { setOut } from "../../src/app/set-out/set-out.ts";
import type { Mark } from "../../src/drawing/drawing.ts";
import { floorPlan } from "../../src/drawing/floor-plan.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { setOutPlan } from "../../src/drawing/set-out-plan.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { area } from "../../src/geometry/polygon.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { planOutline } from "../../src/scene/luminaire-pieces.ts";
import { wording } from "../../src/words/wording.ts";
import { kitchen, resolved } from "../support/studies.ts";

const words = wording();
const BAR = {
  beam: { flux: 2400, angle: 100 },
  opening: { length: 1.1, width: 0.09 },
  body: { profile: "box", length: 1.2, width: 0.1, height: 0.06 },
};
const OVAL = { beam: { flux: 800, angle: 90 }, opening: { shape: "disc", length: 1.2, width: 0.1 } };
const DOME = {
  beam: { flux: 800, angle: 90 },
  opening: { shape: "disc", length: 0.38, width: 0.38 },
  body: { profile: "dome", diameter: 0.4, height: 0.2 },
};
/** Area of the polygon of 48 corners on an ellipse of half axes a, b: 24 sin(2π/48) · a b. */
const of48 = (a: number, b: number): number => 24 * Math.sin(Math.PI / 24) * a * b;

const sceneOf = (luminaire: object, turn: number) =>
  resolved(
    kitchen({
      luminaires: { one: luminaire },
      arrangements: [
        { name: "a", layers: [{ name: "row", luminaire: "one", row: { count: 1, clearance: 0.85, turn } }] },
      ],
    }),
  ).scenes[0];

/** The one closed line that depicts it (page). */
const drawn = (marks: readonly (Mark | { readonly kind: string })[], depicts: string): readonly Vec2[] => {
  const lines = marks.flatMap((mark) =>
    mark.kind === "line" && "depicts" in mark && mark.depicts === depicts && "points" in mark
      ? [mark.points as readonly Vec2[]]
      : [],
  );
  expect(lines).toHaveLength(1);
  return lines[0];
};

describe.each([
  ["a bar", BAR, 4, 1.2 * 0.1],
  ["an oblong opening", OVAL, 48, of48(0.6, 0.05)],
  ["a dome", DOME, 48, of48(0.2, 0.2)],
] as const)("%s", (_, luminaire, corners, squareMetres) => {
  it.each([0, 17.3, 90])("turned by %d degrees", (turn) => {
    const scene = sceneOf(luminaire, turn);
    const [placed] = scene.layers[0].luminaires;
    const outline = planOutline(placed);
    expect(outline).toHaveLength(corners);
    expect(area([outline])).toBeCloseTo(squareMetres, 12);

    const axes = islandAxes(scene);
    const scale = sheetScale(axes, 1100);
    const parts = { zones: false, people: false, dimensions: true };
    const frame = planFrame(scene, scale, parts);
    const island = planObjects(scene, scale, words, parts, frame).luminaires.flatMap(({ marks }) => marks);
    const room = floorPlan(scene, 1400, words);
    const pages: (readonly [string, readonly Vec2[], number, (p: Vec2) => Vec2])[] = [
      ["room", drawn(room.luminaires, "pendant"), room.perMetre, room.at],
    ];
    const found = setOut(scene, "mm", (m) => `${m}`);
    const paper = setOutPlan(scene, found, 50, { ...words, dimension: (m) => `${m}` });
    // A paper draws a circle by its radius.
    if (luminaire !== DOME)
      pages.push([
        "set-out",
        drawn(paper.marks, "pendant body"),
        paper.perMetre,
        ([x, y]) => [x * paper.perMetre, -y * paper.perMetre],
      ]);
    for (const [what, points, perMetre, at] of pages) {
      expect(points, what).toHaveLength(corners);
      // Every corner of the one is a corner of the other.
      for (const [x, y] of outline.map(at)) {
        const nearest = Math.min(...points.map((p) => Math.hypot(p[0] - x, p[1] - y)));
        expect(nearest, what).toBeLessThan(1e-9 * perMetre);
      }
    }
    const onTop = drawn(island, "pendant");
    expect(onTop).toHaveLength(corners);
    expect(Math.abs(area([onTop])) / scale.perMetre ** 2).toBeCloseTo(squareMetres, 9);
  });
});
