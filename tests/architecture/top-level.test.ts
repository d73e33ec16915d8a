/** The top level is fixed: a visitor finds the same few names for ever. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const ALLOWED = new Set([
  "README.md",
  "DEVELOPERS.md",
  "LICENSE",
  "package.json",
  "package-lock.json",
  "tsconfig.json",
  "src",
  "shaders",
  "tests",
  "fixtures-data",
  "site",
]);

const tracked = execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8" }).trim().split("\n");

it("holds only the fixed names and dot-files", () => {
  const names = new Set(tracked.map((path) => path.split("/")[0]));
  expect([...names].filter((name) => !ALLOWED.has(name) && !name.startsWith("."))).toEqual([]);
});

it("keeps the lockfile free of hosts", () => {
  expect(readFileSync(join(root, "package-lock.json"), "utf8")).not.toMatch(
    /https?:\/\/(?!(github\.com|opencollective\.com|www\.patreon\.com|paulmillr\.com|feross\.org|[^"]*funding))[^"]*\.tgz/,
  );
});
