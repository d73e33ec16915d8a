/** What the shaders compute is what the engine computes. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchBrowser } from "../support/browser.ts";
import { type ElementPages, serveElementPages } from "../support/element-page.ts";
import type { Parity } from "./page.ts";

let browser: Browser;
let pages: ElementPages;
let page: Page;

beforeAll(async () => {
  [browser, pages] = await Promise.all([launchBrowser(), serveElementPages()]);
  page = await browser.newPage();
  page.on("pageerror", (error) => console.error(`page: ${error.message}`));
  page.on("console", (line) => {
    if (line.type() === "error" || line.type() === "warning") console.error(`page: ${line.text()}`);
  });
  await page.goto(pages.url("../../shaders/page.html"));
  await page.locator("html[data-ready]").waitFor({ state: "attached" });
});
afterAll(async () => {
  await browser?.close();
  await pages?.close();
});

function parity(name: string): Promise<Parity> {
  return page.evaluate(
    (given) => (globalThis as unknown as { parity: (name: string) => Promise<Parity> }).parity(given),
    name,
  );
}

describe("direct light of the shaders against the engine, 500 points over every surface", () => {
  for (const name of [
    "three domes",
    "two narrow cones",
    "three opal globes",
    "asymmetric, turned and tilted",
    "near-field disc",
    "up and down",
    "linear box",
  ]) {
    it(name, async () => {
      const found = await parity(name);
      const percent = (x: number): string => `${(100 * x).toFixed(3)} %`;
      console.log(
        `worst error ${name}: ${percent(found.whole)} at ${found.wholePoints} points that see whole openings, ` +
          `${percent(found.penumbra)} of the unshaded light at ${found.penumbraPoints} in penumbra, ` +
          `99 % of all within ${percent(found.percentile99)} of the local value, ` +
          `${found.dark} dark in both, ${found.darkInOne} in one, ${found.milliseconds.toFixed(0)} ms`,
        JSON.stringify(found.worstAt),
      );
      expect(found.points).toBeGreaterThanOrEqual(500);
      expect(found.whole).toBeLessThan(0.005);
      expect(found.penumbra).toBeLessThan(0.005);
    });
  }
});
