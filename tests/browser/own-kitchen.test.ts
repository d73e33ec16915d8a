/** One's own kitchen: started from the example, kept beside others, sized, filled and judged by one's own targets. */

import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import {
  enter,
  kept,
  type OpenPage,
  openPage,
  poll,
  refined,
  startAfresh,
  studyOf,
  verdictOf,
} from "../support/viewer.ts";

let viewer: OpenPage;
let page: Page;
let troubles: string[];
let example: unknown;

beforeAll(async () => {
  viewer = await openPage({ isDirect: true });
  ({ page, troubles, example } = viewer);
});
afterAll(() => viewer.close());
beforeEach(() => startAfresh(page, example));
afterEach(() => {
  expect(troubles.splice(0)).toEqual([]);
});

interface Study {
  title?: string;
  room: { length: number; width: number; ceilingHeight: number };
  bodies?: { name: string; box: number[][] }[];
  targets: Record<string, unknown>;
  island: {
    length: number;
    width: number;
    height?: number;
    zones: { name: string; size: number[]; target?: string }[];
  };
  arrangements: { layers: { luminaire: string }[] }[];
}
const study = () => studyOf<Study>(page);
const button = (name: string | RegExp) => page.getByRole("button", { name, exact: typeof name === "string" });
const undo = () => page.locator(".tools button").first();
const type = async (label: string, text: string): Promise<void> => {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press("Tab");
};

it("starts one's own kitchen from the example, lit by a typical pendant", async () => {
  await page.locator("header .example button").click();
  await type("Island length", "2.7 m");
  await type("Ceiling height", "25 ft high");
  await button("Light it").click();
  await poll(() => page.locator("dialog.start .problem").innerText()).toMatch(/Expected a length/);
  await type("Ceiling height", "2550");
  await type("Room, along the island", "4.5 m");
  await type("Room, across it", "3.6");
  await poll(() => page.locator("#start-roomWidth-why").innerText()).toBe("yours, read as 3.6 m");
  await type("Seats at the island", "3");
  await page.getByLabel("A hob in it").check();
  await button("Light it").click();
  await poll(async () => (await study()).room).toMatchObject({
    length: 4.5,
    width: 3.6,
    ceilingHeight: 2.55,
  });
  await refined(page);
  expect(await page.locator("header .example").count()).toBe(0);
  expect(await verdictOf(page)).toMatch(/Prep \d+ lx/);
  expect((await study()).island.zones.map(({ name }) => name)).toEqual(["prep", "cooking", "eating"]);
  // 2026-11-29: the first verdict was held against 500 lx nobody had asked for, and did not say so.
  await button(/usual targets? until you set yours/).click();
  await poll(() => page.evaluate(() => document.activeElement?.id)).toBe("field-island-zones-0-target");
});

it("keeps studies side by side: duplicated, named, removed and put back", async () => {
  const titles = () =>
    page
      .locator(".kept input")
      .evaluateAll((inputs) => inputs.map((each) => (each as HTMLInputElement).value));
  await page.locator("header .example button").click();
  await button("Light it").click();
  await poll(async () => (await study()).title).toBe("My kitchen");
  await kept(page);
  await button("Study").click();
  await poll(async () => (await titles())[0]).toBe("My kitchen");
  const before = (await titles()).length;
  expect(before).toBeGreaterThan(1);
  await button("Duplicate My kitchen").first().click();
  await poll(titles).toContain("My kitchen 2");
  await page.getByLabel("Title of My kitchen 2").fill("Aunt's kitchen");
  await page.getByLabel("Title of My kitchen 2").press("Enter");
  await poll(titles).toContain("Aunt's kitchen");
  await button(/^Remove Aunt's kitchen/).click();
  await poll(titles).not.toContain("Aunt's kitchen");
  await button("Undo the removal").click();
  await poll(titles).toContain("Aunt's kitchen");
  await button(/^Open Aunt's kitchen/).click();
  await poll(async () => (await study()).title).toBe("Aunt's kitchen");
  await page.keyboard.press("Control+z");
  await poll(async () => (await study()).title).toBe("My kitchen 2");
});

it("marks defaults and sets each by one click", async () => {
  await page.locator("header .example button").click();
  // 2026-11-29: width and ceiling height were typical like the height, and could not be set as it could.
  await poll(() => page.locator("#start-width-why").innerText()).toBe("typical. Set");
  // 2026-11-29: the next kitchen began with the sizes typed for the last one, as its owner's own.
  await poll(() => page.locator("#start-length-why").innerText()).toBe("typical. Set");
  const hints = await page.locator("dialog.start .field .hint").allInnerTexts();
  expect(hints).toHaveLength(10);
  for (const hint of hints) expect(hint).toMatch(/^yours|\. Set$/);
  await button("Set island width as it is").click();
  await poll(() => page.locator("#start-width-why").innerText()).toBe("yours");
  await button("Set pendants as it is").click();
  await poll(() => page.locator("#start-pendants-why").innerText()).toBe("yours");
  await button("Light it").click();
  await page.getByLabel("Height", { exact: true }).waitFor();
  await poll(() => page.getByLabel("Height", { exact: true }).inputValue()).toBe("914 mm");
  await button("Set height as it is").click();
  await poll(async () => (await study()).island.height).toBe(0.914);
  await poll(() => button("Set height as it is").count()).toBe(0);
  await poll(() => button("Set walls as it is").count()).toBe(1);
});

it("moves or removes what a smaller room leaves outside, or keeps the old size", async () => {
  await enter(page, "Kitchen");
  const offer = page.locator(".part .offer");
  await page.locator("#field-room-length").fill("4.5");
  await page.locator("#field-room-length").press("Tab");
  // No room is 4.5 mm long: the other reading is not offered.
  await page.getByText("Read as 4.5 m.", { exact: true }).waitFor();
  expect(await button(/^Make it/).count()).toBe(0);
  await poll(() => offer.innerText()).toMatch(/Outside the room: tall larder/);
  await offer.getByRole("button", { name: "Keep the old size" }).click();
  await poll(() => offer.count()).toBe(0);
  await page.locator("#field-room-width").fill("3.6 m");
  await page.locator("#field-room-width").press("Tab");
  await offer.getByRole("button", { name: "Move them in" }).click();
  await poll(async () => (await study()).bodies?.map(({ box }) => box[1][1])).toEqual([3.6, 3.6, 3.6]);
  await refined(page);
  await poll(() => page.locator(".problems li").count()).toBe(0);
  await page.locator("summary", { hasText: "tall larder" }).click();
  await button("Remove tall larder").click();
  await poll(async () => (await study()).bodies?.length).toBe(2);
  await button("Add hood").click();
  await poll(async () => (await study()).bodies?.[2].name).toBe("hood");
  await poll(() => page.locator("#body-2[open]").count()).toBe(1);
});

it("judges by targets of one's own and says which strip nobody judges", async () => {
  await enter(page, "Kitchen");
  const target = page.getByLabel("Target", { exact: true }).first();
  await poll(() => target.innerText()).toMatch(/preparation counters, ages 25 to 65: 500 lx · IES RP-11\n/);
  await target.selectOption("My own values…");
  await type("Average at least", "400");
  await type("Evenness at least", "0.6");
  await poll(async () => (await study()).targets["own, prep"]).toMatchObject({
    illuminance: 400,
    uniformity: 0.6,
  });
  await refined(page);
  await poll(() => verdictOf(page)).toMatch(/400 lx/);
  // 2026-11-29: a press on a zone in the verdict opened nothing.
  await enter(page, "Lights");
  await page.locator("candlespan-sheet").getByRole("button", { name: "Eating", exact: true }).click();
  await page.locator("#field-island-zones-1-name:focus").waitFor();
  await page.locator("#field-island-length").fill("2.7 m");
  await page.locator("#field-island-length").press("Tab");
  await poll(() => page.locator(".offer").first().innerText()).toMatch(
    /300 mm of the top near the right end/,
  );
  await button("Stretch the zones").first().click();
  await poll(async () => (await study()).island.zones.map(({ size }) => size[0])).toEqual([1.5, 2.7, 1.2]);
  await poll(() => undo().innerText()).toMatch(/stretch the zones/);
});

// 2026-11-29: Tab went from a typed field to its Set, which was gone the next moment, and what was typed on went nowhere; a field that was
// pressed or shown to the hand kept its old text beside the new: "500 lx400", "03".
it("takes what is typed field after field, whether reached by Tab, by hand or by itself", async () => {
  const focused = () => page.evaluate(() => document.activeElement?.id ?? "");
  await page.locator("header .example button").click();
  await poll(focused).toBe("start-length");
  for (const [text, next] of [
    ["2700", "start-width"],
    ["1100", "start-height"],
    ["900", "start-ceilingHeight"],
    ["2700", "start-roomLength"],
  ]) {
    await page.keyboard.type(text);
    await page.keyboard.press("Tab");
    expect(await focused()).toBe(next);
  }
  const seats = page.getByLabel("Seats at the island", { exact: true });
  await seats.click();
  await page.keyboard.type("3");
  expect(await seats.inputValue()).toBe("3");
  // A second press sets the caret, as anywhere.
  await seats.click();
  await page.keyboard.press("End");
  await page.keyboard.type("0");
  expect(await seats.inputValue()).toBe("30");
  await page.keyboard.press("Backspace");
  await button("Light it").click();
  await poll(async () => (await study()).island).toMatchObject({ length: 2.7, width: 1.1, height: 0.9 });

  await page.getByLabel("Target", { exact: true }).first().selectOption("My own values…");
  await poll(focused).toMatch(/^field-targets-own-prep-illuminance$/);
  await page.keyboard.type("400");
  await page.keyboard.press("Tab");
  await page.keyboard.type("0.6");
  await page.keyboard.press("Tab");
  await poll(async () => (await study()).targets["own, prep"]).toMatchObject({
    illuminance: 400,
    uniformity: 0.6,
  });
});
