/** Which way a luminaire lights, against closed forms: I = 100 (1 + 0.5 cos C) gives its halves π + 1 and π − 1. */
import { expect, it } from "vitest";
import { frame } from "../../src/geometry/frame.ts";
import { oneSided, turnOf, upwardShare } from "../../src/luminaire/one-sided.ts";
import { radians } from "../../src/units/quantities.ts";

const STEP = 5;
const horizontal = Float64Array.from({ length: 360 / STEP + 1 }, (_, i) => radians(i * STEP));
const vertical = Float64Array.from({ length: 180 / STEP + 1 }, (_, i) => radians(i * STEP));

/** Hung turned by so much, lighting by a factor of azimuth. */
const hung = (turn: number, candela: (azimuth: number) => number, tilt = 0) =>
  ({
    luminaire: {
      distribution: {
        type: "C",
        symmetry: "none",
        horizontal,
        vertical,
        intensity: Float64Array.from(horizontal, candela).reduce(
          (all, each, h) => {
            vertical.forEach((_, v) => {
              all[h * vertical.length + v] = each;
            });
            return all;
          },
          new Float64Array(horizontal.length * vertical.length),
        ),
      },
    },
    frame: frame([1, 1, 2], { turn: radians(turn), tilt: radians(tilt), spin: 0 }),
  }) as unknown as Parameters<typeof oneSided>[0];

// 2026-11-28: a real dome gave 350 lx on the near and 550 lx on the far side, and nothing said that it lights one way.
it("names the wall that gets more, however the luminaire is turned", () => {
  const skew = (C: number) => 100 * (1 + 0.5 * Math.cos(C));
  const exact = (Math.PI + 1) / (Math.PI - 1);
  let worst = 0;
  for (const [turn, towards, from] of [
    [0, 1, 3],
    [90, 2, 0],
    [180, 3, 1],
    [270, 0, 2],
  ]) {
    const side = oneSided(hung(turn, skew));
    expect(side).toMatchObject({ towards, from });
    worst = Math.max(worst, Math.abs((side?.times ?? 0) / exact - 1));
    expect(turnOf(hung(turn, skew))).toBe(turn);
  }
  console.log(`worst error of a ratio of halves: ${(100 * worst).toFixed(2)} %`);
  // The trapezoid rule's own error over 5 degrees: (π/36)²/12, of cos C alone.
  expect(worst).toBeLessThan(radians(STEP) ** 2 / 6);
});

it("says nothing of what lights both sides alike, of a beam to two sides, and of what is tilted", () => {
  expect(oneSided(hung(0, () => 100))).toBeUndefined();
  expect(oneSided(hung(30, (C) => 100 * (1 + 0.9 * Math.cos(2 * C))))).toBeUndefined();
  expect(oneSided(hung(0, (C) => 100 * (1 + 0.1 * Math.cos(C))))).toBeUndefined();
  expect(oneSided(hung(0, (C) => 100 * (1 + 0.5 * Math.cos(C)), 20))).toBeUndefined();
});

// 2026-11-28: more than half of a bar's light went to the ceiling, and only a curve at the foot of the panel told.
it("tells what goes up, of a sphere half, of a half sphere nothing", () => {
  expect(upwardShare(hung(0, () => 100))).toBeCloseTo(0.5, 9);
  const down = hung(0, () => 100);
  const { intensity } = down.luminaire.distribution;
  for (let i = 0; i < intensity.length; i++) if (i % vertical.length > 90 / STEP) intensity[i] = 0;
  expect(upwardShare(down)).toBeUndefined();
  const round = {
    ...down,
    luminaire: {
      distribution: {
        ...down.luminaire.distribution,
        horizontal: Float64Array.of(0),
        // I = 1 + 0.5 cos γ from the zenith: 2π (1 ± 0.25) up and down.
        intensity: Float64Array.from(vertical, (angle) => 1 - 0.5 * Math.cos(angle)),
      },
    },
  } as unknown as typeof down;
  const share = upwardShare(round) ?? 0;
  console.log(`error of an upward share: ${Math.abs(share / 0.625 - 1).toExponential(1)}`);
  expect(Math.abs(share / 0.625 - 1)).toBeLessThan(radians(STEP) ** 2 / 6);
});
