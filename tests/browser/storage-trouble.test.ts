/** Storage that is denied, full, or a newer version's, two pages on one study, and a build that is no longer whole: said in words, and survived. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { serveViewer } from "../../src/cli/viewer-server.ts";
import { atWork, enter, kept, openViewer, poll, studyOf, type Viewer } from "../support/viewer.ts";

let viewer: Viewer;
let context: BrowserContext;

beforeAll(async () => {
  viewer = await openViewer({ isDirect: true });
});
afterAll(() => viewer.close());
afterEach(() => context.close());

async function opened({ before }: { before?: () => void } = {}): Promise<Page> {
  context = await viewer.browser.newContext({ viewport: { width: 1280, height: 800 } });
  if (before !== undefined) await context.addInitScript(before);
  return another();
}
async function another(address = viewer.server.address): Promise<Page> {
  const page = await context.newPage();
  await page.goto(address);
  await atWork(page);
  return page;
}
async function rename(page: Page, title: string): Promise<void> {
  await page.getByLabel("Title of the study").fill(title);
  await page.getByLabel("Title of the study").press("Enter");
}
const titleOf = async (page: Page): Promise<string | undefined> =>
  (await studyOf<{ title?: string }>(page)).title;
const notice = (page: Page) => page.locator(".refusal");

it("says that there is no storage, works without, and asks before the page is left", async () => {
  const page = await opened({
    before: () => {
      const denied = () => {
        throw new DOMException("denied", "SecurityError");
      };
      for (const name of ["indexedDB", "localStorage", "sessionStorage"])
        Object.defineProperty(window, name, { get: denied });
    },
  });
  await rename(page, "Not kept");
  await poll(() => notice(page).innerText()).toMatch(
    /not kept in this browser: it gives this page no storage/,
  );
  expect(await titleOf(page)).toBe("Not kept");
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    notice(page).getByRole("button", { name: "Save to a file" }).click(),
  ]);
  expect(file.suggestedFilename()).toMatch(/\.study\.json$/);
  const asked = page.waitForEvent("dialog");
  await page.close({ runBeforeUnload: true });
  const dialog = await asked;
  expect(dialog.type()).toBe("beforeunload");
  await dialog.accept();
});

it("opens with the last edit where the database never answers, and says so", async () => {
  const page = await opened();
  await rename(page, "Edited before");
  await kept(page);
  await context.addInitScript(() => {
    const { open } = IDBFactory.prototype;
    IDBFactory.prototype.open = function (...asked) {
      return Object.assign(open.apply(this, asked), { addEventListener() {} });
    };
  });
  await page.reload();
  await page.getByRole("button", { name: "Start without it" }).click();
  await atWork(page);
  expect(await titleOf(page)).toBe("Edited before");
  await poll(() => notice(page).innerText()).toMatch(/not kept in this browser: its storage does not answer/);
  await rename(page, "Edited after");
  expect(await titleOf(page)).toBe("Edited after");
});

it("says that storage is full, and keeps all once there is room", async () => {
  const page = await opened();
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    const { setItem } = Storage.prototype;
    const full = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
    IDBObjectStore.prototype.put = full;
    Storage.prototype.setItem = full;
    (window as unknown as { makeRoom(): void }).makeRoom = () => {
      IDBObjectStore.prototype.put = put;
      Storage.prototype.setItem = setItem;
    };
  });
  await rename(page, "One");
  await poll(() => notice(page).innerText()).toMatch(/not kept in this browser: its storage is full/);
  await page.evaluate(() => (window as unknown as { makeRoom(): void }).makeRoom());
  await rename(page, "Two");
  await poll(() => notice(page).count()).toBe(0);
  await page.reload();
  await atWork(page);
  expect(await titleOf(page)).toBe("Two");
});

it("keeps both where two pages edit one study, and says so", async () => {
  const first = await opened();
  await rename(first, "Of the first");
  await kept(first);
  const second = await another();
  expect(await titleOf(second)).toBe("Of the first");
  await rename(first, "Of the first still");
  await kept(first);
  await rename(second, "Of the second");
  await kept(second);
  await poll(() => second.locator("footer .line").innerText()).toMatch(/Another page saved this study/);
  await rename(first, "Of the first at last");
  await rename(second, "Of the second at last");
  for (const page of [first, second]) await kept(page);
  await first.getByRole("button", { name: "Study", exact: true }).click();
  const titles = first.locator(".kept input");
  await poll(() =>
    titles.evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value).sort()),
  ).toEqual(["Of the first at last", "Of the second at last"]);
});

// 2026-11-29: the page that had the study open wrote its own title over the one given from the list.
it("keeps a title given from the list to a study that another page has open", async () => {
  const first = await opened();
  await rename(first, "Of the first");
  await kept(first);
  const second = await another();
  const list = () => second.getByRole("button", { name: "Study", exact: true }).click();
  const titles = () =>
    second
      .locator(".kept input")
      .evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value).sort());
  await list();
  await second.getByRole("button", { name: "Duplicate Of the first" }).click();
  await second.getByRole("button", { name: /^Open Of the first 2,/ }).click();
  await list();
  await second.getByLabel("Title of Of the first", { exact: true }).fill("From the list");
  await second.getByLabel("Title of Of the first", { exact: true }).press("Enter");
  await poll(titles).toEqual(["From the list", "Of the first 2"]);
  await rename(first, "Of the first still");
  await kept(first);
  await second.keyboard.press("Escape");
  await list();
  await poll(titles).toEqual(["From the list", "Of the first 2", "Of the first still"]);
});

it("leaves a newer version's data alone, and says whose they are", async () => {
  const page = await opened();
  await rename(page, "Mine");
  await kept(page);
  await page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((done, failed) => {
      const asked = indexedDB.open("candlespan", 2);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error);
    });
    database.close();
  });
  // The page whose database was lifted from under it.
  await rename(page, "Mine too");
  await poll(() => notice(page).innerText()).toMatch(/a newer version of this page/);
  await page.reload();
  await atWork(page);
  await poll(() => notice(page).innerText()).toMatch(/a newer version of this page keeps its studies/);
  // The edit it could not keep in the database.
  expect(await titleOf(page)).toBe("Mine too");
});

it("says that a part was replaced by a newer build", async () => {
  const page = await opened();
  // Its files have other names, all of them.
  await page.route(/\/assets\//, (route) => route.fulfill({ status: 404 }));
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  await poll(() => notice(page).innerText()).toMatch(/A part of this page could not be loaded/);
  await page.unroute(/\/assets\//);
  await notice(page).getByRole("button", { name: "Reload" }).click();
  await page.waitForLoadState();
  await atWork(page);
  await enter(page, "Compare");
});

it("starts by the server's build where the one kept has lost a part", async () => {
  const folder = mkdtempSync(join(tmpdir(), "site-"));
  cpSync(viewer.site, folder, { recursive: true });
  let server = await serveViewer(folder, 0);
  try {
    context = await viewer.browser.newContext({
      viewport: { width: 1280, height: 800 },
      serviceWorkers: "allow",
    });
    const page = await another(server.address);
    await rename(page, "Through an update");
    const state = () =>
      page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state);
    await poll(state).toBe("activated");
    // Its name and a hash of eight; other parts' names begin with the same word.
    const parts = readdirSync(join(folder, "assets")).filter((name) => /^compare-.{8}\.js$/.test(name));
    expect(parts).toHaveLength(1);
    const [part] = parts;
    await page.evaluate(async (name) => {
      for (const each of await caches.keys()) await (await caches.open(each)).delete(`./assets/${name}`);
    }, part);
    await (await context.newCDPSession(page)).send("Network.clearBrowserCache");
    renamed(folder, part, part.replace(".js", "2.js"));
    const port = Number(new URL(server.address).port);
    await server.close();
    server = await serveViewer(folder, port);
    await page.getByRole("button", { name: "Compare", exact: true }).click();
    await poll(() => notice(page).innerText()).toMatch(/A part of this page could not be loaded/);
    await notice(page).getByRole("button", { name: "Reload" }).click();
    await page.waitForLoadState();
    await atWork(page);
    await enter(page, "Compare");
    expect(await titleOf(page)).toBe("Through an update");
  } finally {
    await server.close();
    rmSync(folder, { recursive: true });
  }
});

/** Another build, in which one file has another name. */
function renamed(folder: string, from: string, to: string): void {
  for (const file of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const path = join(file.parentPath ?? file.path, file.name);
    if (!file.isFile() || !/\.(js|html)$/.test(path)) continue;
    const text = readFileSync(path, "utf8");
    if (text.includes(from)) writeFileSync(path, text.replaceAll(from, to));
  }
  cpSync(join(folder, "assets", from), join(folder, "assets", to));
  rmSync(join(folder, "assets", from));
}
