/**
 * The preview's figures, printed by CANDLESPAN_FIGURES=long: what it costs to move a pendant, to come to rest and to
 * turn at 1280 by 720, on this machine's software WebGL, with people in the light too, and what a luminaire and an
 * element cost. Times are never judged: they depend on who else computes. Without it the same is drawn, small and once.
 */
import { afterAll, beforeAll, expect, it } from "vitest";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../support/browser.ts";
import { type ElementPages, serveElementPages } from "../support/element-page.ts";
import type { PreviewFigures } from "./figures-page.ts";

interface FiguresPage {
  readonly figures: () => Promise<PreviewFigures>;
  readonly costs: () => Promise<{
    readonly elements: readonly number[];
    readonly byLuminaires: Readonly<Record<string, readonly number[]>>;
    readonly luminaire: number;
    readonly element: number;
  }>;
  readonly throughPanes: (count: number, share: number) => Promise<number>;
}

const long = process.env.CANDLESPAN_FIGURES === "long";
const width = long ? 1280 : 320;
let browser: TestBrowser;
let pages: ElementPages;
beforeAll(async () => {
  [browser, pages] = await Promise.all([openBrowser(PAINTED_BY_PROCESSOR), serveElementPages()]);
});
afterAll(() => browser?.close());

async function open(query = "") {
  const page = await browser.newPage({ viewport: { width: 1280, height: 1000 } });
  page.on("pageerror", (error) => console.error(`page: ${error.message}`));
  await page.goto(pages.url(`../../shaders/figures.html?width=${width}${query}`));
  await page.locator("html[data-ready]").waitFor({ state: "attached" });
  return page;
}

const middle = (times: readonly number[]): number => times[times.length >> 1];
const ms = (times: readonly number[]): string =>
  `best ${times[0].toFixed(0)}, median ${middle(times).toFixed(0)} ms`;

for (const people of long ? ["no", "yes"] : ["no"])
  it(`draws the worked example from every viewpoint ${width} wide, people ${people}`, async () => {
    const page = await open(`&people=${people}${long ? "&turns=5" : ""}`);
    const found = await page.evaluate(() => (globalThis as unknown as FiguresPage).figures());
    await page.close();
    expect(found.nodes).toBeGreaterThan(1000);
    if (!long) return;
    const worst = (table: PreviewFigures["turned"]): string => {
      const [name, times] = Object.entries(table).sort(([, a], [, b]) => middle(b) - middle(a))[0];
      return `${ms(times)} (${name})`;
    };
    const each = Object.entries(found.turned).map(([name, times]) => `${name} ${middle(times).toFixed(0)}`);
    console.log(
      `figures, people ${people}: a frame while a pendant moves ${ms(found.moving)}; from scene given to still ` +
        `${ms(found.still)} with ${found.nodes} nodes; a change of view at most ${worst(found.turned)}, ` +
        `drawn at rest ${worst(found.turnedAtRest)}; medians ${each.join(", ")}`,
    );
  });

it("leaves no solid out of a shadow, however many stand one behind the other", async () => {
  const page = await open();
  for (const count of [5, 40]) {
    const share = await page.evaluate(
      (panes) => (globalThis as unknown as FiguresPage).throughPanes(panes, 0.95),
      count,
    );
    const error = share / 0.95 ** count - 1;
    console.log(`worst error of light through ${count} panes ${(100 * Math.abs(error)).toExponential(1)} %`);
    // Products in single precision.
    expect(Math.abs(error)).toBeLessThan(1e-5);
  }
  await page.close();
});

const measureCosts = async (): Promise<void> => {
  const page = await open();
  const found = await page.evaluate(() => (globalThis as unknown as FiguresPage).costs());
  await page.close();
  const rows = Object.entries(found.byLuminaires).map(
    ([name, times]) => `${name} ${times.map((t) => t.toFixed(0)).join(" / ")}`,
  );
  console.log(
    `figures a megapixel: ${found.luminaire.toFixed(0)} ms a luminaire of four elements, ${found.element.toFixed(1)} ms ` +
      `an element; luminaires by ${found.elements.join(" / ")} elements: ${rows.join(", ")} ms`,
  );
  expect(found.element).toBeGreaterThan(0);
};
if (long) it("costs so much a luminaire and an element", measureCosts);
