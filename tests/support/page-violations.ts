/** What of a page's accessibility a machine can judge. Contrast is calculated (page-contrast.ts): axe cannot tell what lies behind
 * words. */
import axe from "axe-core";
import type { Page } from "playwright-core";

/** Before the first question, and after the page was loaded anew. */
export async function bringAxe(page: Page): Promise<void> {
  await page.evaluate(axe.source);
}

/** Each rule that is broken or left undecided, with the places where that is asked. */
export async function violationsNow(page: Page, hasPlaces: boolean): Promise<string[]> {
  // Awaited in the page itself, like `kept`.
  await page.evaluate((selectors) => {
    const inPage = window as unknown as { axe: typeof axe; axeResults?: axe.AxeResults };
    inPage.axeResults = undefined;
    void inPage.axe
      .run(document, {
        resultTypes: ["violations", "incomplete"],
        selectors,
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
      })
      .then((results) => {
        inPage.axeResults = results;
      });
  }, hasPlaces);
  // What passed stays in the page.
  const results = await (
    await page.waitForFunction(() => {
      const { axeResults: found } = window as unknown as { axeResults?: axe.AxeResults };
      if (found === undefined) return undefined;
      return [...found.violations, ...found.incomplete.filter(({ id }) => id !== "color-contrast")];
    })
  ).jsonValue();
  if (results === undefined) throw new Error("axe gave no results");
  return results.map(
    (each) =>
      `${each.id}: ${each.nodes
        .map((node) => (node.target ?? []).join(" "))
        .slice(0, 4)
        .join("; ")}`,
  );
}

/** What is found of a page at rest. Where each stands takes as long to find as whether it is there, and is asked of what was found. */
export async function lastingFaults(look: (hasPlaces: boolean) => Promise<string[]>): Promise<string[]> {
  if ((await look(false)).length === 0) return [];
  // A page that is drawn anew while it is read is neither what it was nor what it becomes: what stays is found twice.
  const first = await look(true);
  const again = await look(true);
  return first.filter((each) => again.includes(each));
}
