/** For people: no accessibility violation in any place and mode, no sideways scrolling at 320 px, keyboard alone. */
import axe from "axe-core";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openViewer, refined, troublesOf, type Viewer } from "../support/viewer.ts";

let viewer: Viewer;
beforeAll(async () => {
  viewer = await openViewer();
});
afterAll(() => viewer.close());

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const results = await page.evaluate(() =>
    (window as unknown as { axe: typeof axe }).axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }),
  );
  return results.violations.map(
    (each) =>
      `${each.id}: ${each.nodes
        .map((node) => node.target.join(" "))
        .slice(0, 4)
        .join("; ")}`,
  );
}

const PLACES = ["Kitchen", "Lights", "Compare", "Hand-over"];

for (const [width, height, scheme] of [
  [1440, 900, "light"],
  [390, 844, "dark"],
] as const) {
  it(`has no violation in any place at ${width} px, ${scheme}`, async () => {
    const page = await viewer.browser.newPage({ viewport: { width, height }, colorScheme: scheme });
    const troubles = troublesOf(page);
    await page.goto(viewer.server.address);
    await refined(page);
    const found: Record<string, string[]> = {};
    for (const place of PLACES) {
      await page.getByRole("button", { name: place, exact: true }).click();
      await page.waitForTimeout(place === "Compare" ? 2500 : 300);
      found[place] = await violations(page);
    }
    await page.getByRole("button", { name: "Study", exact: true }).click();
    await page.locator("dialog[open]").waitFor();
    found.Study = await violations(page);
    expect(found).toEqual({ Kitchen: [], Lights: [], Compare: [], "Hand-over": [], Study: [] });
    expect(troubles).toEqual([]);
    await page.close();
  });
}

it("reflows at 320 px, in every place, without scrolling sideways", async () => {
  const page = await viewer.browser.newPage({ viewport: { width: 320, height: 640 } });
  await page.goto(viewer.server.address);
  await refined(page);
  for (const place of PLACES) {
    await page.getByRole("button", { name: place, exact: true }).click();
    await page.waitForTimeout(300);
    const over = await page.evaluate(() => {
      const panes = [document.documentElement, ...document.querySelectorAll(".sheet, .controls")];
      return panes.map((pane) => pane.scrollWidth - pane.clientWidth);
    });
    expect(Math.max(...over), place).toBeLessThanOrEqual(0);
  }
  await page.close();
});

it("keeps the controls off the plan on a phone", async () => {
  const page = await viewer.browser.newPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
  await page.goto(viewer.server.address);
  await refined(page);
  const plan = await page.locator("candlespan-plan").boundingBox();
  const side = await page.locator(".side").boundingBox();
  if (plan === null || side === null) throw new Error("not drawn");
  expect(plan.y + plan.height).toBeLessThanOrEqual(side.y + 1);
  await page.close();
});

it("is worked by keyboard alone, with the focus always in sight", async () => {
  const page = await viewer.browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(viewer.server.address);
  await refined(page);
  const seen = new Set<string>();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press("Tab");
    const here = await page.evaluate(() => {
      let at: Element | null = document.activeElement;
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
      if (at === null || at === document.body) return undefined;
      const style = getComputedStyle(at);
      const ring = style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) > 0;
      return {
        ring: ring || at.matches("svg *"),
        name: `${at.tagName} ${at.getAttribute("aria-label") ?? at.id ?? at.textContent}`,
      };
    });
    if (here === undefined) continue;
    expect(here.ring, here.name).toBe(true);
    seen.add(here.name.split(" ")[0]);
  }
  expect([...seen]).toEqual(expect.arrayContaining(["BUTTON", "INPUT", "SELECT", "g", "rect"]));
  await page.close();
});
