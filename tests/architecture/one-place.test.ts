/** What DEVELOPERS.md and heads of files say is in one place, or nowhere, is there and nowhere else. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const sources = execFileSync(
  "git",
  ["ls-files", "--cached", "--others", "--exclude-standard", "src", "site"],
  {
    cwd: root,
    encoding: "utf8",
  },
)
  .trim()
  .split("\n")
  .filter((path) => path.endsWith(".ts"));

/** Source without comments, so that words about a thing are not the thing. */
const code = new Map(
  sources.map((path) => [
    path,
    readFileSync(join(root, path), "utf8")
      .replace(/\/\*[\s\S]*?\*\//g, "")
      .replace(/(^|\s)\/\/ .*$/gm, "$1"),
  ]),
);

const within = (pattern: RegExp, under = /^/): string[] =>
  sources.filter((path) => under.test(path) && pattern.test(code.get(path) as string));

it.each<[what: string, pattern: RegExp, places: readonly string[]]>([
  [
    "the engine's memory is made by the studies that are open, and by who asks for body shadows without one",
    /new LightEngine\(/,
    ["src/advice/body-shadow.ts", "src/app/engines.ts"],
  ],
  [
    "a verdict follows from a probability by one function, for calculated light and for readings on site",
    /(?<!function )\bverdictAt\(/,
    ["src/assessment/uncertainty/verdict-method.ts", "src/design/verify/verified-zones.ts"],
  ],
  [
    "light is multiplied or divided by the maintenance factor where the head of maintained.ts says, and in the bands of that factor",
    / [*/] (?:\(\w+ \? )?(?:\w+\.)*maintenance\b| maintenance \*/,
    [
      "site/light/reading-points.ts",
      "site/views/readings/site-readings.ts",
      "src/assessment/uncertainty/field-uncertainty.ts",
      "src/design/found-levels.ts",
      "src/design/search/required-margin.ts",
      "src/design/verify/verified-zones.ts",
      "src/design/verify/verify.ts",
      "src/scene/maintained.ts",
    ],
  ],
  ["shaders are read by the preview", /shaders\.gen|\.glsl/, ["src/preview/compose.ts"]],
  [
    "how large a file may be is in file-limits.ts, not where it is read",
    /\bread(?:Bytes|Utf8|Within)\([^;{]*?\d{3}/,
    [],
  ],
  ["nothing is random", /Math\.random/, []],
  [
    "matrices are plain Float64Array",
    /\b(?:mat[234]|vec[234]|quat)\.(?:create|clone|from\w+)\(|setMatrixArrayType/,
    [],
  ],
])("%s", (_, pattern, places) => {
  expect(within(pattern)).toEqual(places);
});

it("remembers in variables of modules what DEVELOPERS.md says, and besides only what no answer hangs on", () => {
  const said = readFileSync(join(root, "DEVELOPERS.md"), "utf8")
    .split("\nWhat is remembered")[1]
    .split("\n## ")[0];
  const remembers = /^(?:export )?(?:let \w|const \w+ = new (?:RecentCache\b|Map(?:<.*>)?\(\)))/m;
  const remembering = within(remembers, /^src\//);
  expect(remembering).toContain("src/luminaire/shade/build.ts");
  expect(remembering.filter((path) => !said.includes(`](${path})`))).toEqual([
    "src/cli/files/write.ts", // numbers half-written files
    "src/elements/shared/drag-controller.ts", // a module that loads later
    "src/elements/shared/interactive-drawing.ts", // whether the pointer is coarse
    "src/geometry/polyhedron.ts", // room to work in
  ]);
});
