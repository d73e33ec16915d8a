/** Every element declares what it is: its tag in its documentation, the same that it registers, every event it
 * sends of its own. The manifest is generated from these words. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const folder = fileURLToPath(new URL("../../src/elements", import.meta.url));
const sources = readdirSync(folder, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith(".ts"))
  .map((name) => readFileSync(`${folder}/${name}`, "utf8"));

it("declares the tag it registers", () => {
  const registered = sources.flatMap((text) =>
    [...text.matchAll(/define\("(candlespan-[a-z-]+)"/g)].map((m) => m[1]),
  );
  const declared = sources.flatMap((text) =>
    [...text.matchAll(/@tag (candlespan-[a-z-]+)/g)].map((m) => m[1]),
  );
  expect(registered.length).toBeGreaterThanOrEqual(16);
  expect(declared.sort()).toEqual(registered.sort());
});

it("documents every event it sends", () => {
  for (const text of sources) {
    const sent = [...text.matchAll(/new CustomEvent(?:<\w+>)?\(\s*"([a-z-]+)"/g)].map((m) => m[1]);
    if (!text.includes("define(")) continue;
    for (const type of sent) expect(text).toContain(`@fires ${type}`);
  }
});

it("is named by the tag map, so that a page's own types know it", () => {
  for (const text of sources)
    for (const [, tag] of text.matchAll(/define\("(candlespan-[a-z-]+)"/g))
      expect(text).toContain(`"${tag}": `);
});
