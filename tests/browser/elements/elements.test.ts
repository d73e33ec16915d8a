/** The elements in a real browser: accessibility first, then names, fields, the drawn plan, the hand. */
import axe from "axe-core";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { LuminaireMoveDetail } from "../../../src/elements/shared/contract.ts";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../../support/browser.ts";
import { type ElementPages, serveElementPages } from "../../support/element-page.ts";
import { poll } from "../../support/viewer.ts";
import type { TextOverlaps } from "./text-overlaps.ts";

let browser: TestBrowser;
let pages: ElementPages;
let page: Page;

beforeAll(async () => {
  [browser, pages] = await Promise.all([openBrowser(PAINTED_BY_PROCESSOR), serveElementPages()]);
  page = await browser.newPage({ viewport: { width: 1024, height: 1600 } });
  page.on("pageerror", (error) => console.error(`page: ${error.message}`));
});
afterAll(() => browser?.close());

async function open(query = ""): Promise<void> {
  await page.goto(pages.url(`page.html?${query}`));
  await page.locator("candlespan-plan text.iso").first().waitFor();
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
      resultTypes: ["violations"],
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
    "candlespan-findings",
    "candlespan-length-field",
    "candlespan-luminaire-picker",
    "candlespan-shade",
    "candlespan-light-table",
    "candlespan-luminaire-table",
    "candlespan-study-fields",
    "candlespan-study-fields:people",
    "candlespan-study-fields:zones",
  ];
  for (const mode of ["day", "evening"]) {
    it(`has no violations by ${mode}`, async () => {
      await page.goto(pages.url(`page.html?mode=${mode}&element=${elements.join(",")}`));
      await page.locator("candlespan-comparison .option candlespan-plan text.iso").first().waitFor();
      const empty = await page
        .locator("#stage > *")
        .evaluateAll((all) =>
          all.filter((e) => e.shadowRoot?.childElementCount === 0).map((e) => e.localName),
        );
      expect(empty).toEqual([]);
      expect(await violations()).toEqual([]);
    });
  }
});

describe("hostile names", () => {
  it("are words in every drawing, never markup", async () => {
    const name = encodeURIComponent(`"><img src=x onerror="globalThis.struck=1"><b>${"x".repeat(60)}`);
    const tags = [
      "candlespan-sheet",
      "candlespan-figures",
      "candlespan-comparison",
      "candlespan-luminaire-table",
    ];
    await page.goto(pages.url(`page.html?element=${tags.join(",")}&name=${name}`));
    await page.locator("candlespan-comparison .option candlespan-plan text.iso").first().waitFor();
    expect(await page.evaluate(() => (globalThis as unknown as { struck?: number }).struck)).toBeUndefined();
    expect(await page.locator("#stage img, #stage b").count()).toBe(0);
    expect(await page.locator("candlespan-figures h3").first().textContent()).toContain("<img");
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

  it("replace nothing under the focus, and show the newest value when they are left", async () => {
    await page.goto(pages.url("page.html?element=candlespan-length-field"));
    const field = page.locator("candlespan-length-field input");
    const given = (value: number) =>
      page.locator("candlespan-length-field").evaluate(async (element, metres) => {
        Object.assign(element, { value: metres });
        await (element as HTMLElement & { updateComplete: Promise<boolean> }).updateComplete;
      }, value);
    await field.focus();
    await given(0.9);
    expect(await field.inputValue()).toBe("850 mm");
    await field.blur();
    await poll(() => field.inputValue()).toBe("900 mm");
    const edits = await page.evaluate(() => (globalThis as unknown as { edits: unknown[] }).edits);
    expect(edits).toEqual([]);
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

it("lays no text of the sheet over another, read from the page", async () => {
  for (const width of [1440, 900, 390]) {
    await page.setViewportSize({ width, height: 900 });
    await open();
    const found = await page.evaluate(() => {
      const drawings = ["candlespan-elevation", "candlespan-plan", "candlespan-profile"];
      const sheet = document.querySelector("candlespan-sheet")?.shadowRoot;
      return drawings.flatMap((tag) => {
        const texts = [...(sheet?.querySelector(tag)?.shadowRoot?.querySelectorAll("text") ?? [])]
          .filter(
            (text) => text.textContent !== "" && !(text.getAttribute("transform") ?? "").includes("rotate"),
          )
          .map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
        return texts.flatMap((a, i) =>
          texts
            .slice(i + 1)
            .filter(
              (b) =>
                a.box.left < b.box.right - 1 &&
                b.box.left < a.box.right - 1 &&
                // The box of a text is its line's, higher than its letters.
                a.box.top + 3 < b.box.bottom - 3 &&
                b.box.top + 3 < a.box.bottom - 3,
            )
            .map((b) => `${tag}: ${a.words} | ${b.words}`),
        );
      });
    });
    expect(found, `${width} px`).toEqual([]);
  }
  await page.setViewportSize({ width: 1024, height: 1600 });
});

it("lays no text over another in forty random kitchens, read from the page", async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await open();
  await page.addScriptTag({ type: "module", url: pages.url("text-overlaps.ts") });
  await page.waitForFunction(() => "textOverlaps" in globalThis);
  const { texts, turned, overlaps } = await page.evaluate(() =>
    (globalThis as unknown as { textOverlaps(kitchens: number): Promise<TextOverlaps> }).textOverlaps(40),
  );
  console.log(
    `${texts} texts of 40 kitchens read from the page, ${turned} of them turned: ${overlaps.length} overlaps`,
  );
  expect(texts).toBeGreaterThan(1000);
  expect(turned).toBeGreaterThan(100);
  expect(overlaps).toEqual([]);
  await page.setViewportSize({ width: 1024, height: 1600 });
});

describe("the hand", () => {
  beforeEach(() => open());

  it("moves a focused pendant by arrow keys, finely with Shift", async () => {
    await page.locator("candlespan-plan [data-luminaire='0 1']").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowUp");
    await poll(async () => (await moves()).length).toBe(2);
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

  it("loses no key pressed while the script that moves is still on its way", async () => {
    await page.route(/move-detail/, async (route) => {
      await page.waitForFunction(() => "pressed" in globalThis);
      await route.continue();
    });
    await open();
    await page.locator("candlespan-plan [data-luminaire='0 1']").focus();
    for (const key of ["ArrowRight", "ArrowRight", "ArrowUp"]) await page.keyboard.press(key);
    expect(await moves()).toEqual([]);
    await page.evaluate(() => Object.assign(globalThis, { pressed: true }));
    await poll(async () => (await moves()).length).toBe(3);
    const [first, second, third] = await moves();
    expect(second.from).toEqual(first.position);
    expect(third.from).toEqual(second.position);
    expect(third.position[0] - first.from[0]).toBeCloseTo(0.05, 9);
    await page.unroute(/move-detail/);
  });

  it("drags in each of the three drawings, and Escape takes it back", async () => {
    for (const [tag, dx, dy] of [
      ["candlespan-plan", 37, 21],
      ["candlespan-elevation", 31, -23],
      ["candlespan-profile", 33, 0],
    ] as const) {
      if (tag !== "candlespan-plan") await open();
      const grip = await page.locator(`${tag} [data-luminaire='0 0'] .grip`).boundingBox();
      if (grip === null) throw new Error(`${tag} shows no grip`);
      const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (const k of [0.5, 1]) await page.mouse.move(x + dx * k, y + dy * k);
      await poll(async () => (await moves()).length).toBe(2);
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

  it("is one stop of Tab a drawing; Page Down goes on to the next luminaire", async () => {
    for (const tag of ["candlespan-elevation", "candlespan-plan", "candlespan-profile"])
      expect(await page.locator(`${tag} [tabindex='0']`).count(), tag).toBe(1);
    await page.locator("candlespan-plan [data-luminaire='0 0']").focus();
    await page.keyboard.press("PageDown");
    const focused = page.locator("candlespan-plan [data-luminaire]:focus");
    expect(await focused.getAttribute("data-luminaire")).toBe("0 1");
    expect(await focused.getAttribute("tabindex")).toBe("0");
    expect(await page.locator("candlespan-plan [tabindex='0']").count()).toBe(1);
    await page.keyboard.press("Home");
    expect(await page.locator("candlespan-plan .field:focus").count()).toBe(1);
  });

  it("moves everything selected together", async () => {
    await page.locator("candlespan-plan [data-luminaire='0 0']").click();
    await page.locator("candlespan-elevation [data-luminaire='0 2']").click({ modifiers: ["Shift"] });
    await page.locator("candlespan-plan [data-luminaire='0 0']").focus();
    await page.keyboard.press("ArrowLeft");
    await poll(async () => (await moves()).length).toBe(1);
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
