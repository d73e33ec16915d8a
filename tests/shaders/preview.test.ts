/** The preview in a real browser: accessible, of bounded memory, back after a loss, its files valid. */
import axe from "axe-core";
import validator from "gltf-validator";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CandlespanPreview } from "../../src/preview/preview.ts";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../support/browser.ts";
import { type ElementPages, serveElementPages } from "../support/element-page.ts";
import { poll } from "../support/viewer.ts";

interface Stage {
  readonly element: CandlespanPreview;
  readonly sideOf: (index: number) => CandlespanPreview["side"];
  readonly still: () => Promise<void>;
  readonly glb: (index: number) => Promise<number[]>;
}

let browser: TestBrowser;
let pages: ElementPages;
let page: Page;

beforeAll(async () => {
  [browser, pages] = await Promise.all([openBrowser(PAINTED_BY_PROCESSOR), serveElementPages()]);
  page = await browser.newPage({ viewport: { width: 640, height: 560 } });
  page.on("pageerror", (error) => console.error(`page: ${error.message}`));
  await page.addInitScript(watchLinks);
  await page.goto(pages.url("../../shaders/preview.html"));
  await page.locator("html[data-ready]").waitFor({ state: "attached" });
});
afterAll(() => browser?.close());

/** Counts programs that were given to be linked before anything was asked of one, and after: whoever asks waits, and what
 * was given before is linked meanwhile. */
function watchLinks(): void {
  const COMPLETION_STATUS = 0x91b1;
  const links = { before: 0, after: 0 };
  let isAsked = false;
  const { prototype } = WebGL2RenderingContext;
  const { getProgramParameter, linkProgram } = prototype;
  prototype.linkProgram = function (program) {
    linkProgram.call(this, program);
    links[isAsked ? "after" : "before"]++;
  };
  prototype.getProgramParameter = function (program, name) {
    isAsked ||= name !== COMPLETION_STATUS;
    return getProgramParameter.call(this, program, name);
  };
  Object.assign(globalThis, { links });
}

describe("the preview", () => {
  it("has its programs linked at once before it draws with any", async () => {
    const { before, after } = await page.evaluate(async () => {
      const { element, links } = globalThis as unknown as Stage & {
        links: { before: number; after: number };
      };
      while (element.views[0].light === undefined) await new Promise(requestAnimationFrame);
      for (let i = 0; i < 3; i++) await new Promise(requestAnimationFrame);
      return links;
    });
    console.log(`${before} programs linked at once, ${after} one by one`);
    expect(after).toBe(0);
    expect(before).toBeGreaterThan(5);
  });

  it("has no violations of accessibility", async () => {
    await page.evaluate(axe.source);
    const found = await page.evaluate(() =>
      (globalThis as unknown as { axe: typeof axe }).axe.run(document, {
        resultTypes: ["violations"],
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
      }),
    );
    expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  });

  it("reads the light it shows, direct and interreflected", async () => {
    const reading = await page.evaluate(async () => {
      const { element } = globalThis as unknown as Stage;
      while (element.views[0].light === undefined) await new Promise(requestAnimationFrame);
      return element.views[0].readingOn([2.7, 1.9, 0.92]);
    });
    expect(reading?.surface).toBe("island");
    expect(reading?.direct).toBeGreaterThan(100);
    expect(reading?.interreflected).toBeGreaterThan(5);
  });

  it("is turned and walked by keys", async () => {
    const canvas = page.locator("candlespan-preview canvas");
    await canvas.focus();
    const eye = () =>
      page.evaluate(async () => {
        const { element } = globalThis as unknown as Stage;
        return JSON.stringify(element.eye);
      });
    const before = await eye();
    await page.keyboard.press("ArrowLeft");
    const turned = await eye();
    await page.keyboard.press("Shift+ArrowUp");
    const walked = await eye();
    expect(await page.locator("figcaption").innerText()).toContain("free viewpoint");
    await page.keyboard.press("Home");
    await page.locator("figcaption").getByText("· Entrance ·").waitFor();
    expect(new Set([before, turned, walked]).size).toBe(3);
    expect(await eye()).toBe(before);
  });

  it("says in the same breath which viewpoint was chosen", async () => {
    const words = await page.evaluate(async () => {
      const { element } = globalThis as unknown as Stage;
      element.viewpoint = "sofa";
      await element.updateComplete;
      const said = element.shadowRoot?.querySelector("figcaption")?.textContent ?? "";
      element.viewpoint = "entrance";
      await element.updateComplete;
      return said;
    });
    expect(words).toContain("Across the room");
  });

  it("shows the scale of what the lux look draws", async () => {
    await page.getByRole("button", { name: "Lux" }).click();
    await page.locator("candlespan-preview candlespan-scale").waitFor();
    await page.getByRole("button", { name: "Appearance" }).click();
    await page.locator("candlespan-preview candlespan-scale").waitFor({ state: "detached" });
  });

  it("draws every pixel of a dense screen", async () => {
    const drawn = () =>
      page.evaluate(() => {
        const canvas = document.querySelector("candlespan-preview")?.shadowRoot?.querySelector("canvas");
        return (canvas?.width ?? 0) / (canvas?.clientWidth ?? 1);
      });
    const session = await page.context().newCDPSession(page);
    const screen = { width: 640, height: 560, mobile: false };
    for (const density of [2, 1]) {
      await session.send("Emulation.setDeviceMetricsOverride", { ...screen, deviceScaleFactor: density });
      await poll(drawn).toBe(density);
    }
    await session.detach();
  });

  it("gives back its memory: 50 switches of option leave what one leaves", async () => {
    const memory = await page.evaluate(async () => {
      const { element, sideOf, still } = globalThis as unknown as Stage;
      element.people = false;
      const sides = [sideOf(0), sideOf(1)];
      const count = async (turns: number) => {
        for (let i = 0; i < turns; i++) {
          element.side = sides[i % 2];
          await element.updateComplete;
        }
        element.side = sides[0];
        await element.updateComplete;
        await still();
        const { geometries, textures } = element.renderer?.info.memory ?? { geometries: -1, textures: -1 };
        return { geometries, textures, programs: element.renderer?.info.programs?.length };
      };
      const first = await count(2);
      const last = await count(50);
      return { first, last };
    });
    console.log("after 1 and 50 switches", JSON.stringify(memory));
    expect(memory.last).toEqual(memory.first);
    expect(memory.first.geometries).toBeGreaterThan(3);
  });

  it("returns after the graphics processor was lost", async () => {
    const shown = await page.evaluate(async () => {
      const { element } = globalThis as unknown as Stage;
      const gl = element.renderer?.getContext() as WebGL2RenderingContext;
      const extension = gl.getExtension("WEBGL_lose_context");
      const pixel = () => {
        const out = new Uint8Array(4);
        gl.readPixels(
          gl.drawingBufferWidth >> 1,
          gl.drawingBufferHeight >> 2,
          1,
          1,
          gl.RGBA,
          gl.UNSIGNED_BYTE,
          out,
        );
        return out[0];
      };
      extension?.loseContext();
      while (!gl.isContextLost()) await new Promise((done) => setTimeout(done, 50));
      const lost = gl.isContextLost();
      // It can be restored only once the page has been told of the loss.
      while (gl.isContextLost()) {
        extension?.restoreContext();
        await new Promise((done) => setTimeout(done, 50));
      }
      while (pixel() <= 20) await new Promise((done) => setTimeout(done, 50));
      return { lost, back: !gl.isContextLost(), pixel: pixel() };
    });
    expect(shown.lost).toBe(true);
    expect(shown.back).toBe(true);
    expect(shown.pixel).toBeGreaterThan(20);
  });

  it("makes a picture with its exposure under it", async () => {
    // Known once the light is drawn again after the loss.
    await poll(() => page.locator("figcaption").innerText()).toContain("exposure value");
    const bytes = await page.evaluate(async () => {
      const { element } = globalThis as unknown as Stage;
      return [...new Uint8Array(await (await element.picture()).arrayBuffer())];
    });
    expect(bytes.slice(1, 4)).toEqual([80, 78, 71]);
  });

  it("makes a valid GLB: metres, y up, named nodes, lights in candela", async () => {
    const bytes = Uint8Array.from(await page.evaluate(() => (globalThis as unknown as Stage).glb(0)));
    const report = await validator.validateBytes(bytes, { maxIssues: 50 });
    const issues = report.issues.messages.filter(({ severity }) => severity < 2);
    expect(issues.map(({ code, message, pointer }) => `${code} ${message} ${pointer}`)).toEqual([]);
    const length = new DataView(bytes.buffer).getUint32(12, true);
    const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length)));
    expect(json.extensionsUsed).toContain("KHR_lights_punctual");
    expect(json.extensionsUsed).toContain("EXT_lights_ies");
    const names: string[] = json.nodes.map(({ name }: { name?: string }) => name);
    expect(names).toContain("pendants 1 light");
    expect(json.extensions.KHR_lights_punctual.lights.length).toBe(11);
    console.log(
      `GLB ${bytes.length} bytes, ${json.nodes.length} nodes, ${report.info.totalTriangleCount} triangles`,
    );
  });
});

// Neither at all, nor with targets too coarse for lux.
describe.each(["no WebGL 2", "no float targets"])("with %s", (lacking) => {
  it("says so and shows what stands in", async () => {
    const plain = await browser.newPage();
    if (lacking === "no float targets")
      await plain.addInitScript(() => {
        WebGL2RenderingContext.prototype.getExtension = () => null;
      });
    else
      await plain.addInitScript(() => {
        const get = HTMLCanvasElement.prototype.getContext;
        HTMLCanvasElement.prototype.getContext = function (
          this: HTMLCanvasElement,
          kind: string,
          ...rest: unknown[]
        ) {
          return kind === "webgl2" ? null : (get as (...all: unknown[]) => unknown).call(this, kind, ...rest);
        } as never;
      });
    await plain.goto(pages.url("../../shaders/preview.html?people=no&light=no"));
    await plain.getByText("This browser has no WebGL 2").waitFor();
    expect(await plain.getByText("The plan stands here.").isVisible()).toBe(true);
    expect(await plain.locator("canvas").count()).toBe(0);
    await plain.close();
  });
});
