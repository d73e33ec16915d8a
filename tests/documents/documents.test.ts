/** What the documents promise is there: links lead somewhere, the library example runs, the picture is the one
 * the program draws. */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { candlespan } from "../support/cli.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const read = (file: string) => readFileSync(join(root, file), "utf8");

describe.each(["README.md", "DEVELOPERS.md", "fixtures-data/README.md"])("%s", (file) => {
  it("links only to what is there", () => {
    const targets = [...read(file).matchAll(/\]\(([^)#]+)\)/g)].map((match) => match[1]);
    const missing = targets.filter(
      (target) => !/^https?:/.test(target) && !existsSync(join(root, dirname(file), target)),
    );
    expect(missing).toEqual([]);
  });

  it("names only scripts that are there", () => {
    const scripts = Object.keys(JSON.parse(read("package.json")).scripts);
    const named = [...read(file).matchAll(/npm (?:run (?:-s )?)?(test|[a-z:]+)(?= |$|`|\n)/g)]
      .map((match) => match[1])
      .filter((name) => !["audit", "ci", "run", "link"].includes(name));
    expect(named.filter((name) => !scripts.includes(name))).toEqual([]);
  });
});

it("runs the library example of the README", () => {
  const example = /```js\n([\s\S]*?)```/.exec(read("README.md"))?.[1] ?? "";
  const printed = execFileSync(process.execPath, ["--input-type=module", "-e", example], {
    cwd: root,
    encoding: "utf8",
  });
  expect(printed).toMatch(/^three domes meets prep \d+ lx eating \d+ lx washing \d+ lx$/m);
  expect(printed.trim().split("\n")).toHaveLength(3);
});

it("shows the picture that the program draws", () => {
  const { code, out } = candlespan([
    "isolux",
    join(root, "fixtures-data/boathouse/boathouse.study.json"),
    "--arrangement",
    "three domes",
  ]);
  expect(code).toBeLessThan(2);
  expect(out === read("fixtures-data/boathouse/plan.svg")).toBe(true);
});

it("knows where every fixture comes from", () => {
  const files = execFileSync("git", ["ls-files", "fixtures-data"], { cwd: root, encoding: "utf8" })
    .trim()
    .split("\n");
  const rows = read("fixtures-data/README.md");
  const unknown = files
    .map((file) => file.slice("fixtures-data/".length))
    .filter((file) => file !== "README.md" && !rows.includes(`\`${file}\``));
  expect(unknown).toEqual([]);
});
