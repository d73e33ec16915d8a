/** Every view and panel on every screen: no control cut, covered, too small or reached by scrolling sideways alone, no words over words. */
import type { JSHandle, Page } from "playwright-core";
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

const SIZES = [
  { width: 390, height: 844 },
  { width: 844, height: 390 },
  { width: 640, height: 400 },
  { width: 1024, height: 768 },
  { width: 1440, height: 900 },
];

/** In the page, one for all sizes: a picture of its room stays a picture of it. */
const studies = new Map<string, JSHandle>();

async function open(kitchen: keyof typeof KITCHENS): Promise<void> {
  const study =
    studies.get(kitchen) ??
    (await page.evaluateHandle((given) => given, KITCHENS[kitchen](viewer.example as Study)));
  studies.set(kitchen, study);
  await startAfresh(page, study);
  await refined(page);
}

async function faultsOf(picture: string): Promise<string[]> {
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/${picture}.png` });
  const first = await boxFaults(page);
  // A page that is drawn anew while it is read is neither what it was nor what it becomes.
  const again = first.length === 0 ? [] : await boxFaults(page);
  return first.filter((each) => again.includes(each));
}

for (const kitchen of Object.keys(KITCHENS) as (keyof typeof KITCHENS)[]) {
  // Its light takes as long as all other views together, and is the same at every size.
  it(`shows the room of the ${kitchen} kitchen whole at every size`, async () => {
    await page.setViewportSize(SIZES[0]);
    await open(kitchen);
    const { Room: come, "Room's further controls": unfold } = viewsOf(page);
    await come();
    const found: Record<string, string[]> = {};
    for (const size of SIZES) {
      await page.setViewportSize(size);
      await page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
      );
      for (const view of ["Room", "Room's further controls"]) {
        if (view !== "Room") await unfold();
        const faults = await faultsOf(`${size.width}-${kitchen}-${view}`);
        if (faults.length > 0) found[`${view} at ${size.width} × ${size.height}`] = faults;
      }
      await page.keyboard.press("Escape");
    }
    await page.getByRole("button", { name: "Drawings", exact: true }).click();
    expect(found).toEqual({});
    expect(viewer.troubles).toEqual([]);
  });

  for (const size of SIZES)
    it(`shows every other view of the ${kitchen} kitchen whole at ${size.width} × ${size.height}`, async () => {
      await page.setViewportSize(size);
      await open(kitchen);
      const { Room: _room, "Room's further controls": _controls, ...views } = viewsOf(page);
      const found: Record<string, string[]> = {};
      for (const [view, come] of Object.entries(views)) {
        await come();
        const faults = await faultsOf(`${size.width}-${kitchen}-${view}`);
        if (faults.length > 0) found[view] = faults;
      }
      expect(found).toEqual({});
      expect(viewer.troubles).toEqual([]);
    });
}
