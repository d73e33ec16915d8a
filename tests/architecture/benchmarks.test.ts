/** Benchmarks run the built library by hand, so nothing else notices when what they import has gone. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const folder = fileURLToPath(new URL("../benchmarks", import.meta.url));
const source = fileURLToPath(new URL("../../src", import.meta.url));

it.each(readdirSync(folder).filter((name) => name.endsWith(".mjs")))("%s imports what is there", (name) => {
  const text = readFileSync(join(folder, name), "utf8");
  const imports = text.matchAll(/import\s+\{([^}]*)\}\s+from\s+"\.\.\/\.\.\/dist\/([^"]+)\.js"/g);
  for (const [, names, path] of imports) {
    const file = join(source, `${path}.ts`);
    expect(existsSync(file), `${path} in ${name}`).toBe(true);
    const module = readFileSync(file, "utf8");
    for (const each of names.split(",").map((one) => one.trim()))
      expect(module, `${each} of ${path}`).toMatch(
        new RegExp(`export (?:async )?(?:function|class|const) ${each}\\b|export \\{[^}]*\\b${each}\\b`),
      );
  }
});
