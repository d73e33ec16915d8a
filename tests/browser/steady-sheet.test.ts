/** The drawings stand still and in view, whatever is said over them: options, clashes, first light and judged. */

import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type OpenPage, openPage, poll, startAfresh } from "../support/viewer.ts";

interface Study {
  room: object;
  arrangements: { name: string }[];
}

let viewer: OpenPage;
let page: Page;
let example: Study;
beforeAll(async () => {
  viewer = await openPage({ isDirect: true });
  ({ page } = viewer);
  example = viewer.example as Study;
});
afterAll(() => viewer.close());

/** Writes down where the top is drawn, at every frame, until it is asked for. */
async function watchTop(): Promise<void> {
  await page.evaluate(() => {
    const seen = new Set<number>();
    (window as unknown as { seen: Set<number> }).seen = seen;
    const look = (): void => {
      if ((window as unknown as { seen: unknown }).seen !== seen) return;
      const field = document
        .querySelector("candlespan-sheet")
        ?.shadowRoot?.querySelector("candlespan-plan")
        ?.shadowRoot?.querySelector(".field");
      if (field !== null && field !== undefined) {
        const { top, height } = field.getBoundingClientRect();
        seen.add(top).add(top + height);
      }
      requestAnimationFrame(look);
    };
    look();
  });
}

/** Of its far and its near edge, from the top of the window (px). */
const placesSeen = () => page.evaluate(() => [...(window as unknown as { seen: Set<number> }).seen]);

/** Of the shown option's last change. */
async function judged(): Promise<void> {
  await page.waitForFunction(() => {
    const state = document.querySelector<HTMLElement>(".light-state[data-quality=judged]");
    const { lighting } = (
      document.querySelector("candlespan-app") as Element & {
        session: { lighting: { isBehind: boolean; shown?: { sequence: number } } };
      }
    ).session;
    return !lighting.isBehind && state?.dataset.sequence === String(lighting.shown?.sequence);
  });
}

/** How far a drawing reaches out of what the pane shows (px). */
const outOfView = () =>
  page.evaluate(() => {
    const pane = document.querySelector(".sheet")?.getBoundingClientRect();
    const root = document.querySelector("candlespan-sheet")?.shadowRoot;
    if (pane === undefined || root === null || root === undefined) return Number.NaN;
    const drawn = ["candlespan-plan", "candlespan-profile"].map((each) =>
      root.querySelector(each)?.getBoundingClientRect(),
    );
    return Math.max(...drawn.map((each) => (each === undefined ? Number.NaN : each.bottom - pane.bottom)), 0);
  });

// 2026-11-29: the plan went down by 18 to 61 px when the second or third option was judged, or a clash was told.
for (const [width, height] of [
  [1440, 900],
  [1024, 768],
] as const)
  it(`moves no drawing at ${width} × ${height}, whatever the verdict says`, async () => {
    await page.setViewportSize({ width, height });
    const duct = { name: "duct", from: [1.5, 1.3], size: [2.4, 1.2] };
    await startAfresh(page, example);
    await judged();
    await watchTop();
    const axes: string[] = [];
    const [first] = example.arrangements;
    for (const { name } of [...example.arrangements, first]) {
      await page
        .locator("#controls")
        .getByRole("button", { name: new RegExp(`${name}$`) })
        .first()
        .click();
      await judged();
      await poll(() => page.locator("candlespan-sheet [part=headline]").innerText()).toMatch(/./);
      if (process.env.SCREENS !== undefined)
        await page.screenshot({ path: `${process.env.SCREENS}/steady-${width}-${name}.png` });
      expect(await outOfView(), name).toBeLessThanOrEqual(0);
      axes.push(await page.locator("candlespan-profile svg text", { hasText: / lx$/ }).first().innerHTML());
    }
    // 2026-11-29: the profile of the same light had another axis after brighter light had been seen.
    expect(axes[3]).toBe(axes[0]);
    expect(axes[1]).not.toBe(axes[0]);
    await startAfresh(page, { ...example, room: { ...example.room, keepOuts: [duct] } });
    await judged();
    await poll(() => page.locator("candlespan-sheet [part=headline]").innerText()).toMatch(
      /^Cannot be built/,
    );
    if (process.env.SCREENS !== undefined)
      await page.screenshot({ path: `${process.env.SCREENS}/steady-${width}-clash.png` });
    expect(await outOfView(), "a clash").toBeLessThanOrEqual(0);
    // Two edges, each in one place but for what the browser rounds.
    const places = await placesSeen();
    const [far, near] = [Math.min(...places), Math.max(...places)];
    expect(near - far).toBeGreaterThan(100);
    for (const place of places) expect(Math.min(place - far, near - place)).toBeLessThan(0.5);
    expect(viewer.troubles).toEqual([]);
  });

// 2026-11-29: a head of two rows and eight lines of words left the lit top a twentieth of the window.
it("gives the lit top a ninth of a small laptop's window, and a sixth of a laptop's", async () => {
  for (const [width, height, least] of [
    [1024, 768, 1 / 9],
    [1440, 900, 1 / 6],
  ]) {
    await page.setViewportSize({ width, height });
    await startAfresh(page, example);
    await judged();
    await poll(async () => {
      const box = await page.locator("candlespan-plan svg .field").boundingBox();
      return box === null ? 0 : (box.width * box.height) / width / height;
    }).toBeGreaterThan(least);
  }
});
