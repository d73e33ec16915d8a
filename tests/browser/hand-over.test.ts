/** The page hands over the same files as the command line: a zip of every paper, read back. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type OpenPage, openPage, poll, refined, startAfresh, studyOf } from "../support/viewer.ts";

/** What the page asks its worker by. */
interface Held {
  readonly connection: {
    call(...asked: unknown[]): { readonly outcome: Promise<unknown>; cancel(): void };
  };
}

let viewer: OpenPage;
beforeAll(async () => {
  viewer = await openPage({ viewport: { width: 1280, height: 800 }, acceptDownloads: true });
});
afterAll(() => viewer.close());

const folder = mkdtempSync(join(tmpdir(), "candlespan-hand-over-"));
afterAll(() => rmSync(folder, { recursive: true }));

it("makes every paper in the page, PDFs among them, under the page's own security policy", async () => {
  const { page, troubles } = viewer;
  await refined(page);
  // 2026-11-29: what was said while the sheets were laid out went when they were there.
  let layOut = (): void => {};
  const isAsked = new Promise<void>((resolve) => (layOut = resolve));
  await page.route(/paper-previews/, async (route) => {
    await isAsked;
    await route.continue();
  });
  await page.getByRole("button", { name: "Hand-over" }).click();
  await page.keyboard.press("Control+z");
  const line = page.locator("footer .line");
  await poll(() => line.innerText()).toBe("Nothing to undo.");
  layOut();
  const pictures = page.locator(".drawer img");
  await poll(() => pictures.count()).toBe(7);
  expect(await line.innerText()).toBe("Nothing to undo.");
  await page.unroute(/paper-previews/);
  const isDrawn = (img: SVGElement | HTMLElement) => (img as HTMLImageElement).naturalWidth > 100;
  await poll(() => pictures.first().evaluate(isDrawn)).toBe(true);
  if (process.env.SCREENS !== undefined) {
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.screenshot({ path: `${process.env.SCREENS}/drawer.png` });
  }
  await page.getByRole("button", { name: "Look at Set-out sheet" }).click();
  await page.getByRole("img", { name: "Sheet 1 of Set-out sheet" }).waitFor();
  if (process.env.SCREENS !== undefined) await page.screenshot({ path: `${process.env.SCREENS}/paper.png` });
  await page.locator("dialog.paper").getByRole("button", { name: "Close" }).click();
  const started = Date.now();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Everything for the job" }).click(),
  ]);
  console.log(`hand-over of three options in the page: ${Date.now() - started} ms, the machine shared`);
  expect(download.suggestedFilename()).toMatch(/\.zip$/);
  const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
  for (const name of [
    "set-out.pdf",
    "set-out.svg",
    "set-out.dxf",
    "boxes.csv",
    "elevations.pdf",
    "dimmers.pdf",
    "schedule.pdf",
    "client.pdf",
    "report.pdf",
    "mock-up.pdf",
    "contents.txt",
  ])
    expect(Object.keys(files)).toContain(name);
  const text = (name: string) => Buffer.from(files[name]).toString("utf8");
  expect(text("set-out.pdf").slice(0, 8)).toBe("%PDF-1.7");
  expect(text("boxes.csv")).toContain("P1,L1,dome");
  expect(text("set-out.svg")).toContain("DATUM 0");
  if (spawnSync("pdftotext", ["-v"]).error === undefined) {
    const path = join(folder, "set-out.pdf");
    writeFileSync(path, files["set-out.pdf"]);
    const { stdout } = spawnSync("pdftotext", ["-raw", path, "-"], { encoding: "utf8" });
    expect(stdout).toContain("Pendants follow the ISLAND centreline");
  } else
    console.log("skipped: pdftotext (poppler-utils) is not installed, so the page's PDF is not read back");
  expect(troubles.splice(0)).toEqual([]);
});

it("puts the room as it was looked at and what is new on the papers, and says which letters cannot be written", async () => {
  const { page, troubles, example } = viewer;
  await page.setViewportSize({ width: 1000, height: 700 });
  // Nothing is asked of the light.
  const calculation = { interreflection: false };
  await startAfresh(page, { ...(example as object), title: "台所", calculation });
  await refined(page);
  await page.getByRole("button", { name: "Room", exact: true }).click();
  await page.locator("candlespan-preview canvas").waitFor();
  await page.getByRole("button", { name: "Hand-over" }).click();
  await page.getByLabel("What is new").fill("island moved");
  await page.getByLabel("What is new").press("Enter");
  await page.locator('.drawer[data-rooms="1"]').waitFor();
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/pictured.png` });
  await poll(() => page.locator(".problem").allTextContents()).toContain(
    "! The font of the PDFs has no letters 台 所: they print as empty boxes. The SVG drawings are not affected.",
  );
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Everything for the job" }).click(),
  ]);
  const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
  const text = (part: string): string =>
    Object.keys(files)
      .filter((name) => name.startsWith(part))
      .map((name) => Buffer.from(files[name]).toString("utf8"))
      .join("");
  expect(text("client-").match(/data:image\/png;base64,/g)?.length).toBe(1);
  expect(text("client-")).toMatch(/Own shadow:/);
  expect(text("set-out.dxf")).toContain("island moved");
  expect(troubles).toEqual([]);
});

it("leads from a dimmer on HOLD to the load it asks for, and forgets it with the last that is said of it", async () => {
  const { page, troubles, example } = viewer;
  await page.setViewportSize({ width: 1280, height: 800 });
  const study = structuredClone(example) as {
    luminaires: Record<string, object>;
    arrangements: { layers: { luminaire: string; dimmer?: object; switches?: object[] }[] }[];
  };
  const [pendants] = study.arrangements[0].layers;
  pendants.switches = [{ at: [0.1, 0.9] }];
  Object.assign(study.luminaires[pendants.luminaire], { watts: 100 });
  await startAfresh(page, study);
  const dimmer = async () => (await studyOf<typeof study>(page)).arrangements[0].layers[0].dimmer;
  const greatest = page.getByLabel("Dimmer's greatest load").first();
  const scale = page.getByLabel("Dimmer's scale").first();
  const held = (words: string) => page.locator(".holds li", { hasText: words });
  const handOver = async (): Promise<void> => {
    await page.getByRole("button", { name: "Hand-over" }).click();
    await page.locator(".holds h2").waitFor();
  };
  const isFocused = () => greatest.evaluate((each) => each === document.activeElement);

  // Dimmed in the setting for dinner, by a dimmer that nobody stated.
  await refined(page);
  await handOver();
  await held("No dimmer stated for what is dimmed: pendants").locator("a").press("Enter");
  await poll(isFocused).toBe(true);
  await scale.selectOption("linear");
  await poll(dimmer).toEqual({ control: "linear" });
  expect(
    await page.getByText("The scale changes no light: it tells what the dimmer is to be set to").count(),
  ).toBe(2);
  if (process.env.SCREENS !== undefined) await page.screenshot({ path: `${process.env.SCREENS}/dimmer.png` });

  const load = held("Dimmer of pendants: 300 W fitted; its greatest load is not given");
  await handOver();
  await load.locator("a").press("Enter");
  await poll(isFocused).toBe(true);
  await page.keyboard.type("600");
  await page.keyboard.press("Enter");
  await poll(dimmer).toEqual({ control: "linear", maximumWatts: 600 });
  expect(await greatest.inputValue()).toBe("600 W");
  await handOver();
  await poll(() => load.count()).toBe(0);
  await page.getByRole("button", { name: /^Undo/ }).first().click();
  await poll(dimmer).toEqual({ control: "linear" });
  await poll(() => load.count()).toBe(1);

  await load.locator("a").press("Enter");
  await poll(isFocused).toBe(true);
  await scale.selectOption({ label: "not known" });
  await poll(dimmer).toBeUndefined();
  await handOver();
  await poll(() => load.count()).toBe(0);
  await poll(() => held("Dimmer of").count()).toBe(0);
  expect(troubles).toEqual([]);
});

// 2026-11-29: of 65 actions from an empty page to nothing on HOLD 33 went into settling one after another, and settling raised new ones.
it("asks at once what a place is held for, marks it there, and leads on until nothing is on HOLD", async () => {
  const { page, troubles, example } = viewer;
  await page.setViewportSize({ width: 1440, height: 900 });
  const study = structuredClone(example) as {
    luminaires: Record<string, { weight?: number }>;
    arrangements: { layers: { luminaire: string; circuit?: string; dimmer?: object }[] }[];
  };
  study.arrangements = [study.arrangements[0]];
  for (const layer of study.arrangements[0].layers) delete layer.circuit;
  await startAfresh(page, study);
  await refined(page);
  await page.getByRole("button", { name: "Hand-over" }).click();
  const heading = page.locator(".holds h2");
  await poll(() => heading.innerText()).toBe("On HOLD: 5 points at 3 places");
  const layers = async () => (await studyOf<typeof study>(page)).arrangements[0].layers;

  // An offer, in one step that can be undone.
  await page.getByRole("button", { name: "Circuits as proposed: pendants 1, ambient 2" }).click();
  await poll(async () => (await layers()).map(({ circuit }) => circuit)).toEqual(["1", "2"]);
  await poll(() => page.locator(".holds li", { hasText: "No circuit named" }).count()).toBe(0);
  // 2026-11-29: three of eight points were settled, and it still said "at 5 places".
  expect(await heading.innerText()).toBe("On HOLD: 3 points at 3 places");
  await page.getByRole("button", { name: /^Undo circuits as proposed: pendants 1, ambient 2/ }).waitFor();

  const type = async (text: string): Promise<void> => {
    await page.keyboard.type(text);
    await page.keyboard.press("Tab");
  };
  const focused = () => page.evaluate(() => document.activeElement?.id);
  const asked = () => page.locator(".asked:visible").allInnerTexts();
  const cut = () =>
    page.evaluate(() => {
      const edge = document.querySelector(".hold-return")?.getBoundingClientRect().bottom ?? 0;
      return [...document.querySelectorAll("#controls :is(label, input, select, p, h2, summary)")].filter(
        (each) => {
          const { top, bottom } = each.getBoundingClientRect();
          return !each.closest(".hold-return") && top < edge - 1 && bottom > edge + 1;
        },
      ).length;
    });
  await page
    .locator(".holds li", { hasText: "No dimmer or switch stated for pendants (it is dimmed" })
    .locator("a")
    .click();
  await poll(focused).toBe("field-arrangements-0-layers-0-dimmer-maximumWatts");
  expect(await cut()).toBe(0);
  await poll(asked).toEqual(Array(3).fill("○ Needed for the sheet."));
  if (process.env.SCREENS !== undefined) await page.screenshot({ path: `${process.env.SCREENS}/asked.png` });
  await type("150");
  await poll(asked).toEqual(["✓ Stated.", "○ Needed for the sheet.", "○ Needed for the sheet."]);
  await poll(focused).toBe("field-arrangements-0-layers-0-dimmer-minimumWatts");
  await type("3");
  await poll(async () => (await layers())[0].dimmer).toEqual({ maximumWatts: 150, minimumWatts: 3 });
  // 2026-11-29: a dimmer stood on no plan, and nobody asked where it is.
  const placed = async (layer: string, from: readonly string[]): Promise<void> => {
    await page.getByRole("button", { name: "Next: where it is switched" }).click();
    await page.getByRole("button", { name: "Place its dimmer" }).first().press("Enter");
    const of = page.getByLabel(`Switches of ${layer}`);
    // 2026-11-29: the button kept the focus and would have added a second one, and the way on left a place that nobody had said.
    await poll(focused).toMatch(/-switches-0-at-0$/);
    expect(await of.locator(".asked").innerText()).toBe(
      "○ Needed for the sheet: a corner stands in for the place; type it or set it.",
    );
    await refined(page);
    await page.getByRole("button", { name: "Next: where it is switched" }).waitFor();
    for (const [i, wall] of ["left wall", "near wall"].entries()) {
      await of.getByLabel(`Dimmer, from ${wall}`).fill(from[i]);
      await of.getByLabel(`Dimmer, from ${wall}`).press("Enter");
    }
    await poll(() => of.locator(".asked").innerText()).toBe("✓ Stated.");
  };
  await placed("pendants", ["100", "900"]);
  if (process.env.SCREENS !== undefined) await page.screenshot({ path: `${process.env.SCREENS}/placed.png` });

  await page.getByRole("button", { name: "Next: ambient" }).click();
  await poll(focused).toBe("field-arrangements-0-layers-1-dimmer-maximumWatts");
  expect(await cut()).toBe(0);
  await type("150");
  await placed("ambient", ["300", "900"]);
  await page.getByRole("button", { name: /^Next: (?!where it is switched)/ }).click();
  await poll(focused).toMatch(/^field-luminaires-.*-weight$/);
  expect(await cut()).toBe(0);
  // 2026-11-29: the light's answer, which ends what is next, made the line lower when the next field stood under it.
  await page.evaluate(() => {
    const { connection } = (
      document.querySelector("candlespan-app") as unknown as { session: { lighting: Held } }
    ).session.lighting;
    const { call } = connection;
    connection.call = (...asked) => {
      // This one alone: what is asked after it is answered as ever, and may end it.
      connection.call = call;
      const running = call.apply(connection, asked);
      running.outcome.catch(() => {});
      const outcome = new Promise<unknown>((answer) => {
        Object.assign(window, { letAnswer: () => answer(running.outcome) });
      });
      return { ...running, outcome };
    };
  });
  await type("0.4");
  const back = page.locator(".hold-return a");
  expect(await back.innerText()).toBe("Back to what is on HOLD");
  // 2026-11-29: named by the luminaire that was open already.
  await page.getByRole("button", { name: "Next: cut-out" }).click();
  await poll(focused).toMatch(/^field-luminaires-.*-cutOut$/);
  expect(await cut()).toBe(0);
  await page.evaluate(() => (window as unknown as { letAnswer(): void }).letAnswer());
  await refined(page);
  expect(await page.getByRole("button", { name: /^Next: / }).count()).toBe(0);
  expect(await cut()).toBe(0);
  await type("75");
  await poll(() => back.innerText()).toBe("Nothing is on HOLD any more: to the papers");
  expect(await page.getByRole("button", { name: /^Next: / }).count()).toBe(0);
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/settled.png` });
  await back.click();
  await poll(() => heading.innerText()).toBe("On HOLD: nothing");
  expect(troubles).toEqual([]);
});

// 2026-11-29: a dimmer's load was needed where a switch was enough.
it("says beside a field what it is on HOLD for, and asks for a dimmer's load with what makes it needless", async () => {
  const { page, troubles, example } = viewer;
  const study = structuredClone(example) as {
    luminaires: Record<string, object>;
    arrangements: { settings?: object[] }[];
  };
  study.arrangements = [study.arrangements[0]];
  delete study.arrangements[0].settings;
  const body = { profile: "cylinder", diameter: 0.096, height: 0.09 };
  Object.assign(study.luminaires.downlight, { body, cutOut: 0.085 });
  await startAfresh(page, study);
  await refined(page);
  await page.getByRole("button", { name: "Hand-over" }).click();
  await page
    .locator(".holds li", { hasText: "No dimmer or switch stated for ambient (dimmer:" })
    .locator("a")
    .click();
  const load = page.locator("#field-arrangements-0-layers-1-dimmer-maximumWatts-asked");
  await poll(() => load.innerText()).toBe("○ Needed for the sheet, unless a switch is enough.");
  await page.getByLabel("Switches of ambient").getByRole("button", { name: "Add a switch" }).press("Enter");
  await poll(() => page.evaluate(() => document.activeElement?.id)).toMatch(/-layers-1-switches-0-at-0$/);
  await poll(() => load.innerText()).toBe("– Not needed any more.");
  await page.getByRole("button", { name: "Hand-over" }).click();
  const held = page.locator(".holds li", { hasText: "Place of a switch assumed for ambient." });
  await held.locator("a").click();
  await poll(() => page.evaluate(() => document.activeElement?.id)).toMatch(/-layers-1-switches-0-at-0$/);
  await poll(() => page.getByLabel("Switches of ambient").locator(".asked").innerText()).toMatch(
    /^○ Needed for the sheet: a corner/,
  );

  // 2026-11-29: "✓ Stated." stood at what the sheet was held for, or nothing, and the reason on another page.
  await page.getByRole("button", { name: "Hand-over" }).click();
  await page.locator(".holds li", { hasText: "the body, 96" }).locator("a").click();
  const hole = page.locator("#field-luminaires-downlight-cutOut");
  const said = page.locator("#field-luminaires-downlight-cutOut-asked");
  await poll(() => said.innerText()).toMatch(
    /^○ On HOLD: Cut-out 85\smm: the body, 96\smm wide, does not pass\.$/,
  );
  await hole.fill("100");
  await hole.press("Enter");
  await poll(() => said.innerText()).toBe("✓ Stated.");
  expect(troubles).toEqual([]);
});
