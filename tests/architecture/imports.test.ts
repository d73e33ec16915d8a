/** The path of light is the layout: each stage imports only from itself and stages above it (the last ones, the ways in, from one another), and the pure ones only from
 * a short list of packages. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { circles } from "../support/import-circles.ts";

const source = fileURLToPath(new URL("../../src", import.meta.url));

const STAGES = [
  ["units"],
  ["diagnostics"],
  ["numerics"],
  ["geometry"],
  ["photometry"],
  ["luminaire"],
  ["study"],
  ["scene"],
  ["engine"],
  ["assessment"],
  ["advice"],
  ["design"],
  ["app"],
  ["words"],
  ["drawing"],
  ["papers"],
  ["formats"],
  ["elements"],
  ["preview"],
  ["workers", "cli", "library", "elements.ts", "app.ts", "index.ts"],
] as const;

const PURE_PACKAGES = new Set(["gl-matrix", "ml-matrix", "d3-contour", "d3-scale", "valibot"]);
/** Packages of single corners, each with the reason it is there. */
const EXTRA_PACKAGES: Record<string, readonly string[]> = {
  "photometry/readers": ["saxes", "fflate"], // TM-33 is XML, GLDF a zip
  formats: ["@tarikjabiri/dxf", "bidi-js", "pdfkit"],
  elements: ["lit", "@lit/context", "@lit/task", "fflate", "idb"],
  design: ["yalps"], // levels of a setting are a linear problem
  preview: ["three", "lit", "three-mesh-bvh"],
  cli: ["vite"], // builds the viewer where its sources are at hand
};

const files = readdirSync(source, { recursive: true })
  .map((name) => String(name).replaceAll("\\", "/"))
  .filter((name) => name.endsWith(".ts") && !name.endsWith(".gen.ts"));

function stageOf(file: string): number {
  const head = file.split("/")[0];
  return STAGES.findIndex((stage) => (stage as readonly string[]).includes(head));
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(source, file), "utf8");
  const found = text.matchAll(
    /(?:^|\n)\s*(?:import|export)\s[^;]*?from\s+"([^"]+)"|import\(\s*"([^"]+)"\s*\)|(?:^|\n)import\s+"([^"]+)"/g,
  );
  return [...found].map((match) => (match[1] ?? match[2] ?? match[3]) as string);
}

/** Rooms whose functions only app puts together. */
const INNER = ["engine", "assessment", "advice", "design"];

const fileOf = (specifier: string, from: string): string =>
  relative(source, resolve(source, dirname(from), specifier)).replaceAll("\\", "/");

/** Files from which a file imports more than types at once. */
function valuesFrom(file: string, text: string): readonly string[] {
  const found = new Set<string>();
  for (const [, clause, specifier] of text.matchAll(/(?:^|\n)import\s+([^;"]*?)\s+from\s+"(\.[^"]+)"/g)) {
    if (clause.startsWith("type ")) continue;
    const names = /\{([^}]*)\}/.exec(clause)?.[1].split(",") ?? ["all"];
    if (names.every((name) => name.trim() === "" || name.trim().startsWith("type "))) continue;
    found.add(fileOf(specifier, file));
  }
  return [...found];
}

const read = (file: string): string => readFileSync(join(source, file), "utf8");

describe("the path of light", () => {
  it("knows every file's stage", () => {
    expect(files.filter((file) => stageOf(file) < 0)).toEqual([]);
  });

  it("runs one way", () => {
    const wrong: string[] = [];
    for (const file of files) {
      for (const specifier of importsOf(file)) {
        if (!specifier.startsWith(".")) continue;
        const target = relative(source, resolve(source, dirname(file), specifier)).replaceAll("\\", "/");
        const from = stageOf(file);
        const to = stageOf(target);
        if (target.endsWith(".gen.ts") || (to >= 0 && to <= from)) continue;
        wrong.push(`${file} imports ${target}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it("keeps elements apart from workers and the command line", () => {
    const wrong = files
      .filter((file) => stageOf(file) < STAGES.length - 1 || file === "elements.ts" || file === "index.ts")
      .flatMap((file) =>
        importsOf(file)
          .filter((s) => /(^|\/)(workers|cli)\//.test(s))
          .map((s) => `${file} imports ${s}`),
      );
    expect(wrong).toEqual([]);
  });

  it("imports only the packages each corner may", () => {
    const wrong: string[] = [];
    for (const file of files) {
      const allowed = new Set(PURE_PACKAGES);
      for (const [folder, names] of Object.entries(EXTRA_PACKAGES)) {
        if (file.startsWith(`${folder}/`)) for (const name of names) allowed.add(name);
      }
      for (const specifier of importsOf(file)) {
        if (specifier.startsWith(".")) continue;
        if (specifier.startsWith("node:") && (file.startsWith("cli/") || file.startsWith("workers/node")))
          continue;
        const name = specifier.startsWith("@")
          ? specifier.split("/").slice(0, 2).join("/")
          : specifier.split("/")[0];
        if (!allowed.has(name)) wrong.push(`${file} imports ${specifier}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it("touches the disk only in cli/files", () => {
    const wrong = files.filter(
      (file) => !file.startsWith("cli/files/") && importsOf(file).some((s) => /^node:fs/.test(s)),
    );
    expect(wrong).toEqual([]);
  });

  it("puts light and judgement together in app alone", () => {
    const wrong: string[] = [];
    for (const file of files) {
      const room = file.split("/")[0];
      // Below app the rooms build on one another; app is the place itself.
      if (stageOf(file) <= STAGES.findIndex(([name]) => name === "app")) continue;
      const rooms = new Set(valuesFrom(file, read(file)).map((each) => each.split("/")[0]));
      const inner = [...rooms].filter((each) => INNER.includes(each));
      const asking = ["workers", "cli", "library", "elements"].includes(room) || room === "app.ts";
      const forbidden = asking ? ["engine", "assessment", "design"] : [];
      if (inner.some((each) => forbidden.includes(each)) || (inner.includes("engine") && inner.length > 1))
        wrong.push(`${file} uses ${inner.join(" and ")}`);
    }
    expect(wrong).toEqual([]);
  });

  it("has no circle, of values, of types, or of what is loaded later", () => {
    const near = (file: string): string[] => importsOf(file).filter((specifier) => specifier.startsWith("."));
    expect(
      circles(new Map(files.map((file) => [file, near(file).map((each) => fileOf(each, file))]))),
    ).toEqual([]);
  });

  it("finds a breach when there is one", () => {
    const text =
      'import { assess, type FineField } from "../assessment/assess.ts";\nimport type { X } from "../engine/x.ts";';
    expect(valuesFrom("papers/a.ts", text)).toEqual(["assessment/assess.ts"]);
    expect(stageOf("engine/calculate.ts")).toBeGreaterThan(stageOf("photometry/photometry.ts"));
    expect(importsOf("scene/resolved-study.ts").length).toBeGreaterThan(2);
  });
});
