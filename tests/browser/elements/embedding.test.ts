/** The elements in other people's pages: the embedding example under its strict policy, and one file on a page
 * without any build. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { build, type PreviewServer, preview } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../../support/browser.ts";
import { poll } from "../../support/viewer.ts";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const PLAIN_PAGE = `<!doctype html>
<html lang="en">
  <head><meta charset="utf-8"><title>No build</title><link rel="icon" href="data:,"></head>
  <body>
    <candlespan-scale unit="fc"></candlespan-scale>
    <candlespan-sheet fixed></candlespan-sheet>
    <script type="module">
      import { arrangementLight, openForElements, orThrow } from "./candlespan.bundle.js";
      const opened = orThrow(await openForElements({
        format: "candlespan-study", version: 1,
        room: { length: 5, width: 4, ceilingHeight: 2.6 },
        island: { length: 2.2, width: 1 },
        luminaires: { spot: { beam: { flux: 700, angle: 60 } } },
        arrangements: [{ name: "row", layers: [{ name: "pendants", role: "pendant", luminaire: "spot", row: { count: 3, clearance: 0.8 } }] }],
      }));
      const { study } = opened;
      const { assessment } = await arrangementLight(opened, study.scenes[0], { draft: true, judged: false });
      Object.assign(document.querySelector("candlespan-sheet"), { study, assessment });
    </script>
  </body>
</html>`;

const STUDY = "/boathouse/boathouse.study.json";
/** Its photometric file would be fetched from elsewhere. */
const BROKEN_STUDY = JSON.stringify({
  format: "candlespan-study",
  version: 1,
  room: { length: 5, width: 4, ceilingHeight: 2.6 },
  luminaires: { dome: { photometry: "../../elsewhere.ies" } },
  arrangements: [
    { name: "one", layers: [{ name: "pendants", luminaire: "dome", at: [{ position: [1, 1, 2] }] }] },
  ],
});

const folder = mkdtempSync(join(tmpdir(), "candlespan-bundle-"));
let browser: TestBrowser;
let page: Page;
const complaints: string[] = [];

beforeAll(async () => {
  browser = await openBrowser(PAINTED_BY_PROCESSOR);
  page = await browser.newPage({ viewport: { width: 1000, height: 1400 } });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await browser?.close();
});

it("lives in the embedding example, light following the keys", async () => {
  const server: PreviewServer = await preview({
    configFile: join(root, "site/vite.config.ts"),
    logLevel: "error",
    preview: { port: 0 },
  });
  try {
    await page.goto(`${server.resolvedUrls?.local[0]}embed.html`);
    await page.locator("candlespan-plan text.iso").first().waitFor();
    const figures = page.locator("candlespan-figures summary .value").first();
    const before = await figures.textContent();
    await page.locator("candlespan-plan [data-luminaire='0 0']").first().focus();
    for (let k = 0; k < 6; k++) await page.keyboard.press("ArrowRight");
    await poll(() => figures.textContent()).not.toBe(before);
    expect(complaints).toEqual([]);
  } finally {
    await server.close();
  }
});

/** The single file and the worked example, as any web server would hand them out; `page` is every other address. */
async function servePlain(page: string): Promise<{ readonly address: string; close(): void }> {
  const server: Server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname);
    const file = path === "/candlespan.bundle.js" ? join(folder, path) : join(root, "fixtures-data", path);
    const type = path.endsWith(".js") ? "text/javascript" : "application/octet-stream";
    if (path === "/" || path === "/broken.study.json") {
      response.setHeader("content-type", path === "/" ? "text/html" : "application/json");
      response.end(path === "/" ? page : BROKEN_STUDY);
    } else if (path === STUDY) {
      // Elements are asked to show, not the light to be whole.
      const study = JSON.parse(readFileSync(file, "utf8"));
      response.end(JSON.stringify({ ...study, calculation: { interreflection: false } }));
    } else if (existsSync(file)) {
      response.setHeader("content-type", type);
      response.end(readFileSync(file));
    } else {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise<void>((listening) => server.listen(0, listening));
  const address = `http://localhost:${(server.address() as AddressInfo).port}/`;
  return { address, close: () => server.close() };
}

async function buildBundle(): Promise<void> {
  if (existsSync(join(folder, "candlespan.bundle.js"))) return;
  await build({
    configFile: join(root, "site/elements.vite.config.ts"),
    logLevel: "error",
    build: { outDir: folder },
  });
}

async function openPlain(html: string): Promise<() => void> {
  await buildBundle();
  // What an earlier page still asked for when its server closed is no complaint of this one.
  await page.goto("about:blank");
  complaints.splice(0);
  const { address, close } = await servePlain(html);
  await page.goto(address);
  return close;
}

it("works from plain HTML with one import and no build", async () => {
  const close = await openPlain(PLAIN_PAGE);
  try {
    await page.locator("candlespan-plan text.iso").first().waitFor();
    expect(await page.locator("candlespan-elevation [data-luminaire]").count()).toBe(0);
    expect(
      await page
        .locator("candlespan-scale")
        .first()
        .evaluate((e) => e.shadowRoot?.textContent),
    ).toMatch(/200 fc/);
    expect(complaints).toEqual([]);
  } finally {
    close();
  }
});

describe("candlespan-study", () => {
  const pageOf = (markup: string): string => `<!doctype html>
<html lang="en">
  <head><meta charset="utf-8"><title>A kitchen</title><link rel="icon" href="data:,"></head>
  <body>${markup}<script type="module">import "./candlespan.bundle.js";</script></body>
</html>`;

  it("shows a kitchen of which only the address is given", async () => {
    const close = await openPlain(
      pageOf('<candlespan-study src="boathouse/boathouse.study.json">\n</candlespan-study>'),
    );
    try {
      for (const drawing of ["plan text.iso", "elevation [data-luminaire]", "profile svg"])
        await page.locator(`candlespan-study candlespan-${drawing}`).first().waitFor();
      const verdict = page.locator("candlespan-study .verdict");
      await poll(() => verdict.textContent()).toMatch(/\d lx.*(meets|short|close)/s);
      const before = await verdict.textContent();
      await page.locator("candlespan-plan [data-luminaire='0 0']").focus();
      for (let k = 0; k < 8; k++) await page.keyboard.press("ArrowRight");
      await poll(
        async () =>
          (await verdict.textContent()) !== before &&
          /meets|short|close/.test((await verdict.textContent()) ?? ""),
      ).toBe(true);
      expect(complaints).toEqual([]);
    } finally {
      close();
    }
  });

  it("gives study and light to the elements inside it", async () => {
    const close = await openPlain(
      pageOf(`<candlespan-study src="boathouse/boathouse.study.json" arrangement="1"><main>
        <candlespan-plan hide="people"></candlespan-plan><candlespan-figures></candlespan-figures>
        <candlespan-luminaire-table></candlespan-luminaire-table><candlespan-comparison></candlespan-comparison>
        <candlespan-findings></candlespan-findings><candlespan-guideline-cards></candlespan-guideline-cards>
      </main></candlespan-study>`),
    );
    try {
      await page.locator("main > candlespan-plan text.iso").first().waitFor();
      for (const part of [
        "figures summary .value",
        "findings section",
        "guideline-cards li",
        "luminaire-table td",
      ])
        await page.locator(`main > candlespan-${part}`).first().waitFor();
      const options = page.locator("main > candlespan-comparison [part=option]");
      await poll(() => options.count()).toBe(3);
      expect(await page.locator("candlespan-study candlespan-sheet").count()).toBe(0);
      expect(complaints).toEqual([]);
    } finally {
      close();
    }
  });

  it("says what is wrong with a study, and tries again", async () => {
    const close = await openPlain(pageOf('<candlespan-study src="none.study.json"></candlespan-study>'));
    try {
      const failure = page.locator("candlespan-study [part=failure]");
      await failure.waitFor();
      expect(await failure.textContent()).toMatch(/none\.study\.json.*status 404/s);
      const study = page.locator("candlespan-study");
      await study.evaluate((element) => element.setAttribute("src", "broken.study.json"));
      await poll(() => failure.textContent()).toMatch(/outside its own folder/);
      await failure.locator("button").click();
      await poll(() => failure.textContent()).toMatch(/outside its own folder/);
      await study.evaluate((element) => element.setAttribute("src", "boathouse/boathouse.study.json"));
      await page.locator("candlespan-plan text.iso").first().waitFor();
      expect(await failure.count()).toBe(0);
      // The browser itself remarks on the missing file.
      expect(complaints.filter((each) => !each.includes("404"))).toEqual([]);
    } finally {
      complaints.length = 0;
      close();
    }
  });
});
