/** 2026-11-28. Opening studies one after another kept every one of them in the list of changes, which edits alone shortened: a page left open all
 * day grew with each. The list holds 500 changes, however they were made or kept. */
import { expect, it } from "vitest";
import { StudyHistory } from "../../site/store/history.ts";

it("keeps 500 changes", () => {
  const history = new StudyHistory({ n: 0 });
  for (let n = 1; n <= 2000; n++) history.replace("open", { n });
  expect(history.done.length).toBe(500);
  history.restore({ n: 0 }, history.done.concat(history.done), history.done.concat(history.done));
  expect([history.done.length, history.undone.length]).toEqual([500, 500]);
});
