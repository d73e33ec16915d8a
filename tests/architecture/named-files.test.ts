/** Comments that name a file name one that is there: a path from the top, or a name that some file of the project has. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const tracked = execFileSync("git", ["ls-files", "--cached", "--others", "--exclude-standard"], {
  cwd: root,
  encoding: "utf8",
})
  .trim()
  .split("\n");
const paths = new Set(tracked);
const names = new Set(tracked.map((path) => basename(path)));
const SOURCES = /^(src|site|shaders|tests)\/.*\.(ts|mjs|glsl|css)$/;

/** Comments of a source, without what stands in strings. */
function commentsOf(text: string): string {
  return [...text.matchAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$|\s\/\/ .*$/gm)]
    .map(([comment]) => comment)
    .join("\n");
}

it("names only files that are there in comments", () => {
  const missing = tracked
    .filter((path) => SOURCES.test(path))
    .flatMap((path) => {
      const comments = commentsOf(readFileSync(join(root, path), "utf8"));
      const named = [
        ...[
          ...comments.matchAll(
            /\b(?:src|tests|site|shaders|fixtures-data)\/[\w./-]+\.(?:ts|mjs|md|glsl|css|html)\b/g,
          ),
        ]
          .map(([found]) => found)
          .filter((found) => !paths.has(found)),
        ...[...comments.matchAll(/(?<![\w/.-])([a-z][\w-]*(?:-[\w]+)*\.(?:ts|glsl|mjs))\b/g)]
          .map(([, found]) => found)
          .filter((found) => !names.has(found)),
      ];
      return named.map((found) => `${path}: ${found}`);
    });
  expect(missing).toEqual([]);
});
