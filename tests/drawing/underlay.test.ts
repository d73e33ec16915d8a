/** A drawing underneath the plan: its similarity against complex numbers, and against two points measured in it. */

import { expect, it } from "vitest";
import {
  scaledBy,
  turnedAbout,
  turnOntoAxis,
  type UnderlayPlacement,
  underlayMatrix,
} from "../../src/drawing/underlay.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { radians } from "../../src/units/quantities.ts";
import { randomStream } from "../support/random-stream.ts";

/** A similarity of the plane is z ↦ o + k·z in complex numbers, k = scale · e^(i·turn). */
function byComplexNumbers({ scale, turn, origin }: UnderlayPlacement, [u, v]: Vec2): Vec2 {
  const k = [scale * Math.cos((turn * Math.PI) / 180), scale * Math.sin((turn * Math.PI) / 180)];
  return [origin[0] + k[0] * u - k[1] * v, origin[1] + k[0] * v + k[1] * u];
}

const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** A pixel's place in the room. */
function roomPoint({ scale, turn, origin }: UnderlayPlacement, [u, v]: Vec2): Vec2 {
  const [c, s] = [scale * Math.cos(radians(turn)), scale * Math.sin(radians(turn))];
  return [origin[0] + c * u - s * v, origin[1] + s * u + c * v];
}

/** A place of the room in the image's pixels. */
function imagePoint({ scale, turn, origin }: UnderlayPlacement, [x, y]: Vec2): Vec2 {
  const [c, s] = [Math.cos(radians(turn)) / scale, Math.sin(radians(turn)) / scale];
  const [dx, dy] = [x - origin[0], y - origin[1]];
  return [c * dx + s * dy, c * dy - s * dx];
}

it("scales by two points of the picture and the length between them, to a thousandth of a pixel", () => {
  const random = randomStream(17);
  let worst = 0;
  for (let i = 0; i < 500; i++) {
    const before: UnderlayPlacement = {
      scale: 0.002 + 0.05 * random(),
      turn: 720 * random() - 360,
      origin: [10 * random() - 5, 10 * random() - 5],
    };
    const pixel = (): Vec2 => [3000 * random(), 2000 * random()];
    const [p, q] = [pixel(), pixel()];
    const metresPerPixel = 0.001 + 0.02 * random();
    const length = metresPerPixel * apart(p, q);
    const points = [roomPoint(before, p), roomPoint(before, q)] as const;
    const after = scaledBy(before, points, length);
    if (after === undefined) throw new Error("two points in one");
    // Any third pixel: its distances from both, by the truth's scale.
    const third = pixel();
    const [a, b, c] = [p, q, third].map((each) => byComplexNumbers(after, each));
    worst = Math.max(
      worst,
      Math.abs(apart(a, b) - length) / metresPerPixel,
      Math.abs(apart(a, c) - metresPerPixel * apart(p, third)) / metresPerPixel,
      apart(a, points[0]) / metresPerPixel,
      apart(imagePoint(after, c), third),
    );
  }
  console.log(`worst of 500 placements: ${worst.toExponential(1)} pixels`);
  expect(worst).toBeLessThan(1e-3);
});

it("finds no scale in one point", () => {
  const place: UnderlayPlacement = { scale: 0.01, turn: 0, origin: [0, 0] };
  expect(
    scaledBy(
      place,
      [
        [1, 1],
        [1, 1],
      ],
      2,
    ),
  ).toBeUndefined();
});

it("turns about a place, which stays, and lays a line onto the nearest axis", () => {
  const place: UnderlayPlacement = { scale: 0.01, turn: 20, origin: [1, -2] };
  const still: Vec2 = [2, 1.5];
  const pixel = imagePoint(place, still);
  const other: Vec2 = [400, 120];
  const points = [still, roomPoint(place, other)] as const;
  const turned = turnedAbout(place, still, turnOntoAxis(points));
  expect(apart(roomPoint(turned, pixel), still)).toBeLessThan(1e-12);
  const [x, y] = roomPoint(turned, other);
  expect(Math.min(Math.abs(x - still[0]), Math.abs(y - still[1]))).toBeLessThan(1e-12);
  expect(Math.abs(turned.turn - place.turn)).toBeLessThanOrEqual(45);
  expect(
    turnOntoAxis([
      [0, 0],
      [-1, 0.1],
    ]),
  ).toBeCloseTo(5.7106, 4);
});

it("is drawn where the transform puts it, rows counting downwards", () => {
  const image = { scale: 0.004, turn: 33, height: 900 };
  const origin: Vec2 = [0.4, -0.7];
  const perMetre = 150;
  const at = ([x, y]: Vec2): Vec2 => [38 + perMetre * x, 700 - perMetre * y];
  const [a, b, c, d, e, f] = underlayMatrix(image, at(origin), perMetre);
  for (const [column, row] of [
    [0, 0],
    [1200, 0],
    [0, 900],
    [317, 411],
  ]) {
    const drawn: Vec2 = [a * column + c * row + e, b * column + d * row + f];
    const meant = at(byComplexNumbers({ ...image, origin }, [column, image.height - row]));
    expect(apart(drawn, meant)).toBeLessThan(1e-9);
  }
});
