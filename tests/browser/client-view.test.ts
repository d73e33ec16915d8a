/** The sheet alone for a client: no panels, an option on its letter, the scale's words on paper. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { atWork, enter, openViewer, poll, troublesOf, type Viewer } from "../support/viewer.ts";

let viewer: Viewer;
beforeAll(async () => {
  viewer = await openViewer({ isDirect: true });
});
afterAll(() => viewer.close());

it("shows the sheet without panels, an option on each letter, and comes back", async () => {
  const context = await viewer.browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const troubles = troublesOf(page);
  await page.addInitScript(() => {
    window.print = () => {
      (window as unknown as { printed: string }).printed = document.querySelector("header")?.innerText ?? "";
    };
  });
  await page.goto(viewer.server.address);
  await atWork(page);
  await enter(page, "Hand-over");
  await page.getByRole("button", { name: "Print the sheet to scale" }).click();
  const printed = () => page.evaluate(() => (window as unknown as { printed?: string }).printed ?? "");
  await poll(printed).toMatch(/1 : \d+ when printed at 100 %[\s\S]*Option A three domes,\s+\d{4}-\d\d-\d\d/);
  const narrow = await page.locator("candlespan-sheet").evaluate((sheet) => sheet.clientWidth);
  await page.getByRole("button", { name: "Show to the client" }).click();
  await poll(() => page.locator(".side").count()).toBe(0);
  await page.keyboard.press("c");
  const option = page.locator('.client-bar [aria-pressed="true"]');
  await poll(() => option.innerText()).toBe("C three opal globes");
  await poll(() => page.locator("candlespan-sheet").evaluate((sheet) => sheet.clientWidth)).toBeGreaterThan(
    narrow,
  );
  await page.waitForSelector('.light-state[data-quality="judged"]');
  if (process.env.SCREENS !== undefined) await page.screenshot({ path: `${process.env.SCREENS}/client.png` });
  await page.keyboard.press("a");
  await poll(() => option.innerText()).toBe("A three domes");
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Show to the client" }).waitFor();
  await context.close();
  expect(troubles).toEqual([]);
});
