/** A drawing underneath the floor plan: scaled to the pixel by two points, moved by key, kept and forgotten, and none that is hostile. */

import { crc32, deflateSync } from "node:zlib";
import PDFDocument from "pdfkit";
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import {
  atWork,
  kept,
  openViewer,
  poll,
  startAfresh,
  studyOf,
  troublesOf,
  type Viewer,
} from "../support/viewer.ts";

let viewer: Viewer;
let context: BrowserContext;
let page: Page;
let troubles: string[];
let example: unknown;

beforeAll(async () => {
  viewer = await openViewer({ isDirect: true });
  context = await viewer.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await context.newPage();
  troubles = troublesOf(page);
  await page.goto(viewer.server.address);
  await atWork(page);
  example = await studyOf(page);
});
afterAll(() => viewer.close());
beforeEach(async () => {
  await startAfresh(page, example);
  await page.getByRole("button", { name: "Floor plan", exact: true }).click();
});
afterEach(() => {
  expect(troubles.splice(0)).toEqual([]);
});

/** Two marks of this picture are three metres apart in the house. */
const MARKS = [
  [120, 310],
  [690, 205],
] as const;
const APART = 3;

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** Grey, one byte a pixel: white with a black frame and crosses at the marks. */
function drawing(width: number, height: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  const rows = Buffer.alloc(height * (width + 1), 255);
  for (let y = 0; y < height; y++) {
    rows[y * (width + 1)] = 0;
    for (let x = 0; x < width; x++) {
      const onCross = MARKS.some(
        ([u, v]) => (Math.abs(x - u) < 20 && y === v) || (Math.abs(y - v) < 20 && x === u),
      );
      const onFrame = Math.min(x, y, width - 1 - x, height - 1 - y) < 3;
      if (onCross || onFrame) rows[y * (width + 1) + 1 + x] = 0;
    }
  }
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

async function lay(name: string, buffer: Buffer): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^(Lay a drawing underneath|Another drawing)$/ }).click();
  await (await chooser).setFiles({ name, mimeType: "application/octet-stream", buffer });
}

const image = () => page.locator("candlespan-floor-plan image.underlay");

/** Where pixels of the picture are in the window. */
const onScreen = (pixels: readonly (readonly [number, number])[]) =>
  image().evaluate(
    (element, all) => {
      const matrix = (element as SVGImageElement).getScreenCTM();
      return all.map(([x, y]) => {
        const { x: right, y: down } = new DOMPoint(x, y).matrixTransform(matrix as DOMMatrix);
        return { x: right, y: down };
      });
    },
    pixels as [number, number][],
  );

const underlay = async () => (await studyOf<{ underlay?: Record<string, unknown> }>(page)).underlay;

it("is scaled within a pixel by two presses and a typed length, and undone", async () => {
  await lay("house.png", drawing(800, 600));
  await image().waitFor();
  await page.getByRole("button", { name: "Scale by two points" }).click();
  for (const { x, y } of await onScreen(MARKS)) await page.mouse.click(x, y);
  const field = page.getByLabel("Length between the points");
  await field.fill(`9' 10 1/8"`);
  await field.press("Enter");
  const metres = (9 * 12 + 10.125) * 0.0254;
  expect(metres).toBeCloseTo(APART, 2);
  await poll(async () => (await underlay())?.scale).toBeCloseTo(
    metres / Math.hypot(MARKS[1][0] - MARKS[0][0], MARKS[1][1] - MARKS[0][1]),
    4,
  );
  // What the plan calls a metre is read off the island's own box.
  const { island } = await studyOf<{ island: { length: number } }>(page);
  const box = await page
    .locator('candlespan-floor-plan [data-kind="island"] .take')
    .evaluate((element) => (element as SVGPathElement).getBBox().width);
  const [a, b] = await onScreen(MARKS);
  const error = Math.hypot(b.x - a.x, b.y - a.y) - (metres * box) / island.length;
  console.log(`marks are ${error.toFixed(3)} pixels further apart than ${metres.toFixed(4)} m`);
  expect(Math.abs(error)).toBeLessThan(1);
  await page.keyboard.press("Escape");
  await page.locator("#controls").press("Control+z");
  await page.locator("#controls").press("Control+z");
  await poll(underlay).toBeUndefined();
});

/** A page of 800 × 600 units with the same frame and crosses as the picture, and one that is not wanted after it. */
async function drawnPdf(options: object = {}): Promise<Buffer> {
  const document = new PDFDocument({ size: [800, 600], margin: 0, ...options });
  const parts: Buffer[] = [];
  document.on("data", (part: Buffer) => parts.push(part));
  const done = new Promise<void>((end) => document.on("end", end));
  document.lineWidth(2).rect(1, 1, 798, 598).stroke();
  for (const [u, v] of MARKS)
    document
      .moveTo(u - 20, v)
      .lineTo(u + 20, v)
      .moveTo(u, v - 20)
      .lineTo(u, v + 20)
      .stroke();
  document.fontSize(30).text("House", 300, 40);
  document.addPage();
  document.rect(0, 0, 800, 600).fill("black");
  document.end();
  await done;
  return Buffer.concat(parts);
}

it("takes the first page of a PDF, its lines where they are on the page", async () => {
  await lay("house.pdf", await drawnPdf());
  await image().waitFor();
  await poll(async () => (await underlay())?.image).toBe("house, page 1.png");
  const seen = await image().evaluate(async (element) => {
    const picture = new Image();
    picture.src = (element as SVGImageElement).href.baseVal;
    await picture.decode();
    const canvas = document.createElement("canvas");
    const { naturalWidth: width, naturalHeight: height } = picture;
    Object.assign(canvas, { width, height });
    const context = canvas.getContext("2d") as CanvasRenderingContext2D;
    context.drawImage(picture, 0, 0);
    const { data } = context.getImageData(0, 0, width, height);
    return {
      width,
      height,
      dark: Array.from({ length: width * height }, (_, i) => (data[4 * i] < 128 ? i : -1)).filter(
        (i) => i >= 0,
      ),
    };
  });
  expect([seen.width, seen.height]).toEqual([4096, 3072]);
  const k = 4096 / 800;
  // The middle of what is dark in a window about each mark, wider than its arms.
  const errors = MARKS.map(([u, v]) => {
    const near = seen.dark
      .map((i) => [i % seen.width, Math.floor(i / seen.width)])
      .filter(([x, y]) => Math.abs(x - k * u) < 25 * k && Math.abs(y - k * v) < 25 * k);
    const middle = [0, 1].map((axis) => near.reduce((sum, each) => sum + each[axis] + 0.5, 0) / near.length);
    return Math.hypot(middle[0] - k * u, middle[1] - k * v);
  });
  console.log(`marks of the PDF are drawn within ${Math.max(...errors).toFixed(2)} of 4096 pixels`);
  expect(Math.max(...errors)).toBeLessThan(1);
  // Words with a font that is not in the file are there, and the second page is not.
  const letters = seen.dark.filter((i) => {
    const [x, y] = [(i % seen.width) / k, Math.floor(i / seen.width) / k];
    return x > 300 && x < 420 && y > 40 && y < 75;
  });
  expect(letters.length).toBeGreaterThan(500);
  expect(seen.dark.length / (seen.width * seen.height)).toBeLessThan(0.05);
});

it("has its points and itself moved by arrow keys, a movement one change", async () => {
  await lay("house.png", drawing(800, 600));
  await page.getByRole("button", { name: "Scale by two points" }).click();
  const point = page.locator("candlespan-floor-plan .point").first();
  const before = await point.boundingBox();
  await point.focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowUp");
  await poll(async () => (await point.boundingBox())?.x).toBeCloseTo((before?.x ?? 0) + 10, 0);
  expect((await point.boundingBox())?.y).toBeCloseTo((before?.y ?? 0) - 1, 0);
  await page.getByRole("button", { name: "Move", exact: true }).click();
  const ground = page.getByRole("button", { name: /^Drawing underneath: arrow keys/ });
  await ground.focus();
  await page.keyboard.press("ArrowLeft");
  await poll(async () => (await underlay())?.origin).toEqual([-0.025, 0]);
  await page.getByRole("button", { name: "Move", exact: true }).click();
  // Out of the hand's way again: the island is taken through it.
  const island = await page.locator('candlespan-floor-plan [data-kind="island"]').boundingBox();
  await page.mouse.click((island?.x ?? 0) + 4, (island?.y ?? 0) + (island?.height ?? 0) / 2);
  await page.getByRole("button", { name: "Fields of the island" }).waitFor();
});

it("is in the study only where asked, beside it after a reload, and back when its removal is undone", async () => {
  await lay("house.png", drawing(800, 600));
  await image().waitFor();
  const embedded = async () => Object.keys((await studyOf<{ embedded?: object }>(page)).embedded ?? {});
  expect(await embedded()).not.toContain("house.png");
  await page.getByLabel(/Keep it in the study file/).check();
  await poll(embedded).toContain("house.png");
  await page.getByLabel(/Keep it in the study file/).uncheck();
  await poll(embedded).not.toContain("house.png");
  await page.getByRole("button", { name: "Remove the drawing underneath" }).click();
  await poll(() => image().count()).toBe(0);
  await page.locator("#controls").press("Control+z");
  await image().waitFor();
  await kept(page);
  await page.reload();
  await atWork(page);
  await page.getByRole("button", { name: "Floor plan", exact: true }).click();
  await image().waitFor();
});

it("refuses what is hostile, says what was found and the way out, and runs no script", async () => {
  const script = `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>parent.ran = true; window.ran = true</script></svg>`;
  const bomb = drawing(4, 4);
  bomb.writeUInt32BE(20_000, 16);
  bomb.writeUInt32BE(20_000, 20);
  for (const [name, bytes, said] of [
    ["script.svg", Buffer.from(script), /holds a script.*save it as PNG/is],
    ["bomb.png", bomb, /at most 8192 × 8192 pixels, found 20000 × 20000/],
    ["short.png", drawing(40, 40).subarray(0, -20), /ends before the picture does/],
    ["huge.pdf", await drawnPdf({ size: [20_000, 300] }), /sides of 3 to 14400.*found 20000 × 300/is],
    ["locked.pdf", await drawnPdf({ userPassword: "a" }), /opens with a password/],
    ["plan.pdf", Buffer.from("%PDF-1.7"), /first page could not be drawn.*save the page as PNG/is],
  ] as const) {
    await lay(name, bytes);
    await poll(() => page.locator(".refusal").innerText()).toMatch(said);
    expect(await page.locator(".refusal").innerText()).toContain(name);
    await page.getByRole("button", { name: "Dismiss" }).click();
  }
  expect(await page.evaluate(() => "ran" in window)).toBe(false);
  expect(await underlay()).toBeUndefined();
});
