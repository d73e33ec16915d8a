/** A page killed at any moment of editing loses the last edit at most. `CANDLESPAN_KILLS=200` kills as often. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { randomStream } from "../support/random-stream.ts";
import { atWork, openViewer, studyOf, type Viewer } from "../support/viewer.ts";

const KILLS = Number(process.env.CANDLESPAN_KILLS ?? 4);
/** Of the moments: runs that add up take one each. */
const SEED = Number(process.env.CANDLESPAN_SEED ?? 7);
let viewer: Viewer;

beforeAll(async () => {
  viewer = await openViewer({ isDirect: true });
});
afterAll(() => viewer.close());

it("goes on with the last edit or the one before", async () => {
  const random = randomStream(SEED);
  const context = await viewer.browser.newContext({ viewport: { width: 1280, height: 800 } });
  const foreign: string[] = [];
  context.on("request", (request) => {
    if (!/^(http:\/\/127\.0\.0\.1|blob:|data:)/.test(request.url())) foreign.push(request.url());
  });
  const lost: number[] = [];
  let edited = 0;
  for (let kill = 0; kill < KILLS; kill++) {
    const page = await context.newPage();
    await page.goto(viewer.server.address);
    await atWork(page);
    if (edited > 0) {
      const { title } = await studyOf<{ title?: string }>(page);
      lost.push(edited - Number(title?.replace("edit ", "")));
    }
    const field = page.getByLabel("Title of the study");
    for (let n = 1 + Math.floor(4 * random()); n > 0; n--) {
      await field.fill(`edit ${++edited}`);
      await field.press("Enter");
      await page.waitForTimeout(150 * random());
    }
    const killed = new Promise((done) => page.once("crash", done));
    const client = await context.newCDPSession(page);
    void client.send("Page.crash").catch(() => {});
    await killed;
    await page.close();
  }
  console.log(
    `${KILLS} kills, edits lost: ${lost.filter((count) => count > 0).length} times one, most ${Math.max(...lost)}`,
  );
  expect(lost.filter((count) => !(count === 0 || count === 1))).toEqual([]);
  expect(foreign).toEqual([]);
});
