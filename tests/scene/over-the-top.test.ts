/** Whether something hangs over the top, and how high, has one answer: over the notch of an L-shaped island there is no top,
 * by outline, not by bounding box, on the set-out sheet, in the reading of the light, in the row of pendants and in clearances. */
import { expect, it } from "vitest";
import { pendantRow } from "../../src/advice/pendant-row.ts";
import { setOut } from "../../src/app/set-out/set-out.ts";
import { levelAt } from "../../src/design/verify/site-views.ts";
import { islandAxes, placeOnTop } from "../../src/drawing/island-axes.ts";
import { clearanceOf } from "../../src/scene/arrangement.ts";
import { islandToRoom } from "../../src/scene/island-frame.ts";
import type { Island } from "../../src/scene/scene.ts";
import { formatLength } from "../../src/units/length-text.ts";
import { ISLAND, resolved, withRow } from "../support/studies.ts";

const L = [
  [0, 0],
  [2.4, 0],
  [2.4, 0.4],
  [1.2, 0.4],
  [1.2, 1.1],
  [0, 1.1],
];

it("hangs over an L-shaped top or over its notch, asked anywhere", () => {
  const row = { count: 4, spacing: 0.5, clearance: 0.85 };
  const island = { centre: ISLAND.centre, height: 0.92, outline: L, turn: 30 };
  const [scene] = resolved(withRow(row, { island })).scenes;
  const pendants = scene.layers[0].luminaires;
  const { boxes, centreline } = setOut(scene, "mm", (m) => formatLength(m, "mm"));
  const axes = islandAxes(scene);
  // Stations 0.45, 0.95 | 1.45, 1.95 at half the width: two over the top, two over the notch, by hand.
  const isOver = [true, true, false, false];
  expect(boxes.slice(0, 4).map(({ heights }) => heights?.overTop)).toEqual(isOver);
  expect(boxes[3].heights?.top).toBe(0);
  expect(boxes[3].heights?.gap).toBeCloseTo(0.92 + 0.85, 9);
  expect(centreline).toMatch(/ISLAND centreline/);
  expect(pendants.map((placed) => clearanceOf(placed, scene.island) !== undefined)).toEqual(isOver);
  expect(pendants.map(({ frame }) => placeOnTop(axes, frame.origin) !== undefined)).toEqual(isOver);
  expect(pendants.map(({ frame: { origin: o } }) => levelAt(scene, [o[0], o[1]]) > 0)).toEqual(isOver);
  expect(pendantRow(scene)?.count).toBe(2);
  // The very edge belongs to the top.
  const edge = islandToRoom(scene.island as Island, [1.2, 0.8]);
  expect(levelAt(scene, edge)).toBe(0.92);
});
