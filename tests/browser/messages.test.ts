/** A message names the field in the trade's words, and its link leads there. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { atWork, enter, openViewer, poll, troublesOf, type Viewer } from "../support/viewer.ts";

let viewer: Viewer;
beforeAll(async () => {
  viewer = await openViewer({ isDirect: true });
});
afterAll(() => viewer.close());

it("marks the guilty field and leads to it from another place of the app", async () => {
  const context = await viewer.browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const troubles = troublesOf(page);
  await page.goto(viewer.server.address);
  await atWork(page);
  const clearance = page.getByLabel("Clearance");
  await clearance.fill("1770");
  await clearance.press("Enter");
  const problems = page.locator(".problems li");
  await poll(() => problems.allInnerTexts()).toEqual([
    expect.stringMatching(
      /^✕ Pendants of three domes, clearance: it would reach above the ceiling; 15\d\d mm clearance is the most\.$/,
    ),
  ]);
  expect(await clearance.getAttribute("aria-invalid")).toBe("true");
  await enter(page, "Kitchen");
  await problems.getByRole("link").click();
  await poll(() => clearance.evaluate((field) => document.activeElement === field)).toBe(true);
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/message.png` });
  await page.keyboard.press("Control+a");
  await page.keyboard.type("1500");
  await page.keyboard.press("Enter");
  await poll(() => problems.count()).toBe(0);
  await context.close();
  expect(troubles).toEqual([]);
});
