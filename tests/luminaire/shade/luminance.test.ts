/** What an eye meets: the bare lamp below the cut-off, the shade above it, an opal ball's even face. */
import { describe, expect, it } from "vitest";
import { buildShadeLuminaire } from "../../../src/luminaire/shade/build.ts";
import { luminanceTowards } from "../../../src/luminaire/shade/luminance.ts";
import { shadeLuminaire } from "../../../src/luminaire/shade/shade-luminaire.ts";
import { plainShade, pointLamp } from "../../support/shades.ts";

describe("the brightest luminance toward an eye", () => {
  it("is Φ LOR / (π² D²) for an opal sphere", () => {
    // L = M / π over the sphere's area π D²; Gupta, Utilization of Electrical Energy, ex. 4.3 has the same form.
    const shade = plainShade("globe", 0.4, 0.4, 0, {
      inside: 0.3,
      outside: 0.3,
      transmittance: 0.56,
      diffusion: 1,
    });
    const { luminaire } = shadeLuminaire(shade, [pointLamp(0.2, 4850)], { name: "", origin: "" });
    const seen = luminanceTowards(luminaire, [2, 0, -0.3]);
    // T / (1 − R) = 0.8: 20 % absorbed, as in the example: 2457.04 cd/m².
    console.log(`worst error: ${((seen?.luminance ?? 0) / 2457.04 - 1).toExponential(1)}`);
    expect(seen?.source).toBe("shade");
    // The brightest of 28 rings, each within its share of the 1 % band.
    expect((seen?.luminance ?? 0) / 2457.04).toBeGreaterThan(0.98);
    expect((seen?.luminance ?? 0) / 2457.04).toBeLessThan(1.06);
  });

  it("is the lamp from under the rim's cut-off and the shade from above it", () => {
    const built = buildShadeLuminaire(
      "dome",
      { flux: 800, shape: "A19", height: 0.08 },
      { profile: "dome", diameter: 0.3, height: 0.18 },
    );
    if (!built.ok) throw new Error(built.issues[0].message);
    const { luminaire } = built.value;
    const below = luminanceTowards(luminaire, [0.6, 0, -0.6]);
    const level = luminanceTowards(luminaire, [2, 0, 0.02]);
    expect(below?.source).toBe("lamp");
    // 800 lm frosted A19: 22 to 23 kcd/m².
    expect(below?.luminance).toBeGreaterThan(21_000);
    expect(below?.luminance).toBeLessThan(24_000);
    expect(level?.lampInSight).toBe(0);
    expect(level?.luminance ?? 1e9).toBeLessThan(500);
  });
});
