/**
 * Words come last: with the letters of every sentence in `words` exchanged, commands end as they did and write the same figures,
 * and the layers, blocks and lines of CAD files stay.
 */
import { spawnSync } from "node:child_process";
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseAst } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const STUDY = {
  format: "candlespan-study",
  version: 1,
  title: "Two domes",
  room: { length: 3, width: 2.6, ceilingHeight: 2.5 },
  island: {
    centre: [1.5, 1.3],
    length: 1.2,
    width: 0.8,
    height: 0.9,
    zones: [{ name: "prep", from: [0, 0], size: [1.2, 0.8], target: "prep" }],
  },
  targets: { prep: { name: "prep", illuminance: 5000, source: "far too much" } },
  luminaires: {
    dome: { beam: { flux: 800, angle: 90 }, body: { profile: "dome", diameter: 0.26, height: 0.2 } },
  },
  arrangements: [
    { name: "row", layers: [{ name: "pendants", luminaire: "dome", row: { count: 2, clearance: 0.7 } }] },
  ],
  calculation: { interreflection: false },
};
let folder = "";
let study = "";
let exchanged = 0;

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

/** Each letter by another of the same case. */
function exchange(words: string): string {
  return words.replace(/[a-z]/g, (c) => String.fromCharCode(97 + ((c.charCodeAt(0) - 97 + 13) % 26)));
}

/** Pieces of text that are said: with a space between words, and neither compared with, nor a key, nor the name of a module. */
function saidIn(node: Node, key: string, parent: Node | undefined, found: Node[]): void {
  const compared = parent?.type === "BinaryExpression" && /^[!=]==$/.test(String(parent.operator));
  const isKind =
    compared ||
    (parent?.type === "SwitchCase" && key === "test") ||
    key === "source" ||
    (key === "key" && parent?.type === "Property");
  if (node.type === "Literal" && typeof node.value === "string" && / /.test(node.value) && !isKind)
    found.push(node);
  if (node.type === "TemplateElement") found.push(node);
  for (const [name, child] of Object.entries(node)) {
    for (const each of Array.isArray(child) ? child : [child])
      if (typeof each === "object" && each !== null && typeof (each as Node).type === "string")
        saidIn(each as Node, name, node, found);
  }
}

function withWordsExchanged(source: string): string {
  const found: Node[] = [];
  saidIn(parseAst(source) as unknown as Node, "", undefined, found);
  let text = source;
  for (const { start, end } of found.sort((a, b) => b.start - a.start)) {
    // Escapes stay what they are.
    const words = source
      .slice(start, end)
      .replace(/\\u[0-9a-f]{4}|\\.|[^\\]+/gi, (part) => (part.startsWith("\\") ? part : exchange(part)));
    text = text.slice(0, start) + words + text.slice(end);
    exchanged++;
  }
  return text;
}

function run(main: string, ...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...args], {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { code: status, out: stdout, err: stderr };
}

const plain = join(ROOT, "dist/cli/main.js");
let shuffled = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "candlespan-words-"));
  cpSync(join(ROOT, "dist"), join(folder, "dist"), {
    recursive: true,
    filter: (path) => !path.endsWith(".map"),
  });
  cpSync(join(ROOT, "package.json"), join(folder, "package.json"));
  symlinkSync(join(ROOT, "node_modules"), join(folder, "node_modules"));
  const words = join(folder, "dist/words");
  for (const name of readdirSync(words).filter((each) => each.endsWith(".js")))
    writeFileSync(join(words, name), withWordsExchanged(readFileSync(join(words, name), "utf8")));
  shuffled = join(folder, "dist/cli/main.js");
  study = join(folder, "study.json");
  writeFileSync(study, JSON.stringify(STUDY));
  mkdirSync(join(folder, "a"));
  mkdirSync(join(folder, "b"));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("with every sentence of words exchanged", () => {
  it("check says other words, ends the same and gives the same figures", () => {
    expect(exchanged).toBeGreaterThan(300);
    const [was, is] = [plain, shuffled].map((main) => run(main, "check", study, "--quick"));
    expect(is.out).not.toBe(was.out);
    expect(was.code).toBe(1);
    expect(is.code).toBe(was.code);
    const [figures, same] = [plain, shuffled].map(
      (main) => run(main, "check", study, "--quick", "--json").out,
    );
    expect(same).not.toBe(figures);
    expect(withoutDescription(same)).toEqual(withoutDescription(figures));
  });

  it("CAD files keep their layers, blocks and lines", () => {
    const options = ["--quick", "--date", "2026-01-02"];
    expect(run(plain, "handover", study, "--out", join(folder, "a"), ...options).code).toBe(0);
    expect(run(shuffled, "handover", study, "--out", join(folder, "b"), ...options).code).toBe(0);
    const drawings = readdirSync(join(folder, "a")).filter((name) => name.endsWith(".dxf"));
    expect(drawings.length).toBeGreaterThan(0);
    for (const name of drawings) {
      const [was, is] = ["a", "b"].map((each) => readFileSync(join(folder, each, name), "utf8"));
      expect(layersAndBlocks(is)).toEqual(layersAndBlocks(was));
      expect(layersAndBlocks(was).length).toBeGreaterThan(20);
    }
  });
});

function withoutDescription(json: string): unknown {
  return JSON.parse(json, (key, value) => (key === "description" ? undefined : value));
}

/** Kind, layer and block of every entity, in order. */
function layersAndBlocks(dxf: string): string[] {
  const lines = dxf.split(/\r?\n/);
  const found: string[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const [code, value] = [lines[i].trim(), lines[i + 1]];
    if (code === "0" || code === "8" || code === "2") found.push(`${code} ${value}`);
  }
  return found;
}
