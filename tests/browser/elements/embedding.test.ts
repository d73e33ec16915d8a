/** The elements in other people's pages: the embedding example under its strict policy, and one file on a page
 * without any build. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { build, type PreviewServer, preview } from "vite";
import { afterAll, beforeAll, expect, it } from "vitest";
import { launchBrowser } from "../../support/browser.ts";

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

let browser: Browser;
let page: Page;
const complaints: string[] = [];

beforeAll(async () => {
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: 1000, height: 1400 } });
  page.setDefaultTimeout(30_000);
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
});
afterAll(() => browser?.close());

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
    await page.locator("candlespan-plan [data-luminaire='0 0']").focus();
    for (let k = 0; k < 6; k++) await page.keyboard.press("ArrowRight");
    await expect.poll(() => figures.textContent()).not.toBe(before);
    expect(complaints).toEqual([]);
  } finally {
    await server.close();
  }
});

it("works from plain HTML with one import and no build", async () => {
  const folder = mkdtempSync(join(tmpdir(), "candlespan-bundle-"));
  const server: Server = createServer((request, response) => {
    const script = request.url === "/candlespan.bundle.js";
    response.setHeader("content-type", script ? "text/javascript" : "text/html");
    response.end(script ? readFileSync(join(folder, "candlespan.bundle.js")) : PLAIN_PAGE);
  });
  try {
    await build({
      configFile: join(root, "site/elements.vite.config.ts"),
      logLevel: "error",
      build: { outDir: folder },
    });
    await new Promise<void>((listening) => server.listen(0, listening));
    await page.goto(`http://localhost:${(server.address() as AddressInfo).port}/`);
    await page.locator("candlespan-plan text.iso").first().waitFor();
    expect(await page.locator("candlespan-elevation [data-luminaire]").count()).toBe(0);
    expect(
      await page
        .locator("candlespan-scale")
        .first()
        .evaluate((e) => e.shadowRoot?.textContent),
    ).toMatch(/100 fc/);
    expect(complaints).toEqual([]);
  } finally {
    server.close();
    rmSync(folder, { recursive: true });
  }
});
