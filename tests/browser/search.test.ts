/** The search in the page: asked for, followed, stopped; and what it proposes becomes an option that is judged the same. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { atWork, type OpenPage, openPage, refined, startAfresh } from "../support/viewer.ts";

let viewer: OpenPage;
beforeAll(async () => {
  viewer = await openPage({ viewport: { width: 1280, height: 900 } });
});
afterAll(() => viewer.close());

it("searches, stops, searches again and adds a proposal as an option", async () => {
  const { page, troubles } = viewer;
  await page
    .getByRole("button", { name: "Lights" })
    .or(page.getByRole("link", { name: "Lights" }))
    .first()
    .click();
  await refined(page);
  const part = page.locator('section[aria-labelledby="search-heading"]');
  await part.locator("summary").first().click();
  await part.getByRole("button", { name: "Search" }).click();
  await part.getByText(/^Searching: /).waitFor();
  await part.getByRole("button", { name: "Stop the search" }).click();
  await part.getByText("The search was stopped.").waitFor();
  await part.getByRole("button", { name: "Search" }).click();
  // A title is nothing the search rests on.
  await page.getByLabel("Title of the study").fill("Boathouse, first floor");
  await page.getByLabel("Title of the study").press("Enter");
  const proposals = part.locator("article");
  await proposals.first().waitFor();
  const words = await proposals.first().innerText();
  expect(words).toMatch(/Why: /);
  expect(words).toMatch(/If you skip one: /);
  const verdict = /^(meets|falls short|too close to call)/m.exec(words)?.[1] ?? "";
  const name = await proposals.first().locator("h3").innerText();
  await proposals.first().getByRole("button").click();
  await page.getByRole("button", { name: new RegExp(`^D ${name}`) }).waitFor();
  await page.waitForSelector('.light-state[data-quality="judged"]');
  expect(await page.locator("main, body").first().innerText()).toContain(verdict);
  if (process.env.SEARCH_PICTURE !== undefined) await page.screenshot({ path: process.env.SEARCH_PICTURE });
  expect(troubles.splice(0)).toEqual([]);
});

it("holds readings against the prediction and says what is wrong with them, or with the kitchen", async () => {
  const { page, troubles, example } = viewer;
  await startAfresh(page, example);
  await page
    .getByRole("button", { name: "Hand-over" })
    .or(page.getByRole("link", { name: "Hand-over" }))
    .first()
    .click();
  await refined(page);
  const part = page.locator('section[aria-labelledby="readings-heading"]');
  await part.locator("summary").first().click();
  await part.getByText("From a list").click();
  await part.getByLabel("Readings").fill("along,across\n0.2,0.5");
  await part.getByRole("button", { name: "Compare the list" }).click();
  await part.getByText(/no one unit/).waitFor();
  const dead = [0.2, 0.7, 1.2, 1.7, 2.2].map((x, i) => `${x},0.55,${[470, 450, 310, 450, 470][i]},pendants`);
  await part.getByLabel("Readings").fill(`along,across,lx,lit\n${dead.join("\n")}`);
  await part.getByRole("button", { name: "Compare the list" }).click();
  await part.getByText(/P2 \(pendants no\. 2\) gives no light/).waitFor();
  await part.getByText("Reading by reading").click();
  expect(await part.locator("tbody tr").count()).toBe(5);
  expect(troubles.splice(0)).toEqual([]);
});

it("takes readings place by place on a phone, says the difference at once and keeps them", async () => {
  const opened = await openPage({ isDirect: true, viewport: { width: 390, height: 844 }, hasTouch: true });
  const { page, troubles } = opened;
  await page.getByRole("button", { name: "Hand-over" }).click();
  await refined(page);
  const part = page.locator("section.site-readings");
  await part.locator("summary").first().tap();
  await part.getByLabel("The light is").selectOption("aged");
  const places = part.locator("svg [role=button]");
  await places.first().tap();
  const entry = part.locator(".reading-entry");
  for (let i = 0; i < 3; i++) {
    // The sheet's own figure, typed back.
    const figure = (await places.nth(i).locator("text").textContent()) ?? "";
    await entry.locator("input").fill(figure);
    await entry.locator("input").press("Enter");
  }
  await places.first().tap();
  await entry.getByText(/predicted \d+ lx, the same/).waitFor();
  await entry.locator("input").fill("100");
  await entry.locator("input").press("Enter");
  await places.first().tap();
  await entry.getByText(/, −\d\d %/).waitFor();
  if (process.env.SCREENS !== undefined)
    await page.screenshot({ path: `${process.env.SCREENS}/readings-phone.png` });
  await page.reload();
  await atWork(page);
  await page.getByRole("button", { name: "Hand-over" }).click();
  await part.locator("summary").first().tap();
  await part.getByRole("button", { name: "Compare 3 readings" }).tap();
  await part.getByText(/readings, all together, do not agree with the prediction of aged light/).waitFor();
  if (process.env.SCREENS !== undefined) {
    await page.setViewportSize({ width: 1440, height: 900 });
    await part.scrollIntoViewIfNeeded();
    await page.screenshot({ path: `${process.env.SCREENS}/readings.png` });
  }
  await opened.close();
  expect(troubles).toEqual([]);
});
