/** Names of zones end where the drawing ends: 2026-11-29, on a phone a long one ran out of the plan. */
import { expect, it } from "vitest";
import { type TextMark, textBox } from "../../src/drawing/drawing.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { wording } from "../../src/words/wording.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

const NAMES = ["Preparing vegetables beside the sink", "Homework, drawing and washing up afterwards", "tray"];

it("shortens a long name to its zone and leaves a short one whole", () => {
  const zones = NAMES.map((name, i) => ({ name, from: [0.8 * i, 0], size: [0.8, 1.1] }));
  const [scene] = resolved(kitchen({ island: { ...ISLAND, zones } })).scenes;
  const parts = { zones: true, people: true, dimensions: true };
  for (const width of [288, 358, 491, 1000]) {
    const scale = sheetScale(islandAxes(scene), width, { largest: 280 });
    const frame = planFrame(scene, scale, parts);
    const { over, around } = planObjects(scene, scale, wording(), parts, frame);
    const names = [...over, ...around].filter(
      (mark): mark is TextMark => mark.kind === "text" && mark.depicts === "zone name",
    );
    expect(names).toHaveLength(3);
    for (const [i, name] of names.entries()) {
      const box = textBox(name);
      expect(box.x, `${width} px: ${name.text}`).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width, `${width} px: ${name.text}`).toBeLessThanOrEqual(width);
      expect(NAMES[i].startsWith(name.text.replace(/…$/, ""))).toBe(true);
    }
    expect(names[2].text).toBe("tray");
  }
});
