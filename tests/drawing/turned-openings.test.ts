/** A long luminaire is as wide on elevations as its outline is seen: of an ellipse a, b turned by t, 2 √((a cos t)² + (b sin t)²). */
import { expect, it } from "vitest";
import { setOut } from "../../src/app/set-out/set-out.ts";
import { boxMeets } from "../../src/design/search/ceiling-holds.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { widthInView } from "../../src/drawing/set-out-elevation-pendants.ts";
import { profileFrom } from "../../src/drawing/silhouette.ts";
import { kitchen, resolved, withRow } from "../support/studies.ts";

it.each([0, 30, 45, 90])("a bare elliptical opening turned by %d degrees", (turn) => {
  const dome = { beam: { flux: 800, angle: 90 }, opening: { shape: "disc", length: 1.2, width: 0.2 } };
  const [scene] = resolved(withRow({ count: 1, turn }, { luminaires: { dome } })).scenes;
  const axes = islandAxes(scene);
  const t = (turn * Math.PI) / 180;
  const along = 2 * Math.hypot(0.6 * Math.cos(t), 0.1 * Math.sin(t));
  const across = 2 * Math.hypot(0.6 * Math.sin(t), 0.1 * Math.cos(t));
  const [box] = setOut(scene, "mm", (m) => `${m}`).boxes;
  expect(widthInView({ axes, direction: "along" }, box)).toBeCloseTo(along, 9);
  expect(widthInView({ axes, direction: "across" }, box)).toBeCloseTo(across, 9);
  const xs = profileFrom(scene.layers[0].luminaires[0], axes.turn, (s, z) => [s, z]).map(([x]) => x);
  expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(along, 9);
});

it("lets a box touch a keep-out, in the search as among the clashes", () => {
  const [{ room }] = resolved(kitchen()).scenes;
  const outline = [
    [1, 1],
    [2, 1],
    [2, 2],
    [1, 2],
  ] as const;
  const kept = { ...room, keepOuts: [{ name: "duct", outline }] };
  // Half of a 4 in box is 50.8 mm; 0.5 mm is touching.
  expect(boxMeets(kept as never, [2.0505, 1.5])).toBeUndefined();
  expect(boxMeets(kept as never, [2.049, 1.5])).toBe("duct");
});
