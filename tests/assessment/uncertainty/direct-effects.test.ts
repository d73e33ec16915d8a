/** Effects of one standard uncertainty of a luminaire's place and angle, against the closed form of a Lambertian point source. */
import { expect, it } from "vitest";
import { DirectEffects } from "../../../src/assessment/uncertainty/direct-effects.ts";
import { DEFAULT_BANDS } from "../../../src/assessment/uncertainty/input-bands.ts";
import { DirectSources } from "../../../src/engine/direct/direct-sources.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import { luminaire, placed, plane, rotational } from "../../support/luminaires.ts";

const I0 = 1000;
const H = 1.2;
const POINTS: readonly Vec3[] = [
  [0.5, 0.2, 0],
  [-0.3, 0.7, 0],
  [0.9, -0.6, 0],
];

/** E of the source at (x, y, z), its axis down and leant by small angles about x and y. */
function illuminance([px, py]: Vec3, [x, y, z]: Vec3, aboutX = 0, aboutY = 0): number {
  const d: Vec3 = [px - x, py - y, -z];
  // The axis (0, 0, −1) turned about x, then about y.
  const axis: Vec3 =
    aboutY === 0 ? [0, Math.sin(aboutX), -Math.cos(aboutX)] : [-Math.sin(aboutY), 0, -Math.cos(aboutY)];
  const r = Math.hypot(...d);
  const cosine = (d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2]) / r;
  return (I0 * cosine * (z / r)) / (r * r);
}

it("are half of what two standard uncertainties change", () => {
  const fine = rotational((γ) => I0 * Math.max(0, Math.cos(γ)), 0.25);
  const lamp = placed(luminaire(fine), [0, 0, H]);
  const effects = new DirectEffects(new DirectSources(), DEFAULT_BANDS).of(lamp, plane(POINTS));
  const { position, height, hungAngle } = DEFAULT_BANDS;
  const half = (change: (sign: number) => (p: Vec3) => number) =>
    POINTS.map((p) => (change(1)(p) - change(-1)(p)) / 2);
  const expected = [
    half((sign) => (p) => illuminance(p, [(sign * position) / 2, 0, H])),
    half((sign) => (p) => illuminance(p, [0, (sign * position) / 2, H])),
    half((sign) => (p) => illuminance(p, [0, 0, H + (sign * height) / 2])),
    half((sign) => (p) => illuminance(p, [0, 0, H], (sign * hungAngle) / 2, 0)),
    half((sign) => (p) => illuminance(p, [0, 0, H], 0, (sign * hungAngle) / 2)),
  ];
  expect(effects.place.map(({ kind }) => kind)).toEqual([
    "position",
    "position",
    "height",
    "hung angle",
    "hung angle",
  ]);
  let worst = 0;
  effects.place.forEach(({ effect }, k) => {
    effect.forEach((each, i) => {
      worst = Math.max(worst, Math.abs(each / expected[k][i] - 1));
    });
  });
  console.log(`effects of place and angle: worst error ${(100 * worst).toFixed(2)} %`);
  // The table is straight over a quarter of a degree, a half of the leaning; its slope is off by (Δγ/2)² / 6 and less.
  expect(worst).toBeLessThan(0.02);
});
