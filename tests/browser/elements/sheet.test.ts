/** The sheet in a real browser: accessibility first, then the hand, then the time a frame takes. */
import axe from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { LuminaireMoveDetail } from "../../../src/presentation/elements/shared/contract.ts";
import { launchBrowser } from "../../support/browser.ts";
import { type ElementPages, serveElementPages } from "../../support/element-page.ts";

let browser: Browser;
let pages: ElementPages;
let page: Page;

beforeAll(async () => {
  [browser, pages] = await Promise.all([launchBrowser(), serveElementPages()]);
  page = await browser.newPage({ viewport: { width: 1024, height: 1600 } });
  page.setDefaultTimeout(15_000);
  page.on("pageerror", (error) => console.error(`page: ${error.message}`));
});
afterAll(async () => {
  await browser?.close();
  await pages?.close();
});

async function open(query = ""): Promise<void> {
  await page.goto(pages.url(`page.html?${query}`));
  await page.locator("candlespan-plan text.iso").first().waitFor({ timeout: 15_000 });
}

/** The SVG a reader sees, without the marks the template library leaves for itself. */
async function drawn(selector: string): Promise<string> {
  const markup = await page.locator(selector).evaluate((element) => element.outerHTML);
  return `${markup
    .replaceAll(/<!--.*?-->/g, "")
    .replaceAll(/>\s*</g, ">\n<")
    .replaceAll(/\s+/g, (space) => (space.includes("\n") ? "\n" : " "))}\n`;
}

async function violations(): Promise<string[]> {
  await page.evaluate(axe.source);
  const found = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof axe }).axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
      rules: { "page-has-heading-one": { enabled: false }, region: { enabled: false } },
    }),
  );
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(" | ")}`);
}

const moves = (): Promise<LuminaireMoveDetail[]> =>
  page.evaluate(() => (globalThis as unknown as { moves: LuminaireMoveDetail[] }).moves);

describe("accessibility", () => {
  for (const mode of ["day", "evening"]) {
    it(`has no violations by ${mode}`, async () => {
      await open(`mode=${mode}`);
      expect(await violations()).toEqual([]);
    });
  }

  it("reflows at 320 px without sideways scrolling", async () => {
    await page.setViewportSize({ width: 320, height: 800 });
    await open();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await violations()).toEqual([]);
    await page.setViewportSize({ width: 1024, height: 1600 });
  });

  it("gives every luminaire a target of at least 24 px", async () => {
    await open();
    const sizes = await page
      .locator("candlespan-plan .grip, candlespan-elevation .grip, candlespan-profile .grip")
      .evaluateAll((grips) =>
        grips.map((g) => g.getBoundingClientRect()).map((b) => Math.min(b.width, b.height)),
      );
    expect(sizes.length).toBeGreaterThanOrEqual(9);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(23.9);
  });
});

describe("every other element", () => {
  const elements = [
    "candlespan-section",
    "candlespan-figures",
    "candlespan-comparison",
    "candlespan-polar",
    "candlespan-guideline-cards",
    "candlespan-length-field",
    "candlespan-luminaire-picker",
    "candlespan-shade",
    "candlespan-light-table",
    "candlespan-luminaire-table",
    "candlespan-study-fields",
    "candlespan-study-fields&about=people",
    "candlespan-study-fields&about=zones",
  ];
  for (const mode of ["day", "evening"]) {
    it(`has no violations by ${mode}`, async () => {
      const found: string[] = [];
      for (const element of elements) {
        await page.goto(pages.url(`page.html?mode=${mode}&element=${element}`));
        const tag = element.split("&")[0];
        await page.waitForFunction(
          (t) => (document.querySelector(t)?.shadowRoot?.childElementCount ?? 0) > 0,
          tag,
        );
        found.push(...(await violations()).map((v) => `${element}: ${v}`));
      }
      expect(found).toEqual([]);
    });
  }
});

describe("hostile names", () => {
  it("are words in every drawing, never markup", async () => {
    const name = encodeURIComponent(`"><img src=x onerror="globalThis.struck=1"><b>${"x".repeat(60)}`);
    for (const tag of [
      "candlespan-sheet",
      "candlespan-figures",
      "candlespan-comparison",
      "candlespan-luminaire-table",
    ]) {
      await page.goto(pages.url(`page.html?element=${tag}&name=${name}`));
      await page.waitForFunction(
        (t) => (document.querySelector(t)?.shadowRoot?.childElementCount ?? 0) > 0,
        tag,
      );
      expect(
        await page.evaluate(() => (globalThis as unknown as { struck?: number }).struck),
      ).toBeUndefined();
      expect(await page.locator(`${tag} img, ${tag} b`).count()).toBe(0);
    }
  });
});

describe("fields", () => {
  it("say what they read, refuse in place, and let Escape take it back", async () => {
    await page.goto(pages.url("page.html?element=candlespan-length-field"));
    const field = page.locator("candlespan-length-field input");
    await field.fill("36 in");
    expect(await page.locator("candlespan-length-field .note").textContent()).toContain("914 mm");
    await field.press("Enter");
    await field.fill("tall");
    await field.press("Enter");
    expect(await field.getAttribute("aria-invalid")).toBe("true");
    expect(await page.locator("candlespan-length-field .note").textContent()).toMatch(/Expected/);
    await field.press("Escape");
    expect(await field.inputValue()).toBe("914 mm");
    const edits = await page.evaluate(() => (globalThis as unknown as { edits: { value: number }[] }).edits);
    expect(edits.map((e) => e.value)).toEqual([36 * 0.0254]);
  });

  it("name the edit and where it stands", async () => {
    await page.goto(pages.url("page.html?element=candlespan-study-fields"));
    const height = page.locator("candlespan-length-field", { hasText: "Ceiling height" }).locator("input");
    await height.fill("2.55 m");
    await height.press("Enter");
    const edits = await page.evaluate(() => (globalThis as unknown as { edits: unknown[] }).edits);
    expect(edits).toEqual([
      { path: "/room/ceilingHeight", value: 2.55, name: "room, ceiling height 2550 mm" },
    ]);
  });
});

it("draws the plan as it was looked at and approved", async () => {
  await page.setViewportSize({ width: 900, height: 1600 });
  await open();
  await expect(await drawn("candlespan-plan svg")).toMatchFileSnapshot("./plan.svg");
  await page.setViewportSize({ width: 1024, height: 1600 });
});

describe("the hand", () => {
  beforeEach(() => open());

  it("moves a focused pendant by arrow keys, finely with Shift", async () => {
    await page.locator("candlespan-plan [data-luminaire='0 1']").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowUp");
    const [first, second] = await moves();
    expect(first).toMatchObject({
      layer: 0,
      index: 1,
      phase: "commit",
      by: "keyboard",
      name: "move pendants 2",
    });
    expect(first.position[0] - first.from[0]).toBeCloseTo(0.025, 9);
    expect(second.position[1] - second.from[1]).toBeCloseTo(0.005, 9);
    expect(second.from[0]).toBeCloseTo(first.position[0], 9);
  });

  it("drags in each of the three drawings, and Escape takes it back", async () => {
    for (const [tag, dx, dy] of [
      ["candlespan-plan", 37, 21],
      ["candlespan-elevation", 31, -23],
      ["candlespan-profile", 33, 0],
    ] as const) {
      await open();
      const grip = await page.locator(`${tag} [data-luminaire='0 0'] .grip`).boundingBox();
      if (grip === null) throw new Error(`${tag} shows no grip`);
      const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let k = 1; k <= 4; k++) await page.mouse.move(x + (dx * k) / 4, y + (dy * k) / 4);
      const dragged = (await moves()).at(-1) as LuminaireMoveDetail;
      expect(dragged.phase).toBe("drag");
      expect(Math.hypot(...dragged.position.map((p, i) => p - dragged.from[i]))).toBeGreaterThan(0.05);
      await page.keyboard.press("Escape");
      const taken = (await moves()).at(-1) as LuminaireMoveDetail;
      expect(taken.phase).toBe("cancel");
      expect(taken.position).toEqual(taken.from);
      await page.mouse.up();
      expect((await moves()).at(-1)?.phase).toBe("cancel");
    }
  });

  it("moves everything selected together", async () => {
    await page.locator("candlespan-plan [data-luminaire='0 0']").click();
    await page.locator("candlespan-elevation [data-luminaire='0 2']").click({ modifiers: ["Shift"] });
    await page.locator("candlespan-plan [data-luminaire='0 0']").focus();
    await page.keyboard.press("ArrowLeft");
    const last = (await moves()).at(-1) as LuminaireMoveDetail;
    expect(last.moves.map((m) => m.index).sort()).toEqual([0, 2]);
    expect(last.name).toBe("move 2 luminaires");
  });

  it("reads the light by keyboard, the same in all three", async () => {
    await page.locator("candlespan-plan .field").focus();
    await page.keyboard.press("ArrowRight");
    const words = await page.locator("candlespan-plan .field").getAttribute("aria-valuetext");
    expect(words).toMatch(/^\d+ lx at 1250 mm along, 550 mm across$/);
    for (const tag of ["candlespan-elevation", "candlespan-plan", "candlespan-profile"])
      expect(await page.locator(`${tag} path.pointer`).count(), tag).toBe(1);
  });
});

it("keeps up with a hand at 60 Hz", async () => {
  await open();
  const times = await page.evaluate(async () => {
    const { sheet } = globalThis as unknown as { sheet: HTMLElementTagNameMap["candlespan-sheet"] };
    const plan = sheet.shadowRoot?.querySelector(
      "candlespan-plan",
    ) as HTMLElementTagNameMap["candlespan-plan"];
    const taken: number[] = [];
    const grip = plan.shadowRoot?.querySelector("[data-luminaire='0 1']") as SVGElement;
    const box = grip.getBoundingClientRect();
    const send = (type: string, dx: number): void => {
      const x = box.x + box.width / 2 + dx;
      const y = box.y + box.height / 2;
      const init = {
        bubbles: true,
        composed: true,
        pointerId: 1,
        button: 0,
        clientX: x,
        clientY: y,
        pointerType: "mouse",
      };
      grip.dispatchEvent(new PointerEvent(type, { ...init, altKey: true }));
    };
    send("pointerdown", 0);
    for (let k = 1; k <= 36; k++) {
      const start = performance.now();
      send("pointermove", 5 + k);
      await sheet.updateComplete;
      await plan.updateComplete;
      // Layout and paint are the browser's; reading a box forces the layout part.
      plan.getBoundingClientRect();
      taken.push(performance.now() - start);
      await new Promise(requestAnimationFrame);
    }
    send("pointerup", 65);
    return taken.slice(5).sort((a, b) => a - b);
  });
  const median = times[Math.floor(times.length / 2)];
  console.log(
    `drag frame, light and three drawings: median ${median.toFixed(1)} ms, 95 % ${times[Math.floor(times.length * 0.95)].toFixed(1)} ms`,
  );
  // No assertion on time: machines differ. That every frame arrived is what a test can hold.
  expect(times.length).toBe(31);
});
