/** A page that embeds an element restyles what is nested in it, too: every part of a nested element is exported and documented. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const ROOT = fileURLToPath(new URL("../../src/elements", import.meta.url));

interface Source {
  readonly text: string;
  readonly tag: string;
  readonly parts: readonly string[];
}

const sources = readdirSync(ROOT, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .flatMap((name): Source[] => {
    const text = readFileSync(join(ROOT, name), "utf8");
    const tag = /@tag (\S+)/.exec(text)?.[1];
    if (tag === undefined) return [];
    return [{ text, tag, parts: [...text.matchAll(/@csspart (\S+)/g)].map(([, part]) => part) }];
  });

/** Tags in templates, with all that stands in them up to the end of the template's first line break or bracket. */
const nestedIn = (text: string) =>
  [...text.matchAll(/<(candlespan-[a-z-]+)\b([^`]*?)<\/\1>/g)].map(([, tag, rest]) => ({ tag, rest }));

it("exports and documents the parts of every nested element", () => {
  let nested = 0;
  for (const { text, tag, parts } of sources) {
    for (const inner of nestedIn(text.replace(/\/\*\*[\s\S]*?\*\//g, ""))) {
      const own = sources.find((each) => each.tag === inner.tag)?.parts ?? [];
      if (own.length === 0) continue;
      nested++;
      const exported = /exportparts="([^"]*)"/.exec(inner.rest)?.[1].split(/,\s*/) ?? [];
      expect([...exported].sort(), `${inner.tag} in ${tag}`).toEqual([...own].sort());
      expect(parts, tag).toEqual(expect.arrayContaining(exported));
    }
  }
  expect(nested).toBeGreaterThan(6);
});
