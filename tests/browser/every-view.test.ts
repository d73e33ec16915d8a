/** Every view and panel: no violation that a machine can find, and every control reached by Tab, with the focus in sight. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { bringAxe, lastingFaults, violationsNow } from "../support/page-violations.ts";
import { type OpenPage, openPage, refined, startAfresh } from "../support/viewer.ts";
import { viewsOf } from "../support/viewer-views.ts";

let viewer: OpenPage;
let page: Page;
beforeAll(async () => {
  viewer = await openPage({ isDirect: true });
  ({ page } = viewer);
  await bringAxe(page);
});
afterAll(() => viewer.close());

/** Presses Tab until the focus is where it began, and tells which controls were never reached or had no ring. */
async function unreached(): Promise<string[]> {
  const controls = await page.evaluate(() => {
    const top = [...document.querySelectorAll("dialog[open], :popover-open")].at(-1);
    const inPage = window as unknown as { waiting: Set<Element>; unringed: Set<string> };
    inPage.waiting = new Set();
    inPage.unringed = new Set();
    const walk = (root: ParentNode): void => {
      for (const each of root.querySelectorAll("*")) {
        if (each.shadowRoot !== null) walk(each.shadowRoot);
        const isControl = each.matches("button, input, select, textarea, summary, a[href], [tabindex='0']");
        const isSeen =
          each.checkVisibility({ visibilityProperty: true }) && !each.matches(":disabled, svg *");
        if (isControl && isSeen && each.getBoundingClientRect().width > 0) inPage.waiting.add(each);
      }
    };
    walk(top ?? document);
    return inPage.waiting.size;
  });
  // Drawings take a stop each, and so may the browser's own frame.
  for (let i = 0; i < controls + 20; i++) {
    await page.keyboard.press("Tab");
    const left = await page.evaluate(() => {
      const { waiting, unringed } = window as unknown as { waiting: Set<Element>; unringed: Set<string> };
      let at: Element | null = document.activeElement;
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
      if (at === null || at === document.body) return waiting.size;
      waiting.delete(at);
      const { outlineStyle, outlineWidth } = getComputedStyle(at);
      const hasRing = outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2;
      if (!hasRing && !at.matches("svg *"))
        unringed.add(`no ring: ${at.tagName} ${at.id} ${at.textContent?.slice(0, 30)}`);
      return waiting.size;
    });
    if (left === 0) break;
  }
  return page.evaluate(() => {
    const { waiting, unringed } = window as unknown as { waiting: Set<Element>; unringed: Set<string> };
    const names = [...waiting].map(
      (each) =>
        `not reached: ${each.tagName} ${each.id} ${(each.getAttribute("aria-label") ?? each.textContent ?? "").trim().slice(0, 40)}`,
    );
    return [...names, ...unringed];
  });
}

it("has no violation and no control out of the keyboard's reach in any view", async () => {
  await startAfresh(page, viewer.example);
  await refined(page);
  const found: Record<string, string[]> = {};
  for (const [view, come] of Object.entries(viewsOf(page))) {
    await come();
    const faults = [
      ...(await lastingFaults((hasPlaces) => violationsNow(page, hasPlaces))),
      ...(await unreached()),
    ];
    if (faults.length > 0) found[view] = faults;
  }
  expect(found).toEqual({});
  expect(viewer.troubles).toEqual([]);
});
