/** The elements on somebody else's page, with one import. */
import { expect, it } from "vitest";
import { openViewer, poll, troublesOf } from "../support/viewer.ts";

it("draws the light on an ordinary page", async () => {
  const viewer = await openViewer();
  const page = await viewer.browser.newPage();
  const troubles = troublesOf(page);
  await page.goto(`${viewer.server.address}embed.html`);
  await poll(() => page.locator("candlespan-plan svg text.iso").count()).toBeGreaterThan(2);
  const verdict = page.locator("main > candlespan-sheet [part=verdict]");
  await poll(async () => (await verdict.textContent())?.replaceAll(/\s+/g, " ")).toMatch(/Prep \d+ lx/);
  // Two more kitchens that open and light themselves, one of them in the page's own colours.
  await poll(() => page.locator("#galley candlespan-plan svg text.iso").count()).toBeGreaterThan(1);
  await poll(() => page.locator("#dining candlespan-figures [part=row]").count()).toBeGreaterThan(0);
  const colour = (selector: string) =>
    page
      .locator(selector)
      .first()
      .evaluate((element) => getComputedStyle(element).color);
  expect(await colour("#galley candlespan-sheet")).toBe("rgb(232, 241, 244)");
  expect(await colour("main > candlespan-sheet")).toBe("rgb(36, 33, 28)");
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/embed.png`, fullPage: true });
  expect(await page.locator("candlespan-app").count()).toBe(0);
  expect(troubles).toEqual([]);
  await viewer.close();
});
