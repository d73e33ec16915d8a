/**
 * The README's picture is the screen that a reader gets. `CANDLESPAN_PICTURES=write` takes it anew.
 *
 * Compared by means over squares of 45 pixels: letters differ between browsers and their fonts, what is where does not.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { atWork, openViewer, type Viewer } from "../support/viewer.ts";

const PICTURE = fileURLToPath(new URL("../../fixtures-data/boathouse/screen.png", import.meta.url));
const SQUARE = 45;
/** Of 255. The browser from npm and its fonts against any other. */
const MOST_DIFFERENT = 40;
const MEAN_DIFFERENT = 4;

let viewer: Viewer;
beforeAll(async () => {
  viewer = await openViewer();
});
afterAll(() => viewer.close());

it("is the first screen of the worked example", async () => {
  const context = await viewer.browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(viewer.server.address);
  await atWork(page);
  await page.locator(".light-state[data-quality=judged]").waitFor({ state: "attached" });
  await page.mouse.move(1439, 899);
  const now = await page.screenshot({ animations: "disabled" });
  if (process.env.CANDLESPAN_PICTURES === "write") writeFileSync(PICTURE, now);
  const kept = readFileSync(PICTURE);
  const [a, b] = await Promise.all([now, kept].map((png) => squaresOf(context, png)));
  expect(a.length).toBe(b.length);
  const differences = a.map((value, i) => Math.abs(value - b[i]));
  const most = Math.max(...differences);
  const mean = differences.reduce((sum, each) => sum + each, 0) / differences.length;
  console.log(`screen against its picture: worst error ${most.toFixed(1)}, mean ${mean.toFixed(2)} of 255`);
  expect(most).toBeLessThan(MOST_DIFFERENT);
  expect(mean).toBeLessThan(MEAN_DIFFERENT);
});

/** Mean colours of the squares of a picture, by channel. */
async function squaresOf(
  context: Awaited<ReturnType<Viewer["browser"]["newContext"]>>,
  png: Buffer,
): Promise<number[]> {
  const page = await context.newPage();
  const squares = await page.evaluate(
    async ({ source, side }) => {
      const image = new Image();
      image.src = source;
      await image.decode();
      const [columns, rows] = [image.width / side, image.height / side];
      const canvas = Object.assign(document.createElement("canvas"), {
        width: image.width,
        height: image.height,
      });
      const ink = canvas.getContext("2d", { willReadFrequently: true });
      if (ink === null) throw new Error("no canvas");
      ink.drawImage(image, 0, 0);
      const means: number[] = [];
      for (let row = 0; row < rows; row++)
        for (let column = 0; column < columns; column++) {
          const { data } = ink.getImageData(column * side, row * side, side, side);
          const sums = [0, 0, 0];
          for (let i = 0; i < data.length; i++) if (i % 4 < 3) sums[i % 4] += data[i];
          means.push(...sums.map((sum) => sum / (side * side)));
        }
      return means;
    },
    { source: `data:image/png;base64,${png.toString("base64")}`, side: SQUARE },
  );
  await page.close();
  return squares;
}
