/** The elements on somebody else's page, with one import. */
import { expect, it } from "vitest";
import { openViewer, poll, troublesOf, verdictOf } from "../support/viewer.ts";

it("draws the light on an ordinary page", async () => {
  const viewer = await openViewer();
  const page = await viewer.browser.newPage();
  const troubles = troublesOf(page);
  await page.goto(`${viewer.server.address}embed.html`);
  await poll(() => page.locator("candlespan-plan svg text.iso").count()).toBeGreaterThan(2);
  expect(await verdictOf(page)).toMatch(/Prep \d+ lx/);
  expect(await page.locator("candlespan-app").count()).toBe(0);
  expect(troubles).toEqual([]);
  await viewer.close();
});
