/** Luminaires by hand: a file is answered where it was asked for, and nothing hangs that nobody hung. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { eulumdat } from "../support/photometric-text.ts";
import { atWork, type OpenPage, openPage, poll, refined, startAfresh, studyOf } from "../support/viewer.ts";

const LANTERN = new URL("../../fixtures-data/boathouse/photometry/lantern-up-down.ies", import.meta.url);

interface Study {
  luminaires: Record<string, Record<string, unknown>>;
  arrangements: { layers: { luminaire: string }[] }[];
}

let viewer: OpenPage;
let page: Page;
let troubles: string[];
beforeAll(async () => {
  viewer = await openPage({ isDirect: true });
  ({ page, troubles } = viewer);
});
afterAll(() => viewer.close());
afterEach(() => expect(troubles.splice(0)).toEqual([]));

const study = (): Promise<Study> => studyOf<Study>(page);
const shot = async (name: string): Promise<void> => {
  const { SCREENS } = process.env;
  if (SCREENS !== undefined) await page.screenshot({ path: `${SCREENS}/${name}.png` });
};

it("answers for files where they were asked for, each refused one by name", async () => {
  const button = page.getByRole("button", { name: "Read a photometric file" });
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), button.click()]);
  await chooser.setFiles([
    { name: "lantern.ies", mimeType: "text/plain", buffer: readFileSync(LANTERN) },
    { name: "noise.ies", mimeType: "text/plain", buffer: Buffer.from([0, 1, 2, 3, 255]) },
  ]);
  const answers = page.locator(".readings > li");
  await poll(() => answers.count()).toBe(2);
  expect(await answers.allInnerTexts()).toEqual([
    expect.stringMatching(/It read lantern\.ies: .*Hang it in pendants.*Add to the list/s),
    expect.stringMatching(/noise\.ies could not be read/),
  ]);
  const hang = answers.first().getByRole("button", { name: "Add to the list, hang later" });
  const [from, to] = await Promise.all([button.boundingBox(), hang.boundingBox()]);
  expect((to?.y ?? 0) - (from?.y ?? 0)).toBeLessThan(260);
  await shot("files-read");
  const before = await study();
  await hang.click();
  const kept = await study();
  expect(kept.arrangements).toEqual(before.arrangements);
  expect(Object.keys(kept.luminaires)).toContain("lantern");
  await answers.getByRole("button", { name: "Dismiss" }).click();
  await poll(() => answers.count()).toBe(0);
});

it("renames a luminaire and takes what an order needs", async () => {
  const item = page.locator("details.item[open]");
  await poll(() => item.locator("summary").first().innerText()).toMatch(/lantern/i);
  await item.getByLabel("Name", { exact: true }).fill("boat lantern");
  await item.getByLabel("Name", { exact: true }).press("Enter");
  await poll(async () => Object.keys((await study()).luminaires)).toContain("boat lantern");
  await item.getByLabel("Shade or body", { exact: true }).selectOption("drum");
  // What stands in until a size is typed comes with the light, and would come between the field and the hand.
  await refined(page);
  await item.getByLabel("Diameter", { exact: true }).fill("320");
  await item.getByLabel("Diameter", { exact: true }).press("Enter");
  await item.getByText("Hanging and ordering").click();
  await item.getByLabel("Order number").fill("L-320");
  await item.getByLabel("Order number").press("Enter");
  await item.getByLabel("Weight").fill("1,8 kg");
  await item.getByLabel("Weight").press("Enter");
  await poll(async () => (await study()).luminaires["boat lantern"]).toMatchObject({
    body: { profile: "drum", diameter: 0.32 },
    order: "L-320",
    weight: 1.8,
  });
  await shot("luminaire-form");
});

it("asks for a new luminaire's values first and hangs nothing unasked", async () => {
  const before = await study();
  await page.getByRole("button", { name: "Make one from lamp and shade" }).click();
  const form = page.getByRole("group", { name: "New luminaire" });
  await form.getByLabel("Flux of the lamp").fill("1055");
  await form.getByLabel("Flux of the lamp").press("Enter");
  await form.getByLabel("Name", { exact: true }).fill("kitchen shade");
  await form.getByLabel("Name", { exact: true }).press("Enter");
  expect(await study()).toEqual(before);
  await shot("new-luminaire");
  await form.getByRole("button", { name: "Hang it in pendants" }).click();
  const after = await study();
  expect(after.arrangements[0].layers[0].luminaire).toBe("kitchen shade");
  expect(after.luminaires["kitchen shade"].lamp).toMatchObject({ flux: 1055 });
  await page.keyboard.press("Control+z");
  await poll(study).toEqual(before);
});

// 2026-11-29: a long bar from flux and beam was lit as from one point, and nothing on the page could say otherwise.
it("says where light from flux and beam leaves, and takes the whole underside by one press", async () => {
  const before = await study();
  await page.getByRole("button", { name: "Make one from flux and beam" }).click();
  const form = page.getByRole("group", { name: "New luminaire" });
  await form.getByLabel("Shade or body", { exact: true }).selectOption("box");
  for (const [side, typed] of [
    ["Length", "1200"],
    ["Width", "80"],
  ]) {
    await form.getByLabel(side, { exact: true }).fill(typed);
    await form.getByLabel(side, { exact: true }).press("Enter");
  }
  await form.getByRole("button", { name: "It leaves the whole underside" }).click();
  await form.getByText("Its light leaves 1200 mm × 80 mm of its underside.").waitFor();
  await form.getByRole("button", { name: "It leaves one point" }).click();
  await form.getByRole("button", { name: "It leaves the whole underside" }).click();
  await form.getByLabel("Name", { exact: true }).fill("bar from beam");
  await form.getByLabel("Name", { exact: true }).press("Enter");
  await form.getByRole("button", { name: "Hang it in pendants" }).click();
  expect((await study()).luminaires["bar from beam"].opening).toEqual({ length: 1.2, width: 0.08 });
  await page.keyboard.press("Control+z");
  await poll(study).toEqual(before);
});

it("keeps a luminaire for the next study, and compares lamps in its shade", async () => {
  await page.getByRole("button", { name: "Make one from lamp and shade" }).click();
  const form = page.getByRole("group", { name: "New luminaire" });
  await form.getByLabel("Name", { exact: true }).fill("my shade");
  await form.getByLabel("Name", { exact: true }).press("Enter");
  await form.getByRole("button", { name: "Hang it in pendants" }).click();
  const item = page.locator("details.item[open]");
  await item.getByRole("button", { name: "Keep for other studies" }).click();
  await item.getByText("The same shade with other lamps").click();
  await item.getByRole("button", { name: "Compare lamps" }).click();
  await item.getByText("The most even first.").waitFor();
  const evenness = (await item.locator("table tbody td:nth-child(2)").allInnerTexts()).map(Number);
  expect(evenness.length).toBeGreaterThan(4);
  expect(evenness).toEqual([...evenness].sort((a, b) => b - a));
  await shot("lamps");
  await page.reload();
  await atWork(page);
  const shelf = page.locator("details.shelf");
  await shelf.locator("summary").click();
  await shelf
    .getByRole("group", { name: "my shade" })
    .getByRole("button", { name: "Take into the study" })
    .click();
  await poll(async () => Object.keys((await study()).luminaires)).toContain("my shade 2");
  await shelf.scrollIntoViewIfNeeded();
  await shot("shelf");
});

// 2026-11-28: of a bar from a file the form asked for a diameter, refused a box before its sides were typed, took the sides crossed
// and called three bars through one another good.
it("offers the body a file states, asks for its long and short side, and ticks no bars through one another", async () => {
  const text = eulumdat({
    table: [3000, 2000, 0],
    lines: { 10: "B-1230", 13: 1230, 14: 240, 15: 35, 16: 1180, 17: 200 },
  });
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    page.getByRole("button", { name: "Read a photometric file" }).click(),
  ]);
  await chooser.setFiles([{ name: "bar.ldt", mimeType: "text/plain", buffer: Buffer.from(text) }]);
  await page.locator(".readings > li").getByRole("button", { name: "Hang it in pendants" }).click();
  await refined(page);
  const verdict = page.locator("candlespan-sheet [part=headline]");
  await poll(() => verdict.innerText()).toBe("Cannot be built as placed");
  const name = (await study()).arrangements[0].layers[0].luminaire;
  const bodyOf = async (): Promise<unknown> => (await study()).luminaires[name].body;
  const item = page.locator("details.item[open]");
  if ((await item.count()) === 0) await page.locator("details.item > summary", { hasText: name }).click();
  const shape = item.getByLabel("Shade or body", { exact: true });
  await shape.selectOption("box");
  await refined(page);
  expect(await item.locator(".problem").allInnerTexts()).toEqual([]);
  const long = item.getByLabel("Long side", { exact: true });
  const short = item.getByLabel("Short side", { exact: true });
  expect([await long.inputValue(), await short.inputValue()]).toEqual(["1180 mm", "200 mm"]);
  await long.fill("1250");
  await long.press("Enter");
  await short.fill("250");
  await short.press("Enter");
  await refined(page);
  expect(await bodyOf()).toEqual({ profile: "box", length: 0.25, width: 1.25 });
  expect(await item.locator(".problem").allInnerTexts()).toEqual([]);
  await shot("bar-typed");
  const offer = item.getByRole("button", { name: "Body as the file states: 1230 mm × 240 mm × 35 mm" });
  await offer.click();
  await poll(bodyOf).toEqual({ profile: "box", length: 0.24, width: 1.23, height: 0.035, offset: 0.0175 });
  await poll(() => offer.count()).toBe(0);
  await refined(page);
  await shot("bar-as-filed");
  // 2026-11-28: stating the body moved the figures from 750 to 709 lx without a word.
  await item.getByRole("table", { name: "Before and after" }).waitFor();
  // 2026-11-29: the papers held another order number, and its field did not say which one the file has.
  await item.getByText('The light of its file was measured of "B-1230".').waitFor({ state: "attached" });
  // 2026-11-29: makers' files carry other numbers than their order lists, and only a false order number settled it.
  await item.getByText("Hanging and ordering").click();
  const order = item.getByLabel("Order number");
  await order.fill("S01-470");
  await order.press("Enter");
  const same = item.getByLabel('"S01-470" and "B-1230"');
  await same.selectOption({ label: "the same product" });
  await poll(async () => (await study()).luminaires[name]).toMatchObject({
    order: "S01-470",
    measured: "B-1230",
  });
  await shot("same-product");
  await order.fill("");
  await order.press("Enter");
  await same.waitFor({ state: "detached" });
});

it("leads from what is on hold to where a bar is fed and hangs, by its own length from left to right", async () => {
  const name = (await study()).arrangements[0].layers[0].luminaire;
  await page.getByRole("button", { name: "Hand-over", exact: true }).click();
  const hold = page.locator(".holds li", { hasText: "Feed and suspension points not stated" });
  // The list names boxes by the tags that the plan beside it shows.
  const tag = (await hold.locator("a").innerText()).split(/,| to /)[0];
  await page
    .locator("candlespan-plan svg text", { hasText: new RegExp(`\\b${tag}\\b`) })
    .first()
    .waitFor();
  await hold.locator("a").click();
  const fed = page.getByLabel("Fed", { exact: true });
  await poll(() => fed.evaluate((each) => each === document.activeElement)).toBe(true);
  await fed.selectOption({ label: "at its left point" });
  await page.getByLabel("Suspension points", { exact: true }).selectOption({ label: "2, where assumed" });
  const along = (point: string) => page.getByLabel(`${point}, along it from its middle`, { exact: true });
  // 0.4 of 1.23 m; the file lays it crosswise, so that left is +y of its own plan.
  await poll(() => along("Point 1").inputValue()).toBe("-492 mm");
  expect(await along("Point 2").inputValue()).toBe("492 mm");
  expect(await along("Feed").inputValue()).toBe("-492 mm");
  await along("Point 1").fill("-400");
  await along("Point 1").press("Enter");
  const places = async () => (await study()).luminaires[name].suspensions;
  await poll(places).toEqual([
    [0, 0.4],
    [0, -0.492],
  ]);
  await refined(page);
  await shot("bar-hung");
  // Who has answered one goes on to the next.
  await page.getByRole("link", { name: "Back to what is on HOLD" }).click();
  await page.locator(".holds h2").waitFor();
  await poll(() => hold.count()).toBe(0);
  await page.getByRole("button", { name: "Lights", exact: true }).click();
  expect(await page.getByRole("link", { name: "Back to what is on HOLD" }).count()).toBe(0);
});

it("hangs a file's luminaire in the layer whose own list asked for it, and the panel stays", async () => {
  const list = page.locator("#field-arrangements-0-layers-0-luminaire");
  await list.scrollIntoViewIfNeeded();
  const before = (await study()).arrangements[0].layers[0].luminaire;
  const place = await list.boundingBox();
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    list.selectOption({ label: "from a file…" }),
  ]);
  await chooser.setFiles([{ name: "barge.ies", mimeType: "text/plain", buffer: readFileSync(LANTERN) }]);
  await poll(async () => (await study()).arrangements[0].layers[0].luminaire).toBe("barge");
  await poll(() => page.locator("footer .line").innerText()).toMatch(/^barge hangs in .*Undo takes it down/);
  expect(Math.abs(((await list.boundingBox())?.y ?? 0) - (place?.y ?? 0))).toBeLessThan(60);
  expect(await page.locator(".readings > li").count()).toBe(0);
  await page.getByRole("button", { name: /^Undo/ }).first().click();
  await poll(async () => (await study()).arrangements[0].layers[0].luminaire).toBe(before);
});

// 2026-11-29: a downlight 385 mm high was taken to be in the ceiling, and neither said so nor asked for the room it needs there.
it("says of a luminaire in the ceiling how deep it goes, asks for the room, and sets it under the ceiling and back", async () => {
  const { example } = viewer;
  const deep = structuredClone(example) as Study & {
    room: { ceilingHeight: number };
    arrangements: { layers: { grid?: { height?: number } }[] }[];
  };
  deep.luminaires.downlight.body = { profile: "cylinder", diameter: 0.12, height: 0.385 };
  await startAfresh(page, deep);
  await refined(page);
  await page.getByRole("button", { name: "Lights", exact: true }).click();
  await page.locator("details.item > summary", { hasText: "downlight" }).click();
  const line = page.locator("details.item[open] .recess");
  await poll(() => line.innerText()).toMatch(/^ambient: goes 385 mm into the ceiling\./);
  // 2026-11-29: the hole in the ceiling had no field.
  const item = page.locator("details.item[open]");
  await item.getByText("Hanging and ordering").click();
  const hole = item.getByLabel("Cut-out, diameter", { exact: true });
  await hole.fill("75");
  await hole.press("Enter");
  await poll(async () => (await study()).luminaires.downlight.cutOut).toBe(0.075);
  await shot("cut-out");
  await line.scrollIntoViewIfNeeded();
  await shot("recess");
  await line.getByRole("button", { name: "State the clear height above it" }).click();
  const clear = page.getByLabel("Clear height above the ceiling", { exact: true });
  await poll(() => clear.evaluate((each) => each === document.activeElement)).toBe(true);
  await shot("clear-height");
  await page.keyboard.type("400");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Lights", exact: true }).click();
  await poll(() => line.innerText()).toMatch(/400 mm is clear above it\./);
  const height = async () => (await studyOf<typeof deep>(page)).arrangements[0].layers[1].grid?.height;
  await line.getByRole("button", { name: "Set it under the ceiling" }).click();
  await poll(height).toBeCloseTo(deep.room.ceilingHeight - 0.385, 3);
  await poll(() => line.innerText()).toMatch(/^ambient: under the ceiling\./);
  await line.getByRole("button", { name: "Set it into the ceiling" }).click();
  await poll(height).toBeUndefined();
  await poll(() => line.innerText()).toMatch(/^ambient: goes 385 mm/);
});

// 2026-11-29: papers asked to confirm that pendants beyond the edge of the top are meant, and nothing on the page did.
it("confirms that what reaches beyond the top is meant, and takes it back", async () => {
  const { example } = viewer;
  const beyond = structuredClone(example) as Study & {
    arrangements: { layers: { row?: { offset?: number[] }; beyondTop?: boolean }[] }[];
  };
  Object.assign(beyond.arrangements[0].layers[0].row ?? {}, { offset: [0, 0.45] });
  await startAfresh(page, beyond);
  await refined(page);
  await page.getByRole("button", { name: "Hand-over", exact: true }).click();
  const hold = page.locator(".holds li", { hasText: "Hangs beyond the edge of the top" });
  await hold.locator("a").click();
  const meant = page.getByLabel("Reaching beyond the top by 50 mm is meant");
  await poll(() => page.locator("#controls input:focus").count()).toBe(1);
  await shot("beyond-top");
  await meant.check();
  const said = async () => (await studyOf<typeof beyond>(page)).arrangements[0].layers[0].beyondTop;
  await poll(said).toBe(true);
  await refined(page);
  await page.getByRole("link", { name: /to the papers|Back to what is on HOLD/ }).click();
  await page.locator(".holds h2").waitFor();
  await poll(() => hold.count()).toBe(0);
  await page.getByRole("button", { name: "Lights", exact: true }).click();
  await meant.uncheck();
  await poll(said).toBeUndefined();
});
