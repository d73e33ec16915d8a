/** Every shader file keeps the conventions of shaders/README.md, and every program compiles. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { compose, SHADER_NAMES } from "../../src/preview/compose.ts";
import { programFor } from "../../src/preview/light-program.ts";
import { openBrowser, PAINTED_BY_PROCESSOR, type TestBrowser } from "../support/browser.ts";

const folder = fileURLToPath(new URL("../../shaders", import.meta.url));
const files = readdirSync(folder, { recursive: true })
  .map((name) => String(name).replaceAll("\\", "/"))
  .filter((name) => name.endsWith(".glsl"));
const textOf = (name: string): string => readFileSync(join(folder, name), "utf8");
/** Text without comments. */
const code = (text: string): string => text.replace(/\/\/.*$/gm, "");

describe("conventions", () => {
  it("packs every file and nothing else", () => {
    expect([...SHADER_NAMES].sort()).toEqual(files.map((name) => name.replace(/\.glsl$/, "")).sort());
    for (const name of SHADER_NAMES) expect(textOf(`${name}.glsl`).length).toBeGreaterThan(80);
  });

  for (const name of files) {
    it(name, () => {
      const text = textOf(name);
      expect(text.startsWith("// "), "a head that says what it computes").toBe(true);
      expect(/[^\t\n\x20-\x7e]/.test(text), "plain ASCII").toBe(false);
      expect(/\t| +$/m.test(text), "no tabs, nothing after the last word").toBe(false);
      expect(Math.max(...text.split("\n").map((line) => line.length)), "lines").toBeLessThanOrEqual(200);
      expect(/#version|^precision /m.test(text), "version and precision come when compiled").toBe(false);
      for (const [line] of text.matchAll(/#include.*/g)) expect(line).toMatch(/^#include <[a-z/-]+>$/);
      expect(/\btexture2D\b|\bvarying\b|\battribute\b|gl_FragColor/.test(code(text)), "GLSL ES 3.00").toBe(
        false,
      );
      // The language's own inverse tangent is too coarse beside a table of one degree.
      if (name.startsWith("light/")) expect(/\batan\s*\(/.test(code(text)), "arctangent").toBe(false);
    });
  }

  it("brings a chunk in once, and refuses an unknown one", () => {
    const whole = compose("light/at-points.frag");
    expect(whole.split("vec4 record(int index)").length).toBe(2);
    expect(() => compose("light/none" as never)).toThrow("light/none");
  });
});

describe("programs", () => {
  let browser: TestBrowser;
  beforeAll(async () => {
    browser = await openBrowser(PAINTED_BY_PROCESSOR);
  });
  afterAll(() => browser?.close());

  const vertexOf: Record<string, string> = {
    "light/at-points.frag": "light/points.vert",
    "view/develop.frag": "light/screen.vert",
    "view/room.frag": "view/room.vert",
    "view/luminous.frag": "view/luminous.vert",
    "view/ink.frag": "view/ink.vert",
  };

  it("pairs every fragment shader", () => {
    expect(SHADER_NAMES.filter((name) => name.endsWith(".frag")).sort()).toEqual(
      Object.keys(vertexOf).sort(),
    );
  });

  it("compile and link", async () => {
    const page = await browser.newPage();
    // The light's program in every kind of opening and distribution, with something between and with nothing, with a
    // near field of its own and without.
    const kinds = [0, 1, 2, 3, 4, 5].flatMap((kind) =>
      [
        [0, false],
        [8, false],
        [0, true],
        [8, true],
      ].map(([between, traced]) => {
        const luminaire = Array.from({ length: 32 }, (_, k) =>
          k === 3 ? kind : k === 17 && traced ? 100 : 0,
        );
        const distribution = [kind % 3, kind < 3 ? 1 : 9, 19, 0, 0, 0, kind % 2, (kind + 1) % 2];
        return programFor(luminaire, distribution, Number(between));
      }),
    );
    const defined = (defines: Readonly<Record<string, number>>): string =>
      Object.entries(defines)
        .map(([name, value]) => `#define ${name} ${value}\n`)
        .join("");
    const programs = Object.entries(vertexOf).flatMap(([fragment, vertex]) =>
      (fragment === "light/at-points.frag" ? [{}, ...kinds] : [{}]).map((defines) => ({
        fragment: `#version 300 es\n${defined(defines)}precision highp float;\nprecision highp int;\n${compose(fragment as never)}`,
        vertex: `#version 300 es\nprecision highp float;\n${compose(vertex as never)}`,
        name: `${fragment} ${JSON.stringify(defines)}`,
      })),
    );
    const logs = await page.evaluate((given) => {
      const gl = document.createElement("canvas").getContext("webgl2");
      if (gl === null) return ["no WebGL 2"];
      return given.flatMap(({ fragment, vertex, name }) => {
        const program = gl.createProgram();
        const said: string[] = [];
        for (const [kind, text] of [
          [gl.VERTEX_SHADER, vertex],
          [gl.FRAGMENT_SHADER, fragment],
        ] as const) {
          const shader = gl.createShader(kind) as WebGLShader;
          gl.shaderSource(shader, text);
          gl.compileShader(shader);
          const log = gl.getShaderInfoLog(shader);
          if (log) said.push(`${name}: ${log}`);
          gl.attachShader(program, shader);
        }
        gl.linkProgram(program);
        if (!gl.getProgramParameter(program, gl.LINK_STATUS))
          said.push(`${name}: ${gl.getProgramInfoLog(program)}`);
        return said;
      });
    }, programs);
    expect(logs).toEqual([]);
    await page.close();
  });
});
