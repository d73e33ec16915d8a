/** Edges of shadows as the picture draws them: on the seats' side of the worked example's island, under its top. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../support/browser.ts";
import { type ElementPages, serveElementPages } from "../support/element-page.ts";

interface Stage {
  readonly still: () => Promise<void>;
  readonly drawnFrom: (
    eye: readonly number[],
    target: readonly number[],
  ) => { readonly width: number; readonly red: readonly number[] };
}

let browser: TestBrowser;
let pages: ElementPages;
beforeAll(async () => {
  [browser, pages] = await Promise.all([openBrowser(PAINTED_BY_PROCESSOR), serveElementPages()]);
});
afterAll(() => browser?.close());

/** Middle of the seats' side (m), its left end, and from where it is looked at squarely: half the picture's height is 25°. */
const SIDE = { middle: 2.7, left: 1.5, y: 1.65, level: 0.45 };
const EYE = 0.1;
/** Half of what nodes of a divided cell are apart (m): no edge between them can be drawn further off. */
const HALF_A_STEP = 0.045 / 4 / 2;
const HALF = (SIDE.y - EYE) * Math.tan((25 * Math.PI) / 180);

// 2026-11-29: between nodes 4.5 cm apart the shadow of the top ended in steps of 12 pixels.
it("a shadow of a straight edge ends in a straight line", async () => {
  const page = await browser.newPage({ viewport: { width: 1040, height: 900 } });
  await page.goto(pages.url("../../shaders/preview.html?people=no"));
  await page.locator("html[data-ready]").waitFor({ state: "attached" });
  const { width, red } = await page.evaluate(
    async ([eye, target]) => {
      const { still, drawnFrom } = globalThis as unknown as Stage;
      await still();
      return drawnFrom(eye, target);
    },
    [
      [SIDE.middle, EYE, SIDE.level],
      [SIDE.middle, SIDE.y, SIDE.level],
    ],
  );
  await page.close();
  const height = red.length / width;
  const perMetre = height / 2 / HALF;
  const column = (x: number): number => Math.round(width / 2 + (x - SIDE.middle) * perMetre);
  const row = (z: number): number => Math.round(height / 2 + (z - SIDE.level) * perMetre);
  /** Where the light falls half way from what it is at the end to what it is in the shadow (m along, m up). */
  const edge: [number, number][] = [];
  for (let j = row(0.12); j <= row(0.7); j++) {
    const at = (i: number): number =>
      (red[j * width + i - 1] + red[j * width + i] + red[j * width + i + 1]) / 3;
    const half = (at(column(SIDE.left + 0.02)) + at(column(SIDE.left + 0.5))) / 2;
    let i = column(SIDE.left + 0.02);
    while (at(i + 1) > half) i++;
    const share = (at(i) - half) / (at(i) - at(i + 1));
    edge.push([(i + share - column(SIDE.left)) / perMetre, j / perMetre]);
  }
  const mean = [0, 1].map((k) => edge.reduce((sum, p) => sum + p[k], 0) / edge.length);
  const slope =
    edge.reduce((sum, [x, z]) => sum + (x - mean[0]) * (z - mean[1]), 0) /
    edge.reduce((sum, [, z]) => sum + (z - mean[1]) ** 2, 0);
  const off = edge.map(([x, z]) => Math.abs(x - mean[0] - slope * (z - mean[1])));
  const [worst, root] = [Math.max(...off), Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length)];
  console.log(
    `edge of ${edge.length} rows leans ${slope.toFixed(3)}, off a straight line by ${(1000 * worst).toFixed(1)} mm at most, ${(1000 * root).toFixed(1)} mm root mean square`,
  );
  expect(worst).toBeLessThan(HALF_A_STEP);
});
