/** The worked example's photometric files, whose formulas are known: what is read must be what was meant. Flux and
 * exponents are those that `fixtures-data/README.md` states. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { totalFlux } from "../../../src/photometry/luminous-flux.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { intensityAt } from "../../../src/photometry/reference-lookup.ts";
import { radians } from "../../../src/units/quantities.ts";

const folder = fileURLToPath(new URL("../../../fixtures-data/boathouse/photometry/", import.meta.url));
const read = (name: string) => {
  const outcome = readPhotometry(new Uint8Array(readFileSync(folder + name)), { file: name });
  if (!outcome.ok) throw new Error(outcome.issues[0].message);
  return outcome;
};
let worst = 0;
afterAll(() => console.log(`worst error of a worked example's flux: ${worst.toExponential(1)} relative`));

const FILES: readonly (readonly [name: string, flux: number, format: string, edition: string])[] = [
  ["dome-wide.ies", 1150, "LM-63", "2019"],
  ["cone-narrow.ies", 800, "LM-63", "2002"],
  ["lily-asymmetric.ldt", 900, "EULUMDAT", ""],
  ["lantern-up-down.ies", 1400, "LM-63", "2019"],
  ["globe-opal.ldt", 690, "EULUMDAT", ""],
  ["recessed-wide.ies", 620, "LM-63", "2019"],
  ["recessed-narrow.ldt", 480, "EULUMDAT", ""],
  ["linear-opal.ies", 2600, "LM-63", "2019"],
];

describe("the worked example", () => {
  it.each(FILES)("%s holds %d lm, %s %s, without a warning", (name, flux, format, edition) => {
    const { value, warnings } = read(name);
    expect(value).toMatchObject({ format, edition });
    expect(warnings).toEqual([]);
    const error = Math.abs(totalFlux(value.distribution) / flux - 1);
    worst = Math.max(worst, error);
    // The stated flux is that of the formula; the table is its chords, off by about (k + 1) h²/12 for cosᵏ at steps
    // of h: at most 3e-3 at these steps (k = 3 at 5°, k = 31 at 1°).
    expect(error).toBeLessThan(3e-3);
  });

  it("has an asymmetric lobe that leans 25° towards C0 and is the same on both sides of it", () => {
    const { distribution } = read("lily-asymmetric.ldt").value;
    const I = (C: number, gamma: number) => intensityAt(distribution, radians(C), radians(gamma));
    expect(distribution.symmetry).toBe("mirrored in C0–C180");
    expect(I(0, 25)).toBe(distribution.intensity.reduce((most, value) => Math.max(most, value), 0));
    // cos⁴ of the angle from the axis: from 25° off to 0° and to 60° on the same side.
    expect(I(0, 0) / I(0, 25)).toBeCloseTo(Math.cos(radians(25)) ** 4, 3);
    expect(I(0, 60) / I(0, 25)).toBeCloseTo(Math.cos(radians(35)) ** 4, 3);
    expect(I(180, 20) / I(0, 25)).toBeCloseTo(Math.cos(radians(45)) ** 4, 3);
    for (const C of [30, 75, 120]) expect(I(C, 40)).toBe(I(360 - C, 40));
  });
});
