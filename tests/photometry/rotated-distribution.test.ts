/** Turned light: against the intensity in the direction turned back by gl-matrix, exact where the axis stays upright. */
import { mat4, vec3 } from "gl-matrix";
import { describe, expect, it } from "vitest";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { rotatedDistribution, rotationAboutAxes } from "../../src/photometry/rotated-distribution.ts";
import { radians } from "../../src/units/quantities.ts";
import { randomStream } from "../support/random-stream.ts";

/** Smooth, without symmetry, over the whole sphere. */
function sample(): IntensityDistribution {
  const horizontal = Float64Array.from({ length: 73 }, (_, i) => radians(5 * i));
  const vertical = Float64Array.from({ length: 181 }, (_, i) => radians(i));
  const intensity = new Float64Array(73 * 181);
  horizontal.forEach((C, h) => {
    vertical.forEach((g, v) => {
      intensity[h * 181 + v] = 200 + 100 * Math.cos(g) + 60 * Math.sin(g) * Math.cos(C - 0.4);
    });
  });
  return { type: "C", symmetry: "none", horizontal, vertical, intensity };
}

describe("a distribution turned", () => {
  const own = sample();
  const random = randomStream(7);
  const worst = (x: number, y: number, z: number): number => {
    const turned = rotatedDistribution(own, rotationAboutAxes(x, y, z));
    const back = mat4.create();
    mat4.rotateX(back, back, -radians(x));
    mat4.rotateY(back, back, -radians(y));
    mat4.rotateZ(back, back, -radians(z));
    let error = 0;
    for (let i = 0; i < 2000; i++) {
      const [u, w] = [2 * random() - 1, 2 * Math.PI * random()];
      const d = vec3.fromValues(Math.sqrt(1 - u * u) * Math.cos(w), Math.sqrt(1 - u * u) * Math.sin(w), u);
      const from = vec3.transformMat4(vec3.create(), d, back);
      const expected = intensityTowards(own, from[0], from[1], from[2]);
      error = Math.max(error, Math.abs(intensityTowards(turned, d[0], d[1], d[2]) - expected) / 360);
    }
    return error;
  };

  it("is exact upright and upside down", () => {
    const errors = [worst(0, 0, 37), worst(180, 0, 0), worst(0, 180, 12.5), worst(180, 0, 90)];
    console.log(
      `worst error of light turned about the vertical: ${Math.max(...errors).toExponential(1)} of the peak`,
    );
    // gl-matrix keeps single precision, 1e-7.
    expect(Math.max(...errors)).toBeLessThan(2e-6);
  });

  it("is within its table's steps otherwise, and keeps its flux", () => {
    const errors = [worst(90, 0, 0), worst(0, 45, 0), worst(20, 30, 40)];
    console.log(`worst error of light tilted: ${Math.max(...errors).toExponential(1)} of the peak`);
    // Of a smooth table at 2.5° and the sample's 5°: 2·(0.0436²/8)·amplitude 60/360 ≈ 1e-4, and that of the sample itself.
    expect(Math.max(...errors)).toBeLessThan(1e-3);
    const tilted = rotatedDistribution(own, rotationAboutAxes(20, 30, 40));
    expect(luminousFlux(tilted).total / luminousFlux(own).total).toBeCloseTo(1, 3);
  });
});
