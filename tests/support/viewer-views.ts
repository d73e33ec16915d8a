/** Every view and panel of the viewer, and how one comes to each from the one before it. */

import type { Page } from "playwright-core";
import { enter, poll } from "./viewer.ts";

/** Unfolds all that is folded, what is unfolded by it too. */
async function unfold(page: Page, within: string): Promise<void> {
  for (let i = 0; i < 2; i++) {
    await page.evaluate((selector) => {
      const open = (root: ParentNode): void => {
        for (const each of root.querySelectorAll("*")) {
          if (each instanceof HTMLDetailsElement) each.open = true;
          if (each.shadowRoot !== null) open(each.shadowRoot);
        }
      };
      for (const each of document.querySelectorAll(selector)) open(each);
    }, within);
    await page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
  }
}

/** In their order; the first from the place Lights. */
export function viewsOf(page: Page): Readonly<Record<string, () => Promise<void>>> {
  const button = (name: string) => page.getByRole("button", { name, exact: true });
  const close = () => page.getByRole("dialog").getByRole("button", { name: "Close" }).click();

  return {
    Lights: () => unfold(page, "#controls"),
    async Selected() {
      await page.locator('candlespan-plan [data-luminaire="0 1"]').first().focus();
      await page.keyboard.press("Enter");
      await page.locator(".part.selected").waitFor();
    },
    async Kitchen() {
      await enter(page, "Kitchen");
      await unfold(page, "#controls");
    },
    async "Floor plan"() {
      await button("Floor plan").click();
      await page.locator("candlespan-floor-plan svg").waitFor();
    },
    async Room() {
      await button("Room").click();
      await page.getByLabel("Viewpoint").waitFor();
    },
    async "Room's further controls"() {
      const more = button("More…");
      if (await more.isVisible()) await more.click();
    },
    async "Also draw"() {
      await page.keyboard.press("Escape");
      await button("Drawings").click();
      await button("Also draw…").click();
    },
    async Units() {
      await page.keyboard.press("Escape");
      const units = button("Units…");
      if (await units.isVisible()) await units.click();
    },
    async "Figures and all under the drawings"() {
      await page.keyboard.press("Escape");
      await unfold(page, ".below");
      await page.locator("candlespan-findings h3").first().waitFor();
      await unfold(page, ".below");
    },
    async Compare() {
      await page.evaluate(() => {
        for (const each of document.querySelectorAll<HTMLDetailsElement>(".below details")) each.open = false;
      });
      await enter(page, "Compare");
      await poll(() => page.locator("candlespan-comparison h2").count()).toBe(5);
    },
    async "Hand-over"() {
      await enter(page, "Hand-over");
      await page.locator(".drawer img").first().waitFor();
      await unfold(page, "#controls");
    },
    async "A paper"() {
      await page.locator(".drawer .picture").first().click();
      await page.locator("dialog.paper[open]").waitFor();
    },
    async "A field that is on hold"() {
      await close();
      await page.locator(".holds a").first().click();
      await page.locator(".hold-return").waitFor();
    },
    async "Show to the client"() {
      await enter(page, "Hand-over");
      await button("Show to the client").click();
      await poll(() => page.locator(".side").count()).toBe(0);
    },
    async Study() {
      await page.keyboard.press("Escape");
      await button("Study").click();
      await page.locator("dialog.study[open] .kept li").first().waitFor();
      await button("Share by link").click();
      await page.locator("#study-link, dialog.study [role=status]").first().waitFor();
    },
    async "Start my own kitchen"() {
      await page.locator("dialog.study").getByRole("button", { name: "Start my own kitchen" }).click();
      await page.locator("dialog.start[open]").waitFor();
      await page.locator("#start-length").fill("long");
      await page.locator("#start-length").press("Tab");
      await page.locator("dialog.start .problem").waitFor();
    },
    async "What cannot be computed"() {
      await close();
      await enter(page, "Lights");
      await page.getByLabel("Clearance").first().fill("90 m");
      await page.getByLabel("Clearance").first().press("Enter");
      await page.locator(".sheet > .refusal").waitFor();
    },
  };
}
