/** What hangs is one question, whatever its layer is for. */
import { describe, expect, it } from "vitest";
import { visualWeight } from "../../src/advice/appearance/visual-weight.ts";
import { pendantRow } from "../../src/advice/pendant-row.ts";
import { elevation } from "../../src/drawing/elevation.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { pendantRows } from "../../src/drawing/plan-chains.ts";
import { section, sectionScale } from "../../src/drawing/section.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { rectangleBetween } from "../../src/geometry/polygon.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { overhangs } from "../../src/scene/top-overhang.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticScene } from "../support/synthetic-island.ts";

// 2026-11-29: boxes and heads took what states its suspension for a pendant, drawings and warnings only what is in a layer of pendants.
describe("what says what it hangs on, in a layer that is not of pendants", () => {
  const pendants = syntheticScene();
  const [first, ...rest] = pendants.layers;
  const others: Scene = { ...pendants, layers: [{ ...first, role: "other" }, ...rest] };
  const words = wording();

  it.each<[string, (scene: Scene) => unknown]>([
    ["the row", pendantRow],
    ["what it takes of the view", (scene) => visualWeight(scene)],
    ["the places along the top", (scene) => pendantRows(scene, islandAxes(scene))],
    ["the section", (scene) => section(scene, sectionScale(scene, 900), words)],
    ["the elevation", (scene) => elevation(scene, sheetScale(islandAxes(scene), 900), words)],
    [
      "what reaches beyond the top",
      (scene) => {
        const { toIsland, length } = islandAxes(scene);
        const [, across] = toIsland(scene.layers[0].luminaires[0].frame.origin);
        const outline = rectangleBetween(0, across - 0.1, length, across + 0.1);
        const found = overhangs({ ...scene, island: { ...scene.island, outline } } as Scene);
        expect(found.length).toBeGreaterThan(0);
        return found;
      },
    ],
  ])("is a pendant for %s", (_, asked) => {
    expect(asked(others)).toEqual(asked(pendants));
  });
});
