/** Tags on the plan of the top. */
import { expect, it } from "vitest";
import { tagMarks } from "../../src/drawing/clash-marks.ts";
import { textBox } from "../../src/drawing/drawing.ts";
import { islandAxes, placeOf } from "../../src/drawing/island-axes.ts";
import { planFrame } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { kitchen, resolved } from "../support/studies.ts";

const parts = { zones: true, people: true, dimensions: true };

// 2026-11-29: of a luminaire 128 mm across P1 stood on its rim.
it.each([0.04, 0.08, 0.1, 0.128, 0.15, 0.18, 0.2, 0.25, 0.4])(
  "stand around a rim of %f m or within it, not across it",
  (diameter) => {
    const dome = {
      beam: { flux: 800, angle: 90 },
      opening: { diameter: 0.9 * diameter },
      body: { profile: "cylinder", diameter, height: 0.2 },
    };
    const [scene] = resolved(
      kitchen({ luminaires: { dome, spot: { beam: { flux: 650, angle: 36 }, watts: 7 } } }),
    ).scenes;
    const scale = sheetScale(islandAxes(scene), 900, { largest: 280 });
    const frame = planFrame(scene, scale, parts);
    const tags = tagMarks(scene, new Set(["P1", "P2", "P3"]), scale, frame);
    expect(tags).toHaveLength(3);
    const axes = islandAxes(scene);
    const pendants = scene.layers.flatMap(({ role, luminaires }) => (role === "pendant" ? luminaires : []));
    const rim = (diameter / 2) * scale.perMetre;
    tags.forEach((mark, i) => {
      const { along, across } = placeOf(axes, pendants[i].frame.origin);
      const { x, y, width, height } = textBox(mark as Parameters<typeof textBox>[0]);
      const far = (from: number, size: number, at: number): [number, number] => {
        const [low, high] = [from - at, from + size - at];
        const near = low > 0 ? low : high < 0 ? -high : 0;
        return [near, Math.max(Math.abs(low), Math.abs(high))];
      };
      const [dx, dy] = [far(x, width, scale.x(along)), far(y, height, frame.y(across))];
      const [near, farthest] = [Math.hypot(dx[0], dy[0]), Math.hypot(dx[1], dy[1])];
      expect(near >= rim || farthest <= rim, `${near} to ${farthest} of ${rim}`).toBe(true);
    });
  },
);

it("join in one word where two would lie over one another, and stand apart where they would not", () => {
  const told = (between: number): number => {
    const [scene] = resolved(
      kitchen({
        arrangements: [
          {
            name: "two",
            layers: [
              { name: "pendants", luminaire: "dome", row: { count: 2, spacing: between, clearance: 0.8 } },
            ],
          },
        ],
      }),
    ).scenes;
    const scale = sheetScale(islandAxes(scene), 900, { largest: 280 });
    return tagMarks(scene, new Set(["P1", "P2"]), scale, planFrame(scene, scale, parts)).length;
  };
  const [scene] = resolved(kitchen({})).scenes;
  const { perMetre } = sheetScale(islandAxes(scene), 900, { largest: 280 });
  // A tag is some 22 units wide.
  expect(told(18 / perMetre)).toBe(1);
  expect(told(26 / perMetre)).toBe(2);
});
