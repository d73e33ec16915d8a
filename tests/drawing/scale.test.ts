/** The absolute scale: even in lightness, readable in grey, the same hue axis for everyone. */
import { describe, expect, it } from "vitest";
import {
  darkInkOver,
  luxColour,
  rampPosition,
  rampRgb,
  relativeLuminance,
  scaleBands,
  scaleSteps,
} from "../../src/drawing/scale.ts";

describe("the scale of light", () => {
  it("rises in luminance everywhere, and evenly in lightness", () => {
    const lightness = Array.from({ length: 201 }, (_, i) => {
      const y = relativeLuminance(rampRgb(i / 200));
      return 116 * Math.cbrt(y) - 16;
    });
    const steps = lightness.slice(1).map((l, i) => l - lightness[i]);
    const worst = Math.max(...steps.map((step) => Math.abs(step - 61 / 200)));
    console.log(`worst error of an even lightness step ${worst.toExponential(1)} of ${61 / 200}`);
    expect(Math.min(...steps)).toBeGreaterThan(0);
    // The sRGB matrix rows sum to 1 within 1e-6; nothing is cut at the gamut's edge, or this would be large.
    expect(worst).toBeLessThan(1e-3);
  });

  it("stays inside what sRGB can show", () => {
    for (let i = 0; i <= 200; i++)
      for (const channel of rampRgb(i / 200)) {
        expect(channel).toBeGreaterThan(0);
        expect(channel).toBeLessThan(0.999);
      }
  });

  it("keeps lines and words at 3:1 on every colour", () => {
    let worst = 99;
    for (let lux = 10; lux < 3000; lux *= 1.02) {
      const y = relativeLuminance(rampRgb(rampPosition(lux)));
      // Ink #24211c and sheet #fffdf9.
      const contrast = darkInkOver(lux) ? (y + 0.05) / (0.0154 + 0.05) : (0.982 + 0.05) / (y + 0.05);
      worst = Math.min(worst, contrast);
    }
    console.log(`worst contrast over the ramp ${worst.toFixed(2)}:1`);
    expect(worst).toBeGreaterThan(3);
  });

  it("is absolute: the same level has the same colour in either unit, and ends are held", () => {
    expect(luxColour(5)).toBe(luxColour(20));
    expect(luxColour(1e6)).toBe(luxColour(1500));
    expect(luxColour(Number.NaN)).toBe(luxColour(0));
    for (const unit of ["lx", "fc"] as const) {
      const bands = scaleBands(unit);
      expect(bands.length).toBe(scaleSteps(unit).length + 1);
      expect(bands[0].from).toBe(0);
      expect(bands[bands.length - 1].to).toBe(Number.POSITIVE_INFINITY);
    }
  });
});
