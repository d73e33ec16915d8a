/** Effects of one standard uncertainty of a luminaire's place and angle, against the closed form of a Lambertian point source. */
import { expect, it } from "vitest";
import { DirectEffects } from "../../../src/assessment/uncertainty/direct-effects.ts";
import { DEFAULT_BANDS } from "../../../src/assessment/uncertainty/input-bands.ts";
import { addDirectLight } from "../../../src/engine/direct/direct-light.ts";
import { DirectSources } from "../../../src/engine/direct/direct-sources.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import type { PlacedLuminaire } from "../../../src/luminaire/placed-luminaire.ts";
import { DEFAULT_OPTIONS } from "../../../src/scene/calculation-options.ts";
import { beam, lit, luminaire, opening, placed, plane, rotational } from "../../support/luminaires.ts";

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

it("of openings near by are those of light with a fortieth of the near-field error", () => {
  const points = Array.from(
    { length: 60 },
    (_, i): Vec3 => [-1.2 + 0.24 * (i % 10), -0.6 + 0.24 * Math.floor(i / 10), 0],
  );
  const top = plane(points);
  const direct = (lamp: PlacedLuminaire): Float64Array => {
    const out = new Float64Array(points.length);
    addDirectLight(lit(lamp, DEFAULT_OPTIONS.nearFieldError / 40), top, 0, out);
    return out;
  };
  const shapes = [
    luminaire(beam(50), opening("disc", 0.28)),
    luminaire(
      rotational(() => 400, 2),
      opening("ellipsoid", 0.25, 0.25, 0.25),
    ),
    luminaire(beam(90), opening("rectangle", 1.1, 0.05)),
    luminaire(
      rotational((γ) => 300 * Math.sin(γ) + 50, 2),
      opening("cylinder", 0.16, 0.16, 0.3),
    ),
  ];
  let worst = 0;
  for (const type of shapes)
    for (const height of [0.5, 0.85]) {
      const { place } = new DirectEffects(new DirectSources(), DEFAULT_BANDS).of(
        placed(type, [0, 0, height]),
        top,
      );
      [0, 1, 2].forEach((axis) => {
        const sigma = (axis === 2 ? DEFAULT_BANDS.height : DEFAULT_BANDS.position) / 2;
        const [low, high] = [-1, 1].map((sign) => {
          const at: [number, number, number] = [0, 0, height];
          at[axis] += sign * sigma;
          return direct(placed(type, at));
        });
        const expected = high.map((value, i) => (value - low[i]) / 2);
        const size = Math.max(...expected.map(Math.abs));
        place[axis].effect.forEach((effect, i) => {
          worst = Math.max(worst, Math.abs(effect - expected[i]) / size);
        });
      });
    }
  console.log(`effects of place under openings: worst error ${(100 * worst).toFixed(2)} % of the largest`);
  // A band that is a hundredth wider or narrower is the same band.
  expect(worst).toBeLessThan(0.01);
});
