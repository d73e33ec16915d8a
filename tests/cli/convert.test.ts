import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strToU8, zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Photometry } from "../../src/photometry/photometry.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { called } from "../support/cli.ts";
import { eulumdat, lm63 } from "../support/photometric-text.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "convert-"));
  writeFileSync(at("in.ies"), lm63({ ten: "2 450 1 3 1 1 2 0.1 1.2 0", candela: "123.45 70 0" }));
  const sets = [
    [1, "small", 500, "", "", 5],
    [1, "large", 1000, "", "", 9],
  ];
  writeFileSync(at("in.ldt"), eulumdat({ sets, lines: { 16: 1200, 17: 100 } }));
  writeFileSync(at("absolute.ies"), lm63());
  writeFileSync(at("bad.ies"), lm63({ candela: "1 x 0" }));
  writeFileSync(at("entities.xml"), `<!DOCTYPE a [<!ENTITY a "ha">]><IESTM33>&a;</IESTM33>`);
  writeFileSync(at("bomb.gldf"), zipSync({ "product.xml": new Uint8Array(18e6).fill(32) }));
  writeFileSync(at("climb.gldf"), zipSync({ "../product.xml": strToU8("<a/>") }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const convert = (...argv: string[]) => called("convert", ...argv);

function written(name: string): Photometry {
  const outcome = readPhotometry(new Uint8Array(readFileSync(at(name))), { file: name });
  if (!outcome.ok) throw new Error(outcome.issues[0].message);
  return outcome.value;
}

describe("convert", () => {
  it.each(["ldt", "xml", "ies"])("goes from LM-63 to .%s and back, to the last digit", async (extension) => {
    expect((await convert(at("in.ies"), at(`there.${extension}`), "--force")).code).toBe(0);
    expect((await convert(at(`there.${extension}`), at("back.ies"), "--force")).code).toBe(0);
    // 2026-11-28: it replaced a file without a word.
    const refused = await convert(at("in.ies"), at(`there.${extension}`));
    expect(refused).toMatchObject({
      code: 2,
      err: expect.stringMatching(/names a file that is there.*--force/s),
    });
    const back = written("back.ies");
    expect(back.distribution).toEqual(written("in.ies").distribution);
    expect(back.opening).toEqual({ shape: "rectangle", length: 1.2, width: 0.1, height: 0 });
    expect(back).toMatchObject({ absolute: false, ratedFlux: 900, watts: 12 });
  });

  it("swaps the lengths of the opening between the formats", async () => {
    await convert(at("in.ldt"), at("swap.ies"));
    expect(readFileSync(at("swap.ies"), "latin1")).toContain(" 1.2 0.1 0\r\n");
    expect(written("swap.ies").opening).toEqual(written("in.ldt").opening);
  });

  it("takes another lamp set, another flux, another edition", async () => {
    await convert(at("in.ldt"), at("set.ies"), "--lamp-set", "1", "--edition", "2019");
    expect(written("set.ies")).toMatchObject({ edition: "2019", ratedFlux: 1000 });
    await convert(at("in.ies"), at("flux.ies"), "--flux", "1800");
    expect(written("flux.ies").distribution.intensity[0]).toBeCloseTo(246.9, 9);
    expect((await convert(at("absolute.ies"), at("x.ies"), "--flux", "1800")).err).toMatch(/absolute/);
  });

  it.each([
    ["bad.ies", /bad\.ies:11:3/],
    ["entities.xml", /document type/],
    ["bomb.gldf", /too large/],
    ["climb.gldf", /leads out/],
    ["none.ies", /no such file/],
  ])("refuses %s with exit 2 and writes nothing", async (name, reason) => {
    const { code, err } = await convert(at(name), at("never.ldt"));
    expect(code).toBe(2);
    expect(err).toMatch(reason);
    expect(existsSync(at("never.ldt"))).toBe(false);
  });

  it("refuses an extension it cannot write, its own input, and numbers that are none", async () => {
    for (const out of [at("x.gldf"), at("x"), at("in.ies")])
      expect((await convert(at("in.ies"), out)).code).toBe(2);
    expect((await convert(at("in.ies"), at("y.ldt"), "--flux", "bright")).code).toBe(2);
    expect(existsSync(at("y.ldt"))).toBe(false);
  });
});
