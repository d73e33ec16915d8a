/** The site is an application of the library: it imports the entries that the package exports, and nothing behind them. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { circles } from "../support/import-circles.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The package's entries as patterns over source files: `./dist/elements/*\/*.js` is `src/elements/plan/plan.ts`. */
const { exports } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const ENTRIES = targets(exports)
  .filter((target) => target.startsWith("./dist/") && /\.js$/.test(target))
  .map((target) => {
    const [first, ...rest] = target
      .replace(/^\.\/dist\//, "src/")
      .replace(/\.js$/, ".ts")
      .split("*");
    const source = rest.reduce((all, part, i) => `${all}${i === 0 ? "([a-z-]+)" : "\\1"}${part}`, first);
    return new RegExp(`^${source.replaceAll(".", "\\.")}$`);
  });

function targets(entry: unknown): string[] {
  if (typeof entry === "string") return [entry];
  return Object.values(entry as object).flatMap(targets);
}

/** Imports of a module of the site that reach into the library past its entries. */
function reachingPast(file: string, text: string): string[] {
  return [...text.matchAll(/(?:from|import)\s*\(?\s*"(\.[^"]+)"/g)]
    .map(([, specifier]) => relative(root, resolve(root, dirname(file), specifier)).replaceAll("\\", "/"))
    .filter((target) => target.startsWith("src/") && !ENTRIES.some((entry) => entry.test(target)))
    .map((target) => `${file} imports ${target}`);
}

const files = readdirSync(join(root, "site"), { recursive: true })
  .map((name) => `site/${String(name).replaceAll("\\", "/")}`)
  .filter((name) => name.endsWith(".ts"));

it("imports only what the package exports", () => {
  expect(files.length).toBeGreaterThan(40);
  expect(files.flatMap((file) => reachingPast(file, readFileSync(join(root, file), "utf8")))).toEqual([]);
});

it("finds an import that reaches past an entry", () => {
  const text = `import { a } from "../src/app.ts";
import "../src/elements/plan/plan.ts";
import "../src/elements/plan/light-layer.ts";
import type { B } from "../src/engine/result.ts";
const c = import("../src/formats/csv-writer.ts");`;
  expect(reachingPast("site/x.ts", text).map((each) => each.split(" ").at(-1))).toEqual([
    "src/elements/plan/light-layer.ts",
    "src/engine/result.ts",
    "src/formats/csv-writer.ts",
  ]);
});

it("has no circle of imports", () => {
  const importsOf = new Map(
    files.map((file) => [file, imports(file).filter((target) => target.startsWith("site/"))]),
  );
  expect(circles(importsOf)).toEqual([]);
  const turned = new Map([
    ["a", ["b"]],
    ["b", ["c"]],
    ["c", ["b"]],
  ]);
  expect(circles(turned)).toEqual(["b imports itself by c"]);
});

/** Modules of the project that a module of the site imports, also when it is asked for later. */
function imports(file: string): string[] {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(/(?:from|import)\s*\(?\s*"(\.[^"]+)"/g)].map(([, specifier]) =>
    relative(root, resolve(root, dirname(file), specifier)).replaceAll("\\", "/"),
  );
}
