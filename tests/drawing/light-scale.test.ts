/** The absolute scale: even in lightness, readable in grey, the same hue axis for everyone. */
import { describe, expect, it } from "vitest";
import {
  darkInkOver,
  luxColour,
  rampPosition,
  rampRgb,
  relativeLuminance,
  rgbOf,
  scaleBands,
  scaleSteps,
} from "../../src/drawing/light-scale.ts";

describe("the scale of light", () => {
  it("rises in luminance everywhere, and evenly in lightness", () => {
    const lightness = Array.from({ length: 201 }, (_, i) => {
      const y = relativeLuminance(rampRgb(i / 200));
      return 116 * Math.cbrt(y) - 16;
    });
    const steps = lightness.slice(1).map((l, i) => l - lightness[i]);
    const worst = Math.max(...steps.map((step) => Math.abs(step - 64 / 200)));
    console.log(`worst error of an even lightness step ${worst.toExponential(1)} of ${64 / 200}`);
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

  it("keeps lines at 3:1 on every colour", () => {
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

  it("tells five tones apart between 400 and 850 lx, and above 1000 lx too", () => {
    const lab = (lux: number): readonly number[] => {
      const linear = rampRgb(rampPosition(lux)).map((c) =>
        c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4,
      );
      const [r, g, b] = linear;
      // sRGB to XYZ over its white (IEC 61966-2-1), then CIELAB (CIE 15).
      const f = (v: number): number => (v > (6 / 29) ** 3 ? Math.cbrt(v) : v / (3 * (6 / 29) ** 2) + 4 / 29);
      const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
      const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
      const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
      return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
    };
    const apart = (a: number, b: number): number =>
      Math.hypot(...lab(a).map((value, i) => value - lab(b)[i]));
    let least = 99;
    for (const [from, to] of [
      [400, 850],
      [1000, 5000],
      [1500, 10_000],
    ])
      for (let k = 0; k < 4; k++) {
        const at = (n: number): number => from * (to / from) ** (n / 4);
        least = Math.min(least, apart(at(k), at(k + 1)));
      }
    console.log(`least difference of neighbouring tones ${least.toFixed(1)} in CIELAB`);
    // 2.3 is a just noticeable difference side by side (Mahy, Van Eycken, Oosterlinck, Color Res. Appl. 19, 1994).
    expect(least).toBeGreaterThan(2.3);
    for (let k = 0; k < 4; k++)
      expect(apart(400 * 2.125 ** (k / 4), 400 * 2.125 ** ((k + 1) / 4))).toBeGreaterThan(4.6);
  });

  it("is absolute: the same level has the same colour in either unit, and ends are held", () => {
    expect(luxColour(5)).toBe(luxColour(20));
    expect(luxColour(1e6)).toBe(luxColour(10_000));
    expect(luxColour(Number.NaN)).toBe(luxColour(0));
    for (const unit of ["lx", "fc"] as const) {
      const bands = scaleBands(unit);
      expect(bands.length).toBe(scaleSteps(unit).length + 1);
      expect(bands[0].from).toBe(0);
      expect(bands[bands.length - 1].to).toBe(Number.POSITIVE_INFINITY);
    }
  });
});

it("gives each band the colour half way along the ramp between its ends", () => {
  // The ramp is straight in ln E between 20, 200, 1000 and 10,000 lx: there the geometric middle lies half way.
  const knots = [20, 200, 1000, 10000];
  let within = 0;
  for (const unit of ["lx", "fc"] as const)
    for (const { from, to, colour } of scaleBands(unit)) {
      if (!knots.some((low, k) => from >= low && to <= knots[k + 1])) continue;
      within++;
      const rgb = rampRgb((rampPosition(from) + rampPosition(to)) / 2);
      rgbOf(colour).forEach((channel, k) => {
        expect(Math.abs(channel - rgb[k])).toBeLessThanOrEqual(0.501 / 255);
      });
    }
  expect(within).toBeGreaterThan(15);
});
