/** The built viewer in a real browser, served as the command line serves it. */
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";
import { serveViewer, type ViewerServer } from "../../src/cli/viewer-server.ts";
import { launchBrowser } from "./browser.ts";

const SITE = fileURLToPath(new URL("../../dist-site", import.meta.url));

export interface Viewer {
  readonly browser: Browser;
  readonly server: ViewerServer;
  /** Packed bytes of every file asked for, in order, with the time (ms since 1970). */
  readonly asked: { readonly path: string; readonly bytes: number; readonly at: number }[];
  close(): Promise<void>;
}

export async function openViewer(): Promise<Viewer> {
  const asked: Viewer["asked"] = [];
  const server = await serveViewer(SITE, 0, (path, bytes) =>
    asked.push({ path, bytes, at: performance.timeOrigin + performance.now() }),
  );
  const browser = await launchBrowser();
  return {
    browser,
    server,
    asked,
    async close() {
      await browser.close();
      await server.close();
    },
  };
}

/** What went wrong in a page: errors, console errors, refused content. */
export function troublesOf(page: Page): string[] {
  const troubles: string[] = [];
  page.on("pageerror", (error) => troubles.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") troubles.push(message.text());
  });
  return troubles;
}

export async function firstLight(page: Page): Promise<void> {
  await page.waitForFunction(() => performance.getEntriesByName("first light").length > 0);
}

/** Until there is light and the controls are there to work with it. */
export async function atWork(page: Page): Promise<void> {
  await firstLight(page);
  await page.locator("#controls .part").first().waitFor();
}

/** Until the newest document's refined light is drawn. */
export async function refined(page: Page): Promise<void> {
  await page.waitForSelector('.light-state:is([data-quality="full"], [data-quality="judged"])');
}

/** Polls with patience: on a machine that computes other things, a second is not long. */
export function poll<T>(ask: () => T | Promise<T>) {
  return expect.poll(ask, { timeout: 20_000, interval: 40 });
}
