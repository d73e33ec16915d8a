/** A walk through one's own kitchen, by what stands on the screen alone: from the example to a verdict and the electrician's sheet. */

import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { enter, type OpenPage, openPage, poll, refined, verdictOf } from "../support/viewer.ts";

const FILE = fileURLToPath(
  new URL("../../fixtures-data/boathouse/photometry/globe-opal.ldt", import.meta.url),
);

let viewer: OpenPage;
let page: Page;
let troubles: string[];

beforeAll(async () => {
  viewer = await openPage({
    acceptDownloads: true,
  });
  ({ page, troubles } = viewer);
});
afterAll(() => viewer.close());

const button = (name: string | RegExp) => page.getByRole("button", { name, exact: typeof name === "string" });
const press = (name: string | RegExp) => button(name).first().click();
const type = async (label: string, text: string): Promise<void> => {
  const field = page.getByLabel(label, { exact: true }).first();
  await field.fill(text);
  await field.press("Tab");
};
const unfold = (words: string) => page.locator("summary:visible", { hasText: words }).first().click();

it("goes from an own island and an own file to a verdict of three options and the electrician's sheet", async () => {
  await press("Start my own kitchen");
  // 2026-11-28: a typed length stood without its unit, and the dialog moved under the hand while its foot did.
  await type("Island length", "2.7 m");
  await poll(() => page.getByLabel("Island length", { exact: true }).inputValue()).toBe("2700 mm");
  const top = async (): Promise<number> => (await page.locator("dialog.start").boundingBox())?.y ?? 0;
  const before = await top();
  await type("Island width", "1.1 m");
  await type("Ceiling height", "2.6 m");
  await type("Room, along the island", "4.5 m");
  await type("Room, across it", "3.6 m");
  // What the electrician's sheet waits for is one click from being said.
  await press("Set height of its top as it is");
  await press("Set left wall to the island as it is");
  await poll(() => page.locator("#start-fromLeft-why").innerText()).toBe("yours");
  expect(await top()).toBe(before);
  await page.getByLabel("A hob in it").check();
  await press("Light it");
  await page.getByRole("heading", { name: "Zones on the top" }).waitFor();
  await refined(page);

  // A target of one's own.
  const target = page.getByLabel("Target", { exact: true }).first();
  await target.selectOption({ label: "My own values…" });
  await type("Average at least", "400 lx");
  await type("Evenness at least", "0.6");
  await refined(page);
  await poll(() => verdictOf(page)).toMatch(/400 lx.*0\.60/);

  // An own file, answered where it was asked for.
  await enter(page, "Lights");
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    button("Read a photometric file").click(),
  ]);
  // In the page while the dialog is open, so that it cannot be collected, and gone when it is answered.
  const asking = page.locator("body > input[type=file]");
  expect(await asking.count()).toBe(1);
  await chooser.setFiles(FILE);
  await poll(() => asking.count()).toBe(0);
  await button(/^Hang it in /)
    .first()
    .waitFor();
  await press(/^Hang it in /);
  await refined(page);

  // Three options: as it hangs, one pendant more, and higher.
  await unfold("Rename, remove");
  await type("Name of this option", "as it hangs");
  await press("Copy option");
  await type("Name of this option", "one more");
  await type("Count", "4");
  await press("Copy option");
  await type("Name of this option", "higher");
  await type("Clearance", "1 m");
  await refined(page);

  await enter(page, "Compare");
  const headings = page.locator("candlespan-comparison .option");
  await poll(() => headings.count()).toBe(3);
  const ranked = await headings.evaluateAll((all) => all.map((each) => each.getAttribute("aria-label")));
  expect([...ranked].sort()).toEqual(["A as it hangs", "B one more", "C higher"]);
  // 2026-11-29: that one hangs over the hob stood beside the verdict and nowhere where options are compared.
  expect(await headings.filter({ hasText: "over the hob: heat and grease" }).count()).toBe(3);
  await page
    .getByRole("listitem")
    .filter({ hasText: ranked[0] ?? "" })
    .getByRole("button", { name: "Show in the drawings" })
    .click();
  // 2026-11-28: the comparison stayed in place of the drawings.
  await page.locator("candlespan-plan svg").first().waitFor();
  await page.locator(".options button[aria-pressed=true]:focus").waitFor();
  await poll(() => page.locator("footer .light-state").getAttribute("data-quality")).toBe("judged");
  await refined(page);
  await poll(() => verdictOf(page)).toMatch(/meets|short|close|even|patchy/i);

  // The table under the drawings is found from beside the verdict, by keyboard too.
  await button("Figures").press("Enter");
  await page.locator("#figures-heading:focus").waitFor();
  // 2026-11-29: 521 lx stood beside a band of 470 to 560, and nothing said why not in its middle.
  await poll(() => page.locator("candlespan-figures .note").innerText()).toMatch(
    /^A figure need not stand in the middle of its 95 of 100 cases.*U₀ in standards.*90 %/,
  );

  // What holds the papers is seen before any of them, each with its field.
  await enter(page, "Hand-over");
  expect(await page.locator(".holds").innerText()).not.toMatch(/island/);
  await page.locator(".holds a", { hasText: "P1 to" }).first().click();
  await page.locator("#controls :is(input, select):focus").waitFor();
  await enter(page, "Hand-over");
  const [download] = await Promise.all([page.waitForEvent("download"), press("Set-out sheet")]);
  const path = await download.path();
  expect((await readFile(path)).subarray(0, 5).toString()).toBe("%PDF-");
  expect(download.suggestedFilename()).toMatch(/set-out\.pdf$/);
  expect(troubles).toEqual([]);
});
