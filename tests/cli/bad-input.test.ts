/** Bad input through the built program: a clear sentence naming the place, exit 2, memory bounded, nothing written. */
import { spawnSync } from "node:child_process";
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { called, candlespan, candlespanMemory } from "../support/cli.ts";
import { kitchen } from "../support/studies.ts";

const example = fileURLToPath(new URL("../../fixtures-data/boathouse", import.meta.url));
const main = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));
const root = mkdtempSync(join(tmpdir(), "candlespan-bad-"));
cpSync(example, root, { recursive: true });
afterAll(() => rmSync(root, { recursive: true, force: true }));
const good = readFileSync(join(root, "boathouse.study.json"), "utf8");

function digits(name: string): string {
  const path = join(root, name);
  const file = openSync(path, "w");
  const chunk = Buffer.alloc(10_000_000, "7");
  for (let i = 0; i < 20; i++) writeSync(file, chunk);
  return path;
}

/** Runs `isolux`, which would write, on a study; expects exit 2, one or more sentences, and no file. */
async function refused(text: string | Buffer): Promise<string> {
  const study = join(root, "bad.study.json");
  writeFileSync(study, text);
  const before = readdirSync(root);
  const { code, out, err } = await called("isolux", study, "--out", join(root, "written.svg"));
  expect({ code, out }).toEqual({ code: 2, out: "" });
  expect(err).not.toContain("Internal fault");
  expect(readdirSync(root)).toEqual(before);
  return err;
}

it("reads study, photometric file and readings that begin with a byte-order mark", async () => {
  const mark = "\ufeff";
  const marked = mkdtempSync(join(tmpdir(), "candlespan-marked-"));
  mkdirSync(join(marked, "photometry"));
  for (const name of readdirSync(join(example, "photometry")))
    writeFileSync(
      join(marked, "photometry", name),
      /\.(ies|ldt)$/i.test(name)
        ? mark + readFileSync(join(example, "photometry", name), "latin1")
        : readFileSync(join(example, "photometry", name)),
    );
  const study = join(marked, "marked.study.json");
  // What is asked is what was read, not how much light there is.
  const direct = JSON.stringify({ ...JSON.parse(good), calculation: { interreflection: false } });
  writeFileSync(study, mark + direct);
  const readings = join(marked, "readings.csv");
  writeFileSync(readings, `${mark}along,across,lx\n0.5,0.4,500\n1.2,0.5,550\n1.9,0.6,500\n`);
  const verified = await called("verify", study, readings, "--json");
  expect({ ...verified, out: "" }).toMatchObject({ err: expect.not.stringContaining("Expected") });
  expect(verified.code).toBeLessThan(2);
  const [plainStudy, plain] = [join(root, "direct.study.json"), join(root, "readings.csv")];
  writeFileSync(plainStudy, direct);
  writeFileSync(plain, readFileSync(readings, "utf8").slice(1));
  expect(verified.out).toBe((await called("verify", plainStudy, plain, "--json")).out);
  rmSync(marked, { recursive: true });
});

describe("a study that cannot be used", () => {
  it("empty, binary, not JSON", async () => {
    expect(await refused("")).toContain("bad.study.json");
    expect(await refused(Buffer.from([0x7f, 0x45, 0x4c, 0x46, 0xff, 0x00, 0xfe]))).toContain("not text");
    expect(await refused(`{ "format": "candlespan-study", `)).toMatch(/bad\.study\.json:1:\d+/);
    expect(await refused("[]")).toContain("bad.study.json");
  });

  it("a misspelt key: its line, its path, and the key that was meant", async () => {
    const err = await refused(good.replace(`"ceilingHeight"`, `"ceilingHieght"`));
    expect(err).toMatch(/bad\.study\.json:\d+:\d+ \/room\/ceilingHieght/);
    expect(err).toContain("ceilingHeight");
  });

  it("a file that is missing", async () => {
    const err = await refused(good.replace("photometry/dome-wide.ies", "photometry/none.ies"));
    expect(err).toContain("/luminaires/dome/photometry");
    expect(err).toContain("There is no such file.");
    expect(err).toContain("photometry/none.ies");
    const near = await refused(good.replace("photometry/dome-wide.ies", "photometry/dome-wid.ies"));
    expect(near).toContain(
      "Expected perhaps photometry/dome-wide.ies, found nothing at photometry/dome-wid.ies.",
    );
  });

  it("a path that climbs out", async () => {
    for (const path of ["../../etc/passwd", "/etc/passwd", "photometry/../../x.ies"]) {
      const err = await refused(good.replace("photometry/dome-wide.ies", path));
      expect(err).toContain("/luminaires/dome/photometry");
      expect(err).toMatch(/leads out of the study|leaves the study/);
    }
  });

  it("photometry that is empty, binary or nonsense", async () => {
    const file = join(root, "photometry", "dome-wide.ies");
    const kept = readFileSync(file);
    for (const bytes of [
      "",
      Buffer.from([0, 1, 2, 255, 254]),
      "hello",
      "IESNA:LM-63-2002\nTILT=NONE\n1 NaN",
    ]) {
      writeFileSync(file, bytes);
      expect(await refused(good)).toContain("dome-wide.ies");
    }
    writeFileSync(file, kept);
  });

  it("a name of an arrangement, a target or a luminaire that is not there", async () => {
    const study = join(root, "boathouse.study.json");
    const { code, err } = await called("check", study, "--arrangement", "four domes");
    expect(code).toBe(2);
    expect(err).toContain(`"three domes"`);
    expect(await refused(good.replace(`"target": "washing"`, `"target": "washin"`))).toContain("washing");
    expect(await refused(good.replace(`"luminaire": "dome"`, `"luminaire": "doom"`))).toContain("doom");
  });

  it("200 MB of digits, as study, as photometry, through a pipe: refused before it is held", () => {
    const path = digits("digits.study.json");
    const runs = [candlespanMemory(["check", path]), candlespanMemory(["inspect", path])];
    for (const { code, err, memory } of runs) {
      expect(code).toBe(2);
      expect(err).toContain("digits.study.json");
      // Node alone holds about 45 MB.
      expect(memory).toBeLessThan(150e6);
    }
    const piped = spawnSync("sh", ["-c", `cat "${path}" | "${process.execPath}" "${main}" check -`], {
      encoding: "utf8",
    });
    expect(piped.status).toBe(2);
    expect(piped.stderr).toContain("standard input");
    console.log(
      `worst memory ${(Math.max(...runs.map((r) => r.memory)) / 1e6).toFixed(0)} MB on 200 MB of digits`,
    );
    rmSync(path);
  });

  it("a study that does not exist, or is a folder", () => {
    expect(candlespan(["check", join(root, "none.json")])).toMatchObject({ code: 2, out: "" });
    expect(candlespan(["check", root]).err).toContain("a folder");
  });
});

describe("a reader that stops listening", () => {
  it("is no fault", () => {
    const study = join(root, "plain.study.json");
    writeFileSync(study, JSON.stringify(kitchen({ calculation: { interreflection: false } })));
    // Far more than a pipe holds, so that the program still writes when nobody reads.
    const { stdout, stderr } = spawnSync(
      "sh",
      ["-c", `"${process.execPath}" "${main}" check "${study}" --json --fine | head -c 20; echo`],
      { encoding: "utf8" },
    );
    expect(stdout.trim()).toBe(`{"candlespan":"0.1.0`);
    expect(stderr).not.toContain("Error");
  });
});
