import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { called } from "../support/cli.ts";
import { eulumdat, lm63 } from "../support/photometric-text.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "inspect-"));
  writeFileSync(at("good.ies"), lm63());
  writeFileSync(at("good.ldt"), eulumdat());
  writeFileSync(at("bad.ies"), lm63({ candela: "100 x 0" }));
  writeFileSync(at("empty.ies"), "");
  writeFileSync(at("binary.ies"), Buffer.from([0, 1, 2, 3, 255, 0, 0]));
  writeFileSync(at("named\u001b.ies"), lm63({ labels: ["[LUMINAIRE] \u001b]0;pwned\u0007"] }));
  mkdirSync(at("sub"));
  writeFileSync(at("sub/good.ies"), lm63());
  writeFileSync(at("outside.tlt"), "1\n2\n0 90\n1 1\n");
  writeFileSync(at("sub/tilted.ies"), lm63({ tilt: "TILT=../outside.tlt", header: "IESNA91" }));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const inspect = (...argv: string[]) => called("inspect", ...argv);

describe("inspect", () => {
  it("says in a dozen lines what a file holds", async () => {
    const { code, out, err } = await inspect(at("good.ies"));
    expect(code).toBe(0);
    expect(err).toBe("");
    expect(out).toMatch(/LM-63 2002, type C, rotational, absolute/);
    expect(out).toMatch(/maximum\s+100 cd at C 0°, γ 0°/);
    expect(out).toMatch(/opening\s+disc, 200 mm/);
    expect(out).toMatch(/table\s+1 plane of 3 angles/);
    expect(out.split("\n").length).toBeLessThan(18);
  });

  it("prints one JSON array, bad files among the good, exit 2", async () => {
    const { code, out, err } = await inspect(
      "--json",
      at("good.ies"),
      at("bad.ies"),
      at("none.ies"),
      at("good.ldt"),
    );
    expect(code).toBe(2);
    const objects = JSON.parse(out);
    expect(objects).toHaveLength(4);
    expect(objects[0]).toMatchObject({ file: at("good.ies"), format: "LM-63", planes: 1, angles: 3 });
    for (const key of [
      ...["file", "format", "edition", "type", "symmetry", "absolute", "flux", "maximum", "beamAngle"],
      ...["fieldAngle", "watts", "opening", "planes", "angles", "warnings"],
    ])
      expect(objects[0]).toHaveProperty(key);
    expect(objects[1]).toMatchObject({ file: at("bad.ies"), error: { line: 11 } });
    expect(objects[1].error.column).toBeGreaterThan(0);
    expect(objects[2].error).toMatchObject({ code: "file-unreadable" });
    expect(objects[3]).toMatchObject({ format: "EULUMDAT", flux: { rated: 1000 } });
    expect(err.trim().split("\n")).toHaveLength(2);
  });

  it("refuses empty and binary files by name, and goes on", async () => {
    const { code, out, err } = await inspect(at("empty.ies"), at("binary.ies"), at("good.ies"));
    expect(code).toBe(2);
    expect(err).toMatch(/empty\.ies.*empty/);
    expect(err).toMatch(/binary\.ies.*not text/);
    expect(out).toContain("good.ies");
  });

  it("never prints a figure that is none", async () => {
    writeFileSync(at("vast.ies"), lm63({ candela: "1e308 1e308 1e308" }));
    writeFileSync(at("faint.ies"), lm63({ candela: "1e-300 1e-310 1e-320" }));
    writeFileSync(at("thin.ies"), lm63({ ten: "1 -1 1 1 1 1 2 0 0 0", vertical: "30", candela: "5" }));
    for (const name of ["vast.ies", "faint.ies", "thin.ies", "good.ies"]) {
      const { out, err } = await inspect(at(name), "--at", "0,30");
      expect(out + err).not.toMatch(/NaN|Infinity|undefined|null/);
      expect((await inspect(at(name), "--svg", "--out", "-")).out).not.toMatch(/NaN|Infinity|undefined/);
    }
    expect((await inspect(at("vast.ies"))).code).toBe(2);
  });

  it("answers intensity at directions", async () => {
    const { out } = await inspect(
      "--json",
      "--at",
      "0,0",
      "--at",
      "123.5, 22.5",
      "--at=-10,100",
      at("good.ies"),
    );
    expect(JSON.parse(out)[0].intensity).toEqual([
      { C: 0, gamma: 0, cd: 100 },
      { C: 123.5, gamma: 22.5, cd: 85 },
      { C: -10, gamma: 100, cd: 0 },
    ]);
    expect((await inspect("--at", "0,45", at("good.ies"))).out).toMatch(/at 0, 45\s+70 cd/);
    for (const bad of ["90", "0,200", "0,-1", "a,b", "1,2,3", "1e9,3"]) {
      const refused = await inspect(`--at=${bad}`, at("good.ies"));
      expect([bad, refused.code, refused.out]).toEqual([bad, 2, ""]);
    }
  });

  it("draws where it is told, each diagram under a name of its own", async () => {
    const drawn = await inspect(
      "--svg",
      "--out",
      at("diagrams"),
      at("good.ies"),
      at("sub/good.ies"),
      at("good.ldt"),
    );
    expect(drawn.code).toBe(0);
    for (const name of ["good.svg", "good-2.svg", "good-3.svg"])
      expect(readFileSync(at(`diagrams/${name}`), "utf8")).toMatch(/^<svg[\s\S]*<\/svg>\n$/);
    expect(drawn.err).toContain("good-2.svg");
    await inspect("--svg", "--out", at("one.SVG"), at("good.ies"));
    expect(existsSync(at("one.SVG"))).toBe(true);
    expect((await inspect("--svg", "--out", at("two.svg"), at("good.ies"), at("good.ldt"))).code).toBe(2);
    expect(existsSync(at("two.svg"))).toBe(false);
    expect((await inspect("--out", at("two.svg"), at("good.ies"))).code).toBe(2);
    // An .svg at the end alone asks for a diagram too, and of one file only (2026-11-28).
    await inspect(at("good.ies"), at("five.svg"));
    expect(existsSync(at("five.svg"))).toBe(true);
    const two = await inspect(at("good.ies"), at("good.ldt"), at("six.svg"));
    expect(two).toMatchObject({ code: 2, err: expect.stringContaining("One file cannot hold the diagrams") });
    // What is no diagram stays, whatever else is asked (2026-11-28: it was replaced).
    writeFileSync(at("own.svg"), "<svg>somebody's own</svg>");
    for (const argv of [
      ["--svg", "--out", at("own.svg"), at("good.ies")],
      ["--svg", "--out", folder, at("own.ies")],
    ]) {
      writeFileSync(at("own.ies"), lm63());
      expect(await inspect(...argv)).toMatchObject({
        code: 2,
        err: expect.stringContaining("did not write"),
      });
      expect(readFileSync(at("own.svg"), "utf8")).toContain("somebody's own");
    }
    expect((await inspect("--svg", "--out", at("own.svg"), "--force", at("good.ies"))).code).toBe(0);
    expect((await inspect("--svg", "--out", at("own.svg"), at("good.ies"))).code).toBe(0);
    const feet = await inspect(at("good.ies"), "--unit", "ft-in");
    expect(feet.out).toMatch(/opening\s+disc, 7 7\/8" along C0/);
    await inspect(at("good.ies"), "--svg", at("four.svg"));
    expect(existsSync(at("four.svg"))).toBe(true);
    expect((await inspect("--svg", "--out", "-", at("good.ies"))).out).toMatch(/^<svg[\s\S]*<\/svg>\n$/);
    expect((await inspect("--svg", "--json", "--out", "-", at("good.ies"))).code).toBe(2);
    const json = await inspect("--json", "--svg", "--out", at("three.svg"), at("good.ies"));
    expect(JSON.parse(json.out)[0].svg).toBe(at("three.svg"));
  });

  it("lets no file speak to the terminal", async () => {
    const { out, err } = await inspect(at("named\u001b.ies"));
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    expect(out + err).not.toMatch(/[\u001b\u0007]/);
  });

  it("follows a TILT file inside the folder only, unless another is allowed", async () => {
    const refused = await inspect("--json", at("sub/tilted.ies"));
    expect(refused.code).toBe(2);
    expect(refused.out).toContain("path-outside");
    expect((await inspect("--allow-outside", folder, at("sub/tilted.ies"))).code).toBe(0);
  });

  it("asks for a file, and for lamp sets that are numbers", async () => {
    expect((await inspect()).code).toBe(2);
    expect((await inspect("--lamp-set", "x", at("good.ldt"))).code).toBe(2);
    expect((await inspect("--lamp-set", "0", at("good.ldt"))).code).toBe(0);
  });
});
