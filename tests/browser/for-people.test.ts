/** For people: no accessibility violation in any place and mode, no sideways scrolling at 320 px, keyboard alone,
 * touch, and colours the reader's system forces. */
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { wordContrasts } from "../support/page-contrast.ts";
import { bringAxe, lastingFaults, violationsNow } from "../support/page-violations.ts";
import {
  enter,
  kept,
  type OpenPage,
  openPage,
  poll,
  refined,
  startAfresh,
  studyOf,
} from "../support/viewer.ts";

let viewer: OpenPage;
let context: BrowserContext;
let page: Page;
let troubles: string[];
let example: unknown;

beforeAll(async () => {
  viewer = await openPage({ isDirect: true, hasTouch: true });
  ({ page, troubles, example, context } = viewer);
  await bringAxe(page);
});
afterAll(() => viewer.close());
beforeEach(async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.emulateMedia({ colorScheme: "light", forcedColors: "none" });
  await startAfresh(page, example);
});
afterEach(() => {
  expect(troubles.splice(0)).toEqual([]);
});

/** Of the page at rest, unless it is asked for while its light is refined. Contrast of words in drawings is calculated by
 * tests/drawing/contrast.test.ts. */
async function violations({ isAtRest = true, hasSystemColours = false } = {}): Promise<string[]> {
  if (isAtRest) await refined(page);
  return lastingFaults(async (hasPlaces) => [
    ...(await violationsNow(page, hasPlaces)),
    ...(hasSystemColours ? [] : await faintWords()),
  ]);
}

/** The least contrast there was beside what is asked, by the words that have it, and how many words were judged. */
const faintest = { words: "", ratio: Number.POSITIVE_INFINITY, asked: 1 };
let judged = 0;

async function faintWords(): Promise<string[]> {
  const all = await wordContrasts(page);
  judged += all.length;
  const [least] = all;
  if (least.ratio / least.asked < faintest.ratio / faintest.asked) Object.assign(faintest, least);
  return all
    .filter(({ ratio, asked }) => ratio < asked)
    .map(({ words, ratio, asked }) => `contrast ${ratio.toFixed(2)} of ${asked}: ${words}`);
}

const places = (): Promise<string[]> => page.locator("nav button:not(.height)").allInnerTexts();

for (const [width, height, colorScheme] of [
  [1440, 900, "light"],
  [1440, 900, "dark"],
  [390, 844, "light"],
  [390, 844, "dark"],
] as const) {
  it(`has no violation in any place at ${width} px, ${colorScheme}`, async () => {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme });
    const found: Record<string, string[]> = {};
    await page.getByRole("button", { name: "Floor plan", exact: true }).click();
    await page.locator("candlespan-floor-plan svg").waitFor();
    const onPlan = await violations();
    if (onPlan.length > 0) found["Floor plan"] = onPlan;
    await page.getByRole("button", { name: "Drawings", exact: true }).click();
    for (const place of await places()) {
      await enter(page, place);
      if (place === "Compare") await poll(() => page.locator("candlespan-comparison h2").count()).toBe(5);
      const broken = await violations();
      if (broken.length > 0) found[place] = broken;
    }
    await page.getByRole("button", { name: "Study", exact: true }).click();
    await page.locator("dialog[open]").waitFor();
    const broken = await violations();
    if (broken.length > 0) found.Study = broken;
    await page.getByRole("dialog").getByRole("button", { name: "Start my own kitchen" }).click();
    await page.locator("dialog.start[open]").waitFor();
    const inStart = await violations();
    if (inStart.length > 0) found["Start my own kitchen"] = inStart;
    await page.locator("dialog.start").getByRole("button", { name: "Close" }).click();
    console.log(
      `${judged} words, the faintest ${faintest.ratio.toFixed(2)} of ${faintest.asked}: ${faintest.words}`,
    );
    expect(judged).toBeGreaterThan(500);
    expect(found).toEqual({});
  });
}

it("has no violation while light is being refined", async () => {
  for (const clearance of ["800 mm", "810 mm"]) {
    await page.getByLabel("Clearance").fill(clearance);
    await page.getByLabel("Clearance").press("Enter");
    expect(await violations({ isAtRest: false })).toEqual([]);
  }
});

it("makes every drawing one stop of Tab", async () => {
  const stops: string[] = [];
  // Tab goes on from where the page was last pressed.
  await page.mouse.click(2, 2);
  for (let i = 0; i < 30; i++) {
    await page.keyboard.press("Tab");
    const drawing = await page.evaluate(() => {
      let at: Element | null = document.activeElement;
      let host = "";
      while (at?.shadowRoot?.activeElement) {
        host = at.shadowRoot.activeElement instanceof SVGElement ? at.tagName.toLowerCase() : host;
        at = at.shadowRoot.activeElement;
      }
      return at instanceof SVGElement ? host : "";
    });
    if (drawing !== "") stops.push(drawing);
  }
  expect(stops).toEqual(["candlespan-elevation", "candlespan-plan", "candlespan-profile"]);
});

it("reflows at 320 px, in every place, without scrolling sideways", async () => {
  await page.setViewportSize({ width: 320, height: 640 });
  for (const place of await places()) {
    await enter(page, place);
    const over = () =>
      page.evaluate(() => {
        const panes = [document.documentElement, ...document.querySelectorAll(".sheet, .controls")];
        return Math.max(...panes.map((pane) => pane.scrollWidth - pane.clientWidth));
      });
    // Drawings follow the new width a frame later.
    await poll(over).toBeLessThanOrEqual(0);
  }
});

it("keeps plan and controls in view on a phone on its side and at 200 %", async () => {
  for (const [width, height] of [
    [844, 390],
    [720, 450],
  ]) {
    await page.setViewportSize({ width, height });
    await enter(page, "Kitchen");
    for (const part of [page.locator("candlespan-plan"), page.getByLabel("Length", { exact: true }).first()])
      await poll(async () => {
        const box = await part.boundingBox();
        return box === null ? 0 : Math.min(height, box.y + box.height) - Math.max(0, box.y);
      }).toBeGreaterThan(25);
  }
});

// 2026-11-29: an open verdict, what would settle it and a row a zone left the plan a few lines of its height.
it("shows the plan right under the headline of an open verdict on a phone on its side, the rows under the plan", async () => {
  await page.setViewportSize({ width: 844, height: 390 });
  const open = structuredClone(example) as { targets: Record<string, { illuminance: number }> };
  open.targets["prep, even"].illuminance = 625;
  await startAfresh(page, open);
  await refined(page);
  await page.locator("candlespan-sheet .verdict h2.close").waitFor();
  const boxOf = async (part: string) => {
    const box = await page.locator(`candlespan-sheet ${part}`).boundingBox();
    if (box === null) throw new Error(`${part} is not drawn`);
    return box;
  };
  const plan = await boxOf("candlespan-plan");
  console.log(`of the plan ${Math.round(390 - plan.y)} px of 390 under an open verdict`);
  expect(390 - plan.y).toBeGreaterThan(180);
  expect((await boxOf(".verdict ul")).y).toBeGreaterThanOrEqual(plan.y + plan.height - 1);
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/open-side.png` });
});

// 2026-11-28: its lower half was below the window, under a verdict of four lines.
it("shows the picture of the room whole on a phone on its side", async () => {
  await page.setViewportSize({ width: 844, height: 390 });
  await page.getByRole("button", { name: "Room", exact: true }).click();
  const stage = page.locator("candlespan-preview .stage");
  await poll(async () => {
    const box = await stage.boundingBox();
    const header = await page.locator("header").boundingBox();
    const footer = await page.locator("footer").boundingBox();
    if (box === null || header === null || footer === null) return Number.NaN;
    return Math.max(header.y + header.height - box.y, box.y + box.height - footer.y);
  }).toBeLessThanOrEqual(2);
  // The figures under it lay over its caption.
  await page.getByRole("button", { name: "Figures", exact: true }).click();
  const caption = page.locator("candlespan-preview figcaption");
  await poll(async () => {
    const [above, below] = [
      await caption.boundingBox(),
      await page.locator("candlespan-figures").boundingBox(),
    ];
    return above === null || below === null ? Number.NaN : above.y + above.height - below.y;
  }).toBeLessThanOrEqual(0);
  await page.getByRole("button", { name: "Figures", exact: true }).click();
  await page.getByRole("button", { name: "Drawings", exact: true }).click();
});

it("keeps the controls off the plan on a phone", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await poll(async () => {
    const plan = await page.locator("candlespan-plan").boundingBox();
    const side = await page.locator(".side").boundingBox();
    return plan === null || side === null ? Number.NaN : plan.y + plan.height - side.y;
  }).toBeLessThanOrEqual(1);
});

// 2026-11-28: of a phone the panel hid what is set of the picture and its lower third, and kept studies lost their names.
it("shows the room's picture with its viewpoints, and names of kept studies, on a phone", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.getByRole("button", { name: "Room", exact: true }).click();
  await page.getByLabel("Viewpoint").waitFor();
  const below = (part: string) =>
    page.evaluate((selector) => {
      const inside = document.querySelector("candlespan-preview")?.shadowRoot?.querySelector(selector);
      const side = document.querySelector(".side");
      if (!inside || side === null) return Number.NaN;
      return inside.getBoundingClientRect().bottom - side.getBoundingClientRect().top;
    }, part);
  await poll(() => below(".stage")).toBeLessThanOrEqual(0);
  expect(await below(".controls")).toBeLessThan(0);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  await page.getByRole("button", { name: "Drawings", exact: true }).click();
  await kept(page);
  await page.getByRole("button", { name: "Study", exact: true }).click();
  const title = page.locator(".kept input").first();
  await title.waitFor();
  expect((await title.boundingBox())?.width ?? 0).toBeGreaterThan(200);
  await page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
});

it("shows elevation, plan and profile together on a laptop's screen", async () => {
  for (const height of [850, 900, 1000]) {
    await page.setViewportSize({ width: 1440, height });
    await poll(async () => {
      const pane = await page.locator(".sheet").boundingBox();
      const profile = await page.locator("candlespan-profile").boundingBox();
      return pane === null || profile === null
        ? Number.NaN
        : profile.y + profile.height - (pane.y + pane.height);
    }).toBeLessThanOrEqual(0);
  }
});

it("ends where the window ends, where sheet and controls scroll by themselves", async () => {
  for (const [width, height] of [
    [390, 844],
    [1440, 900],
  ]) {
    await page.setViewportSize({ width, height });
    for (const place of ["Compare", "Lights"]) {
      await enter(page, place);
      await poll(() => page.evaluate(() => document.documentElement.scrollHeight - innerHeight)).toBe(0);
    }
  }
});

it("says a line whole: in two lines, or over the drawings under a finger, and no line moves anything", async () => {
  const say = (line: string) =>
    page.evaluate((words) => {
      (
        document.querySelector("candlespan-app") as unknown as { session: { say(line: string): void } }
      ).session.say(words);
    }, line);
  const line = page.locator("footer .line");
  const isWhole = () =>
    line.evaluate(
      (each) => each.scrollWidth <= each.clientWidth && each.scrollHeight <= each.clientHeight + 1,
    );
  const sheet = () => page.locator(".sheet").evaluate((each) => each.getBoundingClientRect().height);
  for (const [width, height] of [
    // 2026-11-28: at this width it was one line, cut at 140 letters.
    [1440, 900],
    [1024, 768],
    [720, 450],
    [844, 390],
    [390, 844],
  ]) {
    await page.setViewportSize({ width, height });
    await say("");
    await poll(() => line.isVisible()).toBe(false);
    const before = await sheet();
    const sizes =
      width < 1440
        ? ""
        : ", beam 74°, opening cylinder 350 × 350 mm; it hangs in pendants, Undo takes it down again";
    await say(`Read sample1.ldt: one luminaire of 3200 lm and 30 W, both halves${sizes}`);
    if (width !== 390) expect(await isWhole(), `${width} px`).toBe(true);
    await say(`Read ${"a luminaire of a very long name ".repeat(12)}`);
    expect(await isWhole(), `${width} px`).toBe(false);
    expect(await sheet()).toBe(before);
    await line.tap();
    await poll(isWhole).toBe(true);
    expect(await sheet()).toBe(before);
    await page.locator("footer .light-state").evaluate(() => (document.activeElement as HTMLElement).blur());
  }
});

it("shows the headline whole on a small laptop, beside settings and without", async () => {
  await page.setViewportSize({ width: 1024, height: 768 });
  const headline = page.locator("candlespan-sheet h2");
  await poll(() => headline.innerText()).toBe("Meets everything");
  expect(await headline.evaluate((each) => each.scrollWidth - each.clientWidth)).toBe(0);
});

it("moves little while it loads on a phone: layout shift under 0.1, by web practice hardly noticed", async () => {
  const phone = await viewer.browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const loading = await phone.newPage();
  await loading.addInitScript(() => {
    const shifts: number[] = [];
    (window as unknown as { shifts: number[] }).shifts = shifts;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) shifts.push((entry as unknown as { value: number }).value);
    }).observe({ type: "layout-shift", buffered: true });
  });
  await loading.goto(viewer.server.address);
  await loading.locator(".light-state[data-quality=judged]").waitFor();
  const shifts = await loading.evaluate(() => (window as unknown as { shifts: number[] }).shifts);
  const sum = shifts.reduce((total, each) => total + each, 0);
  console.log(`layout shift of a phone's first load: ${sum.toFixed(3)}`);
  expect(sum).toBeLessThan(0.1);
  await phone.close();
});

it("keeps a zone's figures in sight however long its name is", async () => {
  await enter(page, "Kitchen");
  const name = page.locator("#field-island-zones-0-name");
  await name.fill("preparation and whatever else is done here ".repeat(4).trim());
  await name.press("Enter");
  for (const [width, height] of [
    [1440, 900],
    [390, 844],
  ]) {
    await page.setViewportSize({ width, height });
    await poll(async () => {
      const sheet = await page.locator(".sheet").boundingBox();
      const judged = await page.locator("candlespan-sheet .verdict li .judged").first().boundingBox();
      if (sheet === null || judged === null) return Number.NaN;
      return Math.max(judged.x + judged.width - sheet.x - sheet.width, judged.y + judged.height - height);
    }).toBeLessThanOrEqual(0);
  }
});

/** Whether lines of the zones stand over a height, and which letters stand across it (px of the page). */
function linesAcross(of: Page, edge: number): Promise<{ over: boolean; across: string[] }> {
  return of.locator("candlespan-sheet .verdict ul").evaluate((rows, y) => {
    const words = document.createTreeWalker(rows, NodeFilter.SHOW_TEXT);
    let over = false;
    const across: string[] = [];
    while (words.nextNode()) {
      const range = document.createRange();
      range.selectNodeContents(words.currentNode);
      // Letters leave a seventh of a line free above and below.
      for (const { top, bottom, height } of range.getClientRects()) {
        if (bottom - height / 7 <= y) over = true;
        else if (top + height / 7 < y) across.push(words.currentNode.textContent ?? "");
      }
    }
    return { over, across };
  }, edge);
}

it("shows the usual fields of a layer on one screen of a phone, under the verdict", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.getByRole("button", { name: "Panel: More" }).click();
  const pane = await page.locator("#controls").boundingBox();
  if (pane === null) throw new Error("no controls");
  for (const label of ["Luminaire", "Dimmed to", "Count", "Clearance", "Spread by"]) {
    const box = await page.getByLabel(label, { exact: true }).first().boundingBox();
    expect((box?.y ?? 0) + (box?.height ?? 1e4), label).toBeLessThanOrEqual(pane.y + pane.height);
  }
  const headline = await page.locator("candlespan-sheet h2").boundingBox();
  expect((headline?.y ?? 1e4) + (headline?.height ?? 0)).toBeLessThan(pane.y);
  // 2026-11-29: the panel's edge went through the middle of the line under it.
  const edge = await page.locator(".side").evaluate((side) => side.getBoundingClientRect().top);
  await poll(() => linesAcross(page, edge)).toEqual({ over: true, across: [] });
  await page.getByRole("button", { name: "Panel: Less" }).click();
  await page.getByRole("button", { name: "Panel: Hide" }).click();
  await poll(() => page.locator("#controls").isVisible()).toBe(false);
  await page.getByRole("button", { name: "Lights", exact: true }).click();
  await poll(() => page.locator("#controls").isVisible()).toBe(true);
});

// 2026-11-29: as long as the name of the last change was the button that takes it back, and what stands beside it moved.
it("keeps what stands at the head of a wide page in its place, whatever Undo takes back", async () => {
  const clearance = page.getByLabel("Clearance");
  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
  ]) {
    await page.setViewportSize({ width, height });
    const places = (): Promise<number[]> =>
      page
        .locator("header button, header")
        .evaluateAll((all) => all.flatMap((each) => [each.getBoundingClientRect().left, each.clientHeight]));
    const before = await places();
    await clearance.fill(`${width - 100} mm`);
    await clearance.press("Enter");
    await poll(() => page.locator("header .what").innerText()).toMatch(/clearance/);
    expect(await places(), `${width} px`).toEqual(before);
    // 2026-11-29: 290 px of pale field round a short name read as a search field.
    const beside = await page.locator(".undo button").evaluate((button) => {
      const words = document.createRange();
      words.selectNodeContents(button);
      return button.getBoundingClientRect().width - words.getBoundingClientRect().width;
    });
    expect(beside, `${width} px`).toBeLessThan(24);
    // A long name as well: in two lines it made the head higher, and everything under it moved.
    await page.evaluate((title) => {
      const { session } = document.querySelector("candlespan-app") as Element & {
        session: { edit(change: unknown): void };
      };
      session.edit({
        name: "a long name of a change ".repeat(4),
        edits: [{ path: ["title"], value: title }],
      });
    }, `Kitchen ${width}`);
    await poll(() => page.locator("header .what").innerText()).toMatch(/long name/);
    expect(await places(), `long, ${width} px`).toEqual(before);
  }
});

it("marks a value it cannot take by a thicker edge and by words", async () => {
  const clearance = page.getByLabel("Clearance");
  const edge = (): Promise<string> => clearance.evaluate((field) => getComputedStyle(field).borderTopWidth);
  expect(await edge()).toBe("1px");
  await clearance.fill("high up");
  await clearance.press("Enter");
  await poll(() => clearance.getAttribute("aria-invalid")).toBe("true");
  expect(await edge()).toBe("2px");
  const said = await clearance.evaluate(
    (field) => document.getElementById(field.getAttribute("aria-describedby") ?? "")?.textContent ?? "",
  );
  expect(said).toMatch(/length/i);
});

it("follows a finger on a pendant, and scrolls nothing meanwhile", async () => {
  const before = await studyOf(page);
  const grip = await page.locator('candlespan-plan [data-luminaire="0 1"] .grip').boundingBox();
  if (grip === null) throw new Error("no pendant");
  const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
  const scrolled = () => page.locator(".sheet").evaluate((pane) => pane.scrollTop);
  const still = await scrolled();
  const fingers = await context.newCDPSession(page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", dx = 0, dy = 0) =>
    fingers.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: type === "touchEnd" ? [] : [{ x: x + dx, y: y + dy }],
    });
  await touch("touchStart");
  for (let i = 1; i <= 6; i++) await touch("touchMove", 7 * i, -5 * i);
  await touch("touchEnd");
  await poll(() => page.locator(".tools button").first().innerText()).toMatch(/^Undo move pendants? 2/);
  expect(await studyOf(page)).not.toEqual(before);
  expect(await scrolled()).toBe(still);
  await fingers.detach();
});

it("keeps every line and word in forced colours, and the light its own", async () => {
  await page.emulateMedia({ forcedColors: "active" });
  const seen = await page.evaluate(() => {
    const inside = (tag: string): ShadowRoot => {
      const sheet = document.querySelector("candlespan-sheet")?.shadowRoot;
      const found = sheet?.querySelector(tag)?.shadowRoot;
      if (!found) throw new Error(`${tag} is not drawn`);
      return found;
    };
    const system = (name: string): string => {
      const probe = document.createElement("i");
      probe.style.color = name;
      document.body.append(probe);
      const { color } = getComputedStyle(probe);
      probe.remove();
      return color;
    };
    const inks = (tag: string): string[] => {
      const marks = [...inside(tag).querySelectorAll("path.s-ink, path.s-quiet, path.s-meets")];
      const onSheet = marks.filter((mark) => mark.closest(".over-light") === null);
      return [...new Set(onSheet.map((mark) => getComputedStyle(mark).stroke))];
    };
    return {
      canvas: system("Canvas"),
      text: system("CanvasText"),
      inks: ["candlespan-elevation", "candlespan-plan", "candlespan-profile"].map(inks),
      overLight: [...inside("candlespan-plan").querySelectorAll(".over-light path.s-ink")].map(
        (mark) => getComputedStyle(mark).stroke,
      ),
      bands: [...inside("candlespan-scale").querySelectorAll(".band")].map(
        (band) => getComputedStyle(band).backgroundColor,
      ),
    };
  });
  expect(seen.canvas).not.toBe(seen.text);
  for (const inks of seen.inks) expect(inks).toEqual([seen.text]);
  expect(new Set(seen.overLight)).toEqual(new Set(["rgb(27, 26, 22)"]));
  expect(new Set(seen.bands).size).toBeGreaterThan(10);
  expect(await violations({ hasSystemColours: true })).toEqual([]);
});

it("is worked by keyboard alone, with the focus always in sight", async () => {
  const seen = new Set<string>();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press("Tab");
    const here = await page.evaluate(() => {
      let at: Element | null = document.activeElement;
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
      if (at === null || at === document.body) return undefined;
      const style = getComputedStyle(at);
      const ring = style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) > 0;
      return {
        ring: ring || at.matches("svg *"),
        name: `${at.tagName} ${at.getAttribute("aria-label") ?? at.id ?? at.textContent}`,
      };
    });
    if (here === undefined) continue;
    expect(here.ring, here.name).toBe(true);
    const [kind] = here.name.split(" ");
    seen.add(kind);
    // A drawing is one stop of Tab: Home goes to its light.
    if (kind === "g" && !seen.has("rect")) {
      await page.keyboard.press("Home");
      seen.add(
        await page.evaluate(() => {
          let at: Element | null = document.activeElement;
          while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
          return at?.tagName ?? "";
        }),
      );
    }
  }
  expect([...seen]).toEqual(expect.arrayContaining(["BUTTON", "INPUT", "SELECT", "g", "rect"]));
});
