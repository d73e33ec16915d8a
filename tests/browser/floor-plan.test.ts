/** The floor plan: everything in the room is drawn with its name, taken by pointer and by key, sized, removed, and shown in its fields. */

import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { enter, type OpenPage, openPage, poll, refined, startAfresh, studyOf } from "../support/viewer.ts";

let viewer: OpenPage;
let page: Page;
let troubles: string[];
let example: unknown;

beforeAll(async () => {
  viewer = await openPage({ isDirect: true });
  ({ page, troubles, example } = viewer);
});
afterAll(() => viewer.close());
beforeEach(async () => {
  await startAfresh(page, example);
  await page.getByRole("button", { name: "Floor plan", exact: true }).click();
  await thing("island").waitFor();
});
afterEach(() => {
  expect(troubles.splice(0)).toEqual([]);
});

interface Study {
  bodies: { name: string; box: number[][] }[];
  room: { openings: { from: number; length: number }[] };
  island: { length: number; zones: { name: string; from: number[]; size: number[] }[] };
}
const study = () => studyOf<Study>(page);
const thing = (name: string) =>
  page.locator("candlespan-floor-plan").getByRole("button", { name: new RegExp(`^${name},`) });
const side = (name: string) =>
  page.locator("candlespan-floor-plan").getByRole("button", { name, exact: true });
const undoName = () => page.locator(".tools .what").innerText();
const larder = async () => (await study()).bodies.find(({ name }) => name === "tall larder");

/** Drags from a place of the page by a shift. */
async function drag(from: { x: number; y: number }, dx: number, dy: number): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + dx / 2, from.y + dy / 2);
  await page.mouse.move(from.x + dx, from.y + dy);
  await page.mouse.up();
}

async function middle(name: string): Promise<{ x: number; y: number }> {
  const box = await thing(name).boundingBox();
  if (box === null) throw new Error(`${name} has no box.`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

it("names everything that stands in the room, and its walls", async () => {
  const words = (await page.locator("candlespan-floor-plan svg text").allTextContents()).join(" | ");
  for (const name of [
    "base units",
    "wall units",
    "tall larder",
    "cook",
    "guest",
    "prep",
    "eating",
    "washing",
  ])
    expect(words).toContain(name);
  for (const wall of [0, 1, 2, 3]) expect(words).toContain(`wall ${wall}, `);
});

it("drags the larder as one change, Escape leaves it, and it stops at the wall", async () => {
  const before = await larder();
  const from = await middle("tall larder");
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x - 100, from.y + 60);
  await poll(larder).not.toEqual(before);
  await page.keyboard.press("Escape");
  await poll(larder).toEqual(before);
  await page.mouse.up();
  // Light of the place that Escape left may still be on its way and be drawn once more: the hand takes hold of what is at rest.
  await refined(page);
  await poll(() => page.locator(".light-state").getAttribute("data-quality")).toBe("judged");
  await poll(() => middle("tall larder")).toEqual(from);
  await drag(from, -640, 540);
  await poll(async () => (await larder())?.box[0].slice(0, 2)).toEqual([0, 0]);
  expect(await undoName()).toBe("move tall larder");
  await page.keyboard.press("Control+z");
  await poll(larder).toEqual(before);
});

it("moves by arrow keys from one Tab stop, sizes a side, removes, and shows the fields", async () => {
  const before = (await larder())?.box as number[][];
  await thing("tall larder").focus();
  for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowLeft");
  await poll(async () => (await larder())?.box[0][0]).toBeCloseTo(before[0][0] - 0.1, 4);
  await page.keyboard.press("Control+z");
  await poll(larder).toMatchObject({ box: before });
  await page.keyboard.press("PageDown");
  await expect(side("left side of tall larder").evaluate((e) => e.matches(":focus"))).resolves.toBe(true);
  await page.keyboard.press("ArrowLeft");
  await poll(async () => (await larder())?.box[0][0]).toBeCloseTo(before[0][0] - 0.025, 4);
  expect((await larder())?.box[1][0]).toBe(before[1][0]);
  await page.getByRole("button", { name: "Fields of tall larder" }).click();
  await poll(() => page.locator("#field-bodies-2-name").evaluate((e) => e.matches(":focus"))).toBe(true);
  await thing("tall larder").focus();
  await page.keyboard.press("Delete");
  await poll(larder).toBeUndefined();
  const stops = await page
    .locator("candlespan-floor-plan")
    .evaluate((plan) => plan.shadowRoot?.querySelectorAll('[tabindex="0"]').length);
  expect(stops).toBe(1);
});

it("draws the window, a zone and the island's end by their sides", async () => {
  const { room, island } = await study();
  await page.mouse.click((await middle("opening 1")).x, (await middle("opening 1")).y);
  const end = await side("end of opening 1").boundingBox();
  await drag({ x: (end?.x ?? 0) + 12, y: (end?.y ?? 0) + 12 }, -40, 0);
  await poll(async () => (await study()).room.openings[0].length).toBeLessThan(room.openings[0].length - 0.1);
  await thing("eating").focus();
  await page.keyboard.press("Enter");
  await side("right side of eating").focus();
  await page.keyboard.press("ArrowLeft");
  const zone = island.zones.findIndex(({ name }) => name === "eating");
  await poll(async () => (await study()).island.zones[zone].size[0]).toBeCloseTo(
    island.zones[zone].size[0] - 0.025,
    4,
  );
  await thing("island").focus();
  await page.keyboard.press("Enter");
  await side("right side of the island").focus();
  for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
  await poll(async () => (await study()).island.length).toBeCloseTo(island.length + 0.1, 4);
  await refined(page);
  expect(await undoName()).toBe("size the island");
});

it("opens what is added beside another of its list that is open, with its name to be typed (2026-11-29: it stayed folded)", async () => {
  await enter(page, "Kitchen");
  const zones = page.locator("details[name=zone]");
  await zones.first().waitFor();
  const before = await zones.count();
  await zones.first().evaluate((each) => {
    (each as HTMLDetailsElement).open = true;
  });
  await page.getByRole("button", { name: "Add a zone", exact: true }).click();
  await poll(() => zones.count()).toBe(before + 1);
  await poll(() => zones.nth(before).evaluate((each) => (each as HTMLDetailsElement).open)).toBe(true);
  await poll(() => zones.nth(before).evaluate((each) => each.contains(document.activeElement))).toBe(true);
  expect(await zones.first().evaluate((each) => (each as HTMLDetailsElement).open)).toBe(false);
});
