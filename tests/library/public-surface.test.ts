/** The public surface, name by name with its signature: a change of it shows here, and is meant or mended. */
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import * as library from "candlespan";
import { expect, it } from "vitest";

const entry = fileURLToPath(new URL("../../dist/index.d.ts", import.meta.url));

/** File that declares each name of an entry, by its `export … from`. */
function declarations(file: string): Map<string, string> {
  const found = new Map<string, string>();
  const text = readFileSync(file, "utf8");
  for (const [, names, from] of text.matchAll(/export (?:type )?\{([^}]*)\} from "([^"]+)"/g)) {
    const declared = join(dirname(file), from.replace(/\.(?:ts|js)$/, ".d.ts"));
    for (const name of names.split(",")) {
      const own = name
        .trim()
        .replace(/^type /, "")
        .replace(/^.* as /, "");
      found.set(own, declarations(declared).get(own) ?? declared);
    }
  }
  return found;
}

/** A declaration as it is emitted, and whether a comment stands above it. */
function declared(name: string, file: string): { readonly text: string; readonly documented: boolean } {
  const lines = readFileSync(file, "utf8").split("\n");
  const start = lines.findIndex((line) =>
    new RegExp(`^export declare (?:function|const|class) ${name}\\b`).test(line),
  );
  expect(start, name).toBeGreaterThanOrEqual(0);
  const isOpen = /\{$/.test(lines[start]);
  const length = lines.slice(start).findIndex((line) => (isOpen ? /^\}/.test(line) : /;$/.test(line)));
  const text = lines
    .slice(start, start + length + 1)
    .filter((line) => !/^\s*(?:\/?\*|#private)/.test(line))
    .join("\n");
  return { text, documented: lines[start - 1]?.trim().endsWith("*/") === true };
}

it("is what it was, each value documented", async () => {
  const files = declarations(entry);
  const values = Object.keys(library).sort();
  const types = [...files.keys()].filter((name) => !values.includes(name)).sort();
  const all = values.map((name) => ({ name, ...declared(name, files.get(name) as string) }));
  expect(values.length).toBeLessThanOrEqual(50);
  const surface = [...all.map(({ text }) => text), ...types.map((name) => `type ${name}`)];
  await expect(`${surface.join("\n")}\n`).toMatchFileSnapshot("public-surface.txt");
  expect(all.filter(({ documented }) => !documented).map(({ name }) => name)).toEqual([]);
});
