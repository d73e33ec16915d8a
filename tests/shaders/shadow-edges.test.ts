/** Edges of shadows as the picture draws them: on the seats' side of the worked example's island, under its top. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../support/browser.ts";
import { type ElementPages, serveElementPages } from "../support/element-page.ts";

interface Stage {
  readonly still: () => Promise<void>;
  readonly drawnFrom: (
    eye: readonly number[],
    target: readonly number[],
    look: "appearance" | "lux",
  ) => { readonly width: number; readonly red: readonly number[] };
}

let browser: TestBrowser;
let pages: ElementPages;
let page: Page;
beforeAll(async () => {
  [browser, pages] = await Promise.all([openBrowser(PAINTED_BY_PROCESSOR), serveElementPages()]);
  page = await browser.newPage({ viewport: { width: 1040, height: 900 } });
  await page.goto(pages.url("../../shaders/preview.html?people=no"));
  await page.locator("html[data-ready]").waitFor({ state: "attached" });
  await page.evaluate(() => (globalThis as unknown as Stage).still());
});
afterAll(() => browser?.close());

/** Middle of the seats' side (m), its left end, and the height it is looked at squarely. */
const SIDE = { middle: 2.7, left: 1.5, y: 1.65, level: 0.45 };
/** Half of what nodes of a divided cell are apart (m): no edge between them can be drawn further off. */
const HALF_A_STEP = 0.045 / 4 / 2;

/** The side from an eye so far along y (m), as rows from below. */
async function sideFrom(y: number, look: "appearance" | "lux") {
  const { width, red } = await page.evaluate(
    ([eye, target, wanted]) =>
      (globalThis as unknown as Stage).drawnFrom(
        eye as readonly number[],
        target as readonly number[],
        wanted as "lux",
      ),
    [[SIDE.middle, y, SIDE.level], [SIDE.middle, SIDE.y, SIDE.level], look],
  );
  const height = red.length / width;
  // Half the picture's height is 25°.
  const perMetre = height / 2 / ((SIDE.y - y) * Math.tan((25 * Math.PI) / 180));
  return {
    perMetre,
    column: (x: number): number => Math.round(width / 2 + (x - SIDE.middle) * perMetre),
    row: (z: number): number => Math.round(height / 2 + (z - SIDE.level) * perMetre),
    at: (i: number, j: number): number => red[j * width + i],
  };
}

/** Where on each row light falls half way from what it is at the end to what it is in the shadow (m along, m up). */
function edgeOf({ perMetre, column, row, at }: Awaited<ReturnType<typeof sideFrom>>): [number, number][] {
  const edge: [number, number][] = [];
  for (let j = row(0.12); j <= row(0.7); j++) {
    const of = (i: number): number => (at(i - 1, j) + at(i, j) + at(i + 1, j)) / 3;
    const half = (of(column(SIDE.left + 0.02)) + of(column(SIDE.left + 0.5))) / 2;
    let i = column(SIDE.left + 0.02);
    while (of(i + 1) > half) i++;
    const share = (of(i) - half) / (of(i) - of(i + 1));
    edge.push([(i + share - column(SIDE.left)) / perMetre, (j - row(SIDE.level)) / perMetre + SIDE.level]);
  }
  return edge;
}

/** The straight line through it: its place at height 0 (m) and how it leans. */
function straight(edge: readonly (readonly [number, number])[]): readonly [number, number] {
  const [x, z] = [0, 1].map((k) => edge.reduce((sum, p) => sum + p[k], 0) / edge.length);
  const slope =
    edge.reduce((sum, p) => sum + (p[0] - x) * (p[1] - z), 0) /
    edge.reduce((sum, p) => sum + (p[1] - z) ** 2, 0);
  return [x - slope * z, slope];
}

// 2026-11-29: between nodes 4.5 cm apart the shadow of the top ended in steps of 12 pixels.
it("a shadow of a straight edge ends in a straight line", async () => {
  const edge = edgeOf(await sideFrom(0.1, "appearance"));
  const [from, slope] = straight(edge);
  const off = edge.map(([x, z]) => Math.abs(x - from - slope * z));
  const worst = Math.max(...off);
  console.log(
    `edge of ${edge.length} rows leans ${slope.toFixed(3)}, off a straight line by ${(1000 * worst).toFixed(1)} mm at most`,
  );
  expect(worst).toBeLessThan(HALF_A_STEP);
});

// 2026-11-29: where a shadow's edge is narrower than a pixel its line was dashes, none between two blocks of four pixels.
it("an isolux line along the edge of a shadow has no gap", async () => {
  const [from, slope] = straight(edgeOf(await sideFrom(0.1, "appearance")));
  const { column, row, at, perMetre } = await sideFrom(-6, "lux");
  const without: number[] = [];
  const rows = [row(0.25), row(0.8)];
  for (let j = rows[0]; j <= rows[1]; j++) {
    const z = SIDE.level + (j - row(SIDE.level)) / perMetre;
    const middle = column(SIDE.left + from + slope * z);
    const near = [-3, -2, -1, 0, 1, 2, 3].map((i) => at(middle + i, j));
    // White on two dark bands.
    if (Math.max(...near) < 150) without.push(j);
  }
  console.log(`${rows[1] - rows[0] + 1} rows, ${without.length} without a line`);
  expect(without).toEqual([]);
});
