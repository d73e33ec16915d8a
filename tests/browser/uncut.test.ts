/** Every view and panel on every screen: no control cut, covered, too small or reached by scrolling sideways alone, no words over words. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { boxFaults } from "../support/page-boxes.ts";
import { type OpenPage, openPage, refined, startAfresh } from "../support/viewer.ts";
import { viewsOf } from "../support/viewer-views.ts";

interface Study {
  [key: string]: unknown;
  room: object;
  island: object;
  arrangements: { name: string; settings?: { name: string }[]; layers: { name: string }[] }[];
}

let viewer: OpenPage;
let page: Page;
beforeAll(async () => {
  viewer = await openPage({ isDirect: true, hasTouch: true, isMobile: true });
  ({ page } = viewer);
});
afterAll(() => viewer.close());

/** An L under a sloped ceiling, in feet and inches, everything of a long name. */
function awkward(example: Study): Study {
  const zone = (name: string, from: number[], size: number[], target: string) => ({
    name,
    from,
    size,
    target,
  });
  const zones = [
    zone("Preparing vegetables beside the sink", [0, 0], [1.05, 1.9], "prep, even"),
    zone("Eating breakfast and lunch with the children", [1.05, 0], [1.2, 0.9], "eating"),
    zone("Homework, drawing and washing up afterwards", [2.25, 0], [0.85, 0.9], "washing"),
  ];
  const outline = [
    [0, 0],
    [3.1, 0],
    [3.1, 0.9],
    [1.05, 0.9],
    [1.05, 1.9],
    [0, 1.9],
  ];
  const { arrangements } = structuredClone(example);
  const names = ["four domes over the longer leg of the top", "the same, hung higher by one foot", "globes"];
  arrangements.forEach((each, i) => {
    each.name = names[i];
    each.settings = ["cooking", "dinner"].map((name) => ({ name }));
  });
  return {
    ...example,
    title: "Kitchen of the Featherstonehaugh household, second floor, facing the courtyard",
    display: { length: "ft-in", illuminance: "fc" },
    room: {
      ...example.room,
      length: 7.2,
      width: 6.1,
      ceilingHeight: "8'-10 1/2\"",
      ceiling: { slope: 18, towards: 90 },
    },
    island: {
      ...example.island,
      length: 3.1,
      width: 1.9,
      centre: [3.4, 2.6],
      overhang: undefined,
      outline,
      zones,
    },
    arrangements,
  };
}

const KITCHENS = { example: (study: Study) => study, awkward };

for (const [width, height] of [
  [390, 844],
  [844, 390],
  [640, 400],
  [1024, 768],
  [1440, 900],
])
  for (const [kitchen, made] of Object.entries(KITCHENS))
    it(`shows every view of the ${kitchen} kitchen whole at ${width} × ${height}`, async () => {
      await page.setViewportSize({ width, height });
      await startAfresh(page, made(viewer.example as Study));
      await refined(page);
      const found: Record<string, string[]> = {};
      for (const [view, come] of Object.entries(viewsOf(page))) {
        await come();
        if (process.env.SCREENS !== undefined)
          await page.screenshot({ path: `${process.env.SCREENS}/${width}-${kitchen}-${view}.png` });
        const first = await boxFaults(page);
        // A page that is drawn anew while it is read is neither what it was nor what it becomes.
        const again = first.length === 0 ? [] : await boxFaults(page);
        const both = first.filter((each) => again.includes(each));
        if (both.length > 0) found[view] = both;
      }
      expect(found).toEqual({});
      expect(viewer.troubles).toEqual([]);
    });
