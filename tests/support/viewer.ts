/** The built viewer in a real browser, served as the command line serves it. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { BrowserContext, Page } from "playwright-core";
import { expect } from "vitest";
import { serveViewer, type ViewerServer } from "../../src/cli/viewer-server.ts";
import { openBrowser, PAINTED_BY_PROCESSOR, PATIENCE, type TestBrowser } from "./browser.ts";

const SITE = fileURLToPath(new URL("../../dist-site", import.meta.url));

export interface Viewer {
  /** The folder it serves. */
  readonly site: string;
  readonly browser: TestBrowser;
  readonly server: ViewerServer;
  /** Packed bytes of every file asked for, in order, with the time (ms since 1970). */
  readonly asked: { readonly path: string; readonly bytes: number; readonly at: number }[];
  close(): Promise<void>;
}

export interface ViewerOptions {
  /** The worked example by direct light alone, for tests that ask nothing of the light: a third of the processor. */
  readonly isDirect?: boolean;
}

export async function openViewer({ isDirect = false }: ViewerOptions = {}): Promise<Viewer> {
  const asked: Viewer["asked"] = [];
  const site = isDirect ? siteByDirectLight() : SITE;
  const server = await serveViewer(site, 0, (path, bytes) =>
    asked.push({ path, bytes, at: performance.timeOrigin + performance.now() }),
  );
  const browser = await openBrowser(PAINTED_BY_PROCESSOR);
  return {
    site,
    browser,
    server,
    asked,
    async close() {
      await browser.close();
      await server.close();
      if (isDirect) rmSync(site, { recursive: true });
    },
  };
}

/** A copy of the built site. */
function siteByDirectLight(): string {
  const site = mkdtempSync(join(tmpdir(), "site-"));
  cpSync(SITE, site, { recursive: true });
  const example = join(site, "example.study.json");
  const study = JSON.parse(readFileSync(example, "utf8"));
  writeFileSync(example, JSON.stringify({ ...study, calculation: { interreflection: false } }));
  return site;
}

/** The viewer with the worked example on one page, for a file's tests one after another. */
export interface OpenPage extends Viewer {
  readonly context: BrowserContext;
  readonly page: Page;
  /** What went wrong in the page so far. */
  readonly troubles: string[];
  /** The study it opened with. */
  readonly example: unknown;
}

export async function openPage(
  { isDirect, ...options }: Parameters<TestBrowser["newContext"]>[0] & ViewerOptions = {},
  /** Sees the page before it loads. */
  before: (page: Page) => unknown = () => {},
): Promise<OpenPage> {
  const viewer = await openViewer({ isDirect });
  const context = await viewer.browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const troubles = troublesOf(page);
  await before(page);
  await page.goto(viewer.server.address);
  await atWork(page);
  return { ...viewer, context, page, troubles, example: await studyOf(page) };
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
  await page.waitForFunction(() => {
    const state = document.querySelector<HTMLElement>(
      ".light-state:is([data-quality=full], [data-quality=judged])",
    );
    const { lighting } = (document.querySelector("candlespan-app") as AppInPage).session;
    return !lighting.isBehind && state?.dataset.sequence === String(lighting.shown?.sequence);
  });
}

/** The viewer's session, as a page's own code sees it. */
interface SessionInPage {
  readonly history: { readonly document: unknown };
  readonly lighting: { readonly isBehind: boolean; readonly shown?: { readonly sequence: number } };
  resume(study: unknown): void;
  turnPeople(show: boolean): void;
}
type AppInPage = Element & {
  readonly session: SessionInPage;
  readonly autosave?: { save(): Promise<void> };
};

/** The study on screen. */
export async function studyOf<T>(page: Page): Promise<T> {
  return (await page.evaluate(
    () => (document.querySelector("candlespan-app") as AppInPage).session.history.document,
  )) as T;
}

/** Until the study on screen is kept. */
export async function kept(page: Page): Promise<void> {
  // Awaited in the page itself: the browser's own wait for a promise ends early where the page's memory is being tidied.
  await page.evaluate(() => {
    const { autosave } = document.querySelector("candlespan-app") as AppInPage;
    delete document.documentElement.dataset.kept;
    void autosave?.save().then(() => {
      document.documentElement.dataset.kept = "yes";
    });
  });
  await page.locator("html[data-kept=yes]").waitFor({ state: "attached" });
}

/** A page used by one test after another: the study it began with again, nothing undone, in the place Lights. */
export async function startAfresh(page: Page, study: unknown): Promise<void> {
  await page.evaluate((given) => {
    const { session } = document.querySelector("candlespan-app") as AppInPage;
    session.turnPeople(false);
    session.resume(given);
    document.querySelector("dialog")?.close();
  }, study);
  await page.getByRole("button", { name: "Lights", exact: true }).click();
  await page.getByLabel("Clearance").waitFor();
}

/** The verdict as it is read aloud, wherever its lines break. */
export async function verdictOf(page: Page): Promise<string> {
  const words = (await page.locator("candlespan-sheet .verdict").textContent()) ?? "";
  return words.replaceAll(/\s+/g, " ").trim();
}

/** Until a place's controls are there. */
export async function enter(page: Page, place: string): Promise<void> {
  await page.getByRole("button", { name: place, exact: true }).click();
  await page.locator(`nav button[aria-current]`, { hasText: place }).waitFor();
  await page.locator("#controls .part").first().waitFor();
}

/** Asks until the answer is as expected. */
export function poll<T>(ask: () => T | Promise<T>) {
  return expect.poll(ask, { timeout: PATIENCE, interval: 40 });
}
