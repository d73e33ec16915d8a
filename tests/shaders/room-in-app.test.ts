/** The room as it will be lit, opened from the app's page: its picture, and what is printed under it. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { CandlespanPreview } from "../../src/preview/preview.ts";
import { openBrowser, type TestBrowser } from "../support/browser.ts";
import { atWork, openViewer, poll, troublesOf, type Viewer } from "../support/viewer.ts";

let viewer: Viewer;
let browser: TestBrowser;
let page: Page;
let troubles: string[];

beforeAll(async () => {
  // The viewer's own browser of the tests paints pages on the processor; a picture in depth wants the renderer.
  [viewer, browser] = await Promise.all([openViewer(), openBrowser()]);
  page = await browser.newPage({ viewport: { width: 1100, height: 900 } });
  troubles = troublesOf(page);
  await page.goto(viewer.server.address);
  await atWork(page);
});
afterAll(async () => {
  await browser?.close();
  await viewer?.close();
});

/** Share of the picture's pixels that are neither black nor of one colour with their neighbour. */
const varied = () =>
  page.evaluate(() => {
    const preview = document.querySelector("candlespan-app")?.querySelector("candlespan-preview");
    const element = preview as CandlespanPreview | undefined;
    const gl = element?.renderer?.getContext() as WebGL2RenderingContext | undefined;
    if (gl === undefined) return 0;
    const [width, height] = [gl.drawingBufferWidth, gl.drawingBufferHeight];
    const pixels = new Uint8Array(4 * width * height);
    gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
    let count = 0;
    for (let i = 4; i < pixels.length; i += 4)
      if (pixels[i] + pixels[i + 1] + pixels[i + 2] > 30 && pixels[i] !== pixels[i - 4]) count++;
    return count / (width * height);
  });

it("stands where the drawings stand, shows the kitchen, and says exposure, date and inputs under it", async () => {
  const start = performance.now();
  const [sheet, pane] = [page.locator("candlespan-sheet"), page.locator(".sheet")];
  await page.getByRole("button", { name: "Room", exact: true }).click();
  await page.getByRole("button", { name: "Back to the drawings" }).waitFor();
  const caption = page.locator("candlespan-preview figcaption");
  await caption.getByText("exposure value").waitFor();
  const first = performance.now() - start;
  await poll(() => caption.innerText()).toContain("reflected light");
  const sketched = performance.now() - start;
  // Under the verdict, as large as the pane, nothing below its fold.
  expect(await sheet.locator("[part=verdict]").first().innerText()).toContain("Prep");
  expect(await sheet.locator("candlespan-plan").count()).toBe(0);
  const [picture, room] = [
    await page.locator("candlespan-preview canvas").boundingBox(),
    await pane.boundingBox(),
  ];
  if (picture === null || room === null) throw new Error("nothing shown");
  expect(picture.height).toBeGreaterThan(0.45 * room.height);
  expect(picture.y + picture.height).toBeLessThan(room.y + room.height);
  await poll(varied).toBeGreaterThan(0.02);
  const words = (await caption.innerText()).replaceAll(/\s+/g, " ");
  const today = new Date().toISOString().slice(0, 10);
  const yesterday = new Date(Date.now() - 60_000).toISOString().slice(0, 10);
  expect([today, yesterday].some((date) => words.includes(date))).toBe(true);
  expect(words).toMatch(/pendants: measured/);
  expect(words).toMatch(/direct (light, )?and (a sketch of the )?reflected light/);
  expect(words).toMatch(/pendants \d+ %/);
  expect(words).toMatch(/exposure value \d+\.\d at ISO 100/);
  console.log(
    `room opened from the page: direct light after ${(first / 1000).toFixed(1)} s, sketched after ${(sketched / 1000).toFixed(1)} s`,
  );
});

it("takes its light in full when it is there, without losing the picture", async () => {
  const side = () =>
    page.evaluate(() => {
      const preview = document.querySelector("candlespan-app")?.querySelector("candlespan-preview");
      const { side: shown } = preview as CandlespanPreview;
      const { columns = 0, rows = 0 } = shown?.surfaces?.interreflected[0].lattice ?? {};
      return columns * rows;
    });
  const start = performance.now();
  await poll(side).toBeGreaterThan(1000);
  const caption = page.locator("candlespan-preview figcaption");
  await poll(() => caption.innerText()).toContain("direct and reflected light");
  console.log(`room in full after ${((performance.now() - start) / 1000).toFixed(1)} s more`);
  await poll(varied).toBeGreaterThan(0.02);
});

it("sets another option beside it, chosen by keyboard", async () => {
  const choice = page.getByRole("combobox", { name: /^Beside it/ });
  await choice.focus();
  await page.keyboard.press("ArrowDown");
  const label = page.locator("candlespan-preview .side.b");
  await label.waitFor();
  await poll(() => label.innerText()).toMatch(/^B .+/);
  await poll(async () =>
    (await page.locator("candlespan-preview figcaption").innerText()).replaceAll(/\s+/g, " "),
  ).toMatch(/A .+, B .+/);
  await poll(varied).toBeGreaterThan(0.02);
});

it("reads the light in the middle by keyboard", async () => {
  await page.locator("candlespan-preview canvas").focus();
  await page.keyboard.press("Enter");
  expect(await page.locator("candlespan-preview .reading").innerText()).toMatch(/(lx|fc), \d+ % direct/);
  const [read, canvas] = await Promise.all([
    page.locator("candlespan-preview .reading").boundingBox(),
    page.locator("candlespan-preview canvas").boundingBox(),
  ]);
  if (read === null || canvas === null) throw new Error("nothing read");
  // Where it was read: a quarter of the way across two pictures, and not in the corner for lack of a style.
  expect(read.x + read.width).toBeGreaterThan(canvas.x + 0.2 * canvas.width);
  expect(read.y + read.height).toBeGreaterThan(canvas.y + 0.3 * canvas.height);
  // Among others what the page's own rules against inline styles would say.
  expect(troubles).toEqual([]);
});

it("keeps the picture, its place and its light while a layer is dimmed", async () => {
  const { direct, place } = await page.evaluate(() => {
    const element = document
      .querySelector("candlespan-app")
      ?.querySelector("candlespan-preview") as CandlespanPreview;
    Object.assign(globalThis, { kept: element, keptLight: element.side?.surfaces });
    const reading = element.views[0].readingOn([2.7, 1.9, 0.92]);
    return { direct: reading?.direct ?? 0, place: JSON.stringify(element.eye) };
  });
  expect(direct).toBeGreaterThan(100);
  // "island top: 635 lx, 80 % direct …"
  const reading = page.locator("candlespan-preview .reading");
  const read = async () =>
    Number.parseFloat((await reading.allInnerTexts()).join("").replace(/^.*: /, "").replaceAll(/[\s,]/g, ""));
  const lit = await read();
  expect(lit).toBeGreaterThan(1);
  const slider = page.getByRole("slider", { name: "Dimmed to" }).first();
  await slider.focus();
  for (let i = 0; i < 2; i++) await page.keyboard.press("PageDown");
  const start = performance.now();
  // Frames from the drawings' new light to the picture's, counted in the page.
  await page.evaluate(() => {
    const app = document.querySelector("candlespan-app");
    const preview = app?.querySelector("candlespan-preview") as CandlespanPreview;
    const drawnNow = () => app?.querySelector(".light-state")?.getAttribute("data-sequence");
    const weightNow = () => preview.views[0].cache.weights[0];
    const [drawn, weight] = [drawnNow(), weightNow()];
    let frames = 0;
    const look = (): void => {
      if (drawnNow() !== drawn && weightNow() !== weight) {
        Object.assign(globalThis, { framesLate: frames });
        return;
      }
      if (drawnNow() !== drawn) frames++;
      requestAnimationFrame(look);
    };
    look();
  });
  await page.keyboard.press("PageDown");
  const frames = Number(
    await (
      await page.waitForFunction(() => {
        const { framesLate } = globalThis as unknown as { framesLate?: number };
        return framesLate === undefined ? undefined : String(framesLate);
      })
    ).jsonValue(),
  );
  console.log(`dimmed picture ${frames} frames after the drawings`);
  expect(frames).toBeLessThanOrEqual(1);
  const shown = () =>
    page.evaluate(() => {
      const element = document
        .querySelector("candlespan-app")
        ?.querySelector("candlespan-preview") as CandlespanPreview;
      const { kept, keptLight } = globalThis as unknown as { kept: Element; keptLight: unknown };
      return {
        isKept: element === kept,
        sameLight: element.side?.surfaces === keptLight,
        place: JSON.stringify(element.eye),
        direct: element.views[0].readingOn([2.7, 1.9, 0.92])?.direct ?? 0,
      };
    });
  await poll(async () => (await shown()).direct).toBeLessThan(0.95 * direct);
  console.log(`dimmed picture after ${((performance.now() - start) / 1000).toFixed(1)} s`);
  // What was read in the picture is read in its new light, in the same place.
  await poll(read).toBeLessThan(lit);
  const after = await shown();
  expect(after).toMatchObject({ isKept: true, sameLight: true, place });
  expect(troubles).toEqual([]);
});

// 2026-11-29: each return compiled the programs and lit the same scene again, some 4 s of drawing in software.
it("gives its place back to the drawings, and returns as it was", async () => {
  await page.evaluate(() => {
    const { kept } = globalThis as unknown as { kept: CandlespanPreview };
    Object.assign(globalThis, { keptRenderer: kept.renderer, keptView: kept.views[0] });
  });
  await page.getByRole("button", { name: "Drawings", exact: true }).click();
  await page.locator("candlespan-plan svg").first().waitFor();
  expect(await page.locator("candlespan-preview").count()).toBe(0);
  await page.getByRole("button", { name: "Room", exact: true }).click();
  await page.locator("candlespan-preview canvas").waitFor();
  const returned = await page.evaluate(() => {
    const preview = document.querySelector("candlespan-preview");
    const { keptRenderer, keptView } = globalThis as unknown as { keptRenderer: unknown; keptView: unknown };
    return {
      renderer: preview?.renderer === keptRenderer && keptRenderer !== undefined,
      view: preview?.views[0] === keptView && keptView !== undefined,
      lit: preview?.views[0]?.light?.surfaces !== undefined,
    };
  });
  expect(returned).toEqual({ renderer: true, view: true, lit: true });
  await poll(varied).toBeGreaterThan(0.02);
});

// 2026-11-29: the next option stood there in direct light alone, white tops under a black ceiling, with a client before it.
it("shows no picture of an option until its light is there", async () => {
  await page.getByRole("button", { name: "Lights" }).first().click();
  await page.evaluate(() => {
    const seen = { bare: 0 };
    Object.assign(globalThis, { seen });
    const look = (): void => {
      const preview = document.querySelector("candlespan-preview");
      const stage = preview?.shadowRoot?.querySelector(".stage");
      if (preview?.side !== undefined && preview.side.surfaces === undefined && stage)
        if (getComputedStyle(stage).visibility === "visible") seen.bare++;
      requestAnimationFrame(look);
    };
    look();
  });
  await page.getByRole("button", { name: /^C three opal globes/ }).click();
  await poll(() =>
    page.evaluate(() => {
      const side = document.querySelector("candlespan-preview")?.side;
      return side?.surfaces !== undefined && side.scene.name;
    }),
  ).toBe("three opal globes");
  expect(await page.evaluate(() => (globalThis as unknown as { seen: object }).seen)).toEqual({ bare: 0 });
  await poll(varied).toBeGreaterThan(0.02);
  expect(troubles).toEqual([]);
});
