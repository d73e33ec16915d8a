/** Light of mirror finishes straight down: its scatter is a band, its slope is not. */

import { describe, expect, it } from "vitest";
import { buildShadeLuminaire } from "../../../src/luminaire/shade/build.ts";

const traced = (height: number) => {
  const built = buildShadeLuminaire(
    "dome",
    { flux: 1055, shape: "A19" },
    { profile: "dome", diameter: 0.36, height, finish: "aluminium" },
    { file: "dome.json", path: "" },
  );
  if (!built.ok || built.value.traced === undefined) throw new Error("not traced");
  return { axial: built.value.luminaire.distribution.intensity[0], ...built.value.traced };
};

describe("an aluminium dome", () => {
  // 2026-11-28: "straight down 161 cd ± 25.6 %" was the slope of the reflected light (24 cd on the axis, 215 cd at 10°), said as if it were
  // scatter. 1.2 million rays in steps of 1°, counted once: 15, 17, 20, 22, 35, 76 cd of it at 0° to 5° beside 137 cd of lamp and rings.
  it("is known on its axis as well as its rays scatter, and says what a wider cone has", () => {
    const { axial, band, wideAxial } = traced(0.18);
    const mirrored = [15, 17, 20, 22, 35, 76, 116];
    const mass = (degrees: number) => (degrees === 0 ? 1 / 8 : degrees);
    const mean = (last: number) => {
      const part = mirrored.slice(0, last + 1);
      return (
        137 + part.reduce((sum, I, i) => sum + I * mass(i), 0) / part.reduce((sum, _, i) => sum + mass(i), 0)
      );
    };
    console.log(
      `within 3° ${axial.toFixed(1)} cd ± ${(100 * band.axial).toFixed(1)} % (counted ${mean(3).toFixed(1)}), within 6° ${wideAxial.toFixed(1)} cd (counted ${mean(6).toFixed(1)})`,
    );
    expect(band.axial).toBeLessThan(0.06);
    expect(Math.abs(axial / mean(3) - 1)).toBeLessThan(band.axial);
    // As its mean over 3°, and what three further nodes of as many rays scatter.
    expect(Math.abs(wideAxial / mean(6) - 1)).toBeLessThan(2 * band.axial);
  });
});
