/** What a command loads before it does anything: a start costs what its modules cost, packages the most. */
import { readFileSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const source = fileURLToPath(new URL("../../src", import.meta.url));

/** Modules and packages that entries load at once: their values' static imports, followed. */
function loadedBy(...entries: readonly string[]): { modules: Set<string>; packages: Set<string> } {
  const modules = new Set<string>();
  const packages = new Set<string>();
  const waiting = entries.map((entry) => resolve(source, entry));
  for (const file of waiting) {
    if (modules.has(file)) continue;
    modules.add(file);
    const imports = readFileSync(file, "utf8").matchAll(
      /(?:^|\n)(?:import|export)\s(?!type\s)[^;]*?from\s+"([^"]+)"/g,
    );
    for (const [, specifier] of imports) {
      if (specifier.startsWith(".")) waiting.push(resolve(dirname(file), specifier));
      else if (!specifier.startsWith("node:")) packages.add(specifier);
    }
  }
  return { modules, packages };
}

it("helps without a package and from a dozen modules", () => {
  const { modules, packages } = loadedBy("cli/main.ts");
  expect([...packages]).toEqual([]);
  expect(modules.size).toBeGreaterThan(4);
  expect(modules.size).toBeLessThanOrEqual(12);
});

it("inspects an LM-63 file without a package", () => {
  expect([...loadedBy("cli/main.ts", "cli/commands/inspect.ts").packages]).toEqual([]);
  expect([...loadedBy("photometry/readers/read-photometry.ts").packages]).toEqual(["fflate", "saxes"]);
});

it("checks a study of LM-63 files without what reads archives", () => {
  const { packages } = loadedBy("cli/main.ts", "cli/commands/check.ts");
  expect([...packages]).not.toContain("fflate");
  expect([...packages]).not.toContain("saxes");
});
