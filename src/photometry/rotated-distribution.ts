/**
 * A type C distribution turned in its own frame: I′(d) = I(R⁻¹ d).
 *
 * Where R leaves the vertical axis upright or turns it over, the nodes of the table move onto nodes: exact. Otherwise the table is sampled
 * anew every 2.5° of C and 1° of γ, bilinear between; the error is that of such a table.
 */

import type { Vec3 } from "../geometry/vector.ts";
import { radians } from "../units/quantities.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";
import { anglesOf, directionOf, type PhotometricAngles } from "./photometric-planes.ts";
import { intensityAt } from "./reference-lookup.ts";

/** Three columns: what x, y and z become. */
export type Rotation = readonly [Vec3, Vec3, Vec3];

/** About x by a, then about y by b, then about z by c (degrees, counter-clockwise seen from the axis' end). */
export function rotationAboutAxes(a: number, b: number, c: number): Rotation {
  const [sa, sb, sc] = [a, b, c].map((angle) => exact(Math.sin(radians(angle))));
  const [ca, cb, cc] = [a, b, c].map((angle) => exact(Math.cos(radians(angle))));
  const turned = ([x, y, z]: Vec3): Vec3 => {
    const [y1, z1] = [ca * y - sa * z, sa * y + ca * z];
    const [x2, z2] = [cb * x + sb * z1, cb * z1 - sb * x];
    return [cc * x2 - sc * y1, sc * x2 + cc * y1, z2];
  };
  return [turned([1, 0, 0]), turned([0, 1, 0]), turned([0, 0, 1])];
}

/** Sines of quarter turns without their rounding. */
const exact = (value: number): number =>
  Math.abs(value - Math.round(value)) < 1e-12 ? Math.round(value) : value;

/** Of type C alone. */
export function rotatedDistribution(
  distribution: IntensityDistribution,
  rotation: Rotation,
): IntensityDistribution {
  const upright = Math.abs(rotation[2][2]) > 1 - 1e-12;
  const towards = (C: number, gamma: number): PhotometricAngles => {
    const d = directionOf("C", C, gamma);
    const back = rotation.map((column) => column[0] * d[0] + column[1] * d[1] + column[2] * d[2]);
    return anglesOf("C", back[0], back[1], back[2]);
  };
  const { horizontal, vertical } = upright ? movedNodes(distribution, rotation) : evenNodes();
  const intensity = new Float64Array(horizontal.length * vertical.length);
  let i = 0;
  for (const C of horizontal)
    for (const gamma of vertical) {
      // At a pole the direction has no C of its own; the table may, so its own plane is asked.
      const inward = Math.min(Math.max(gamma, 1e-9), Math.PI - 1e-9);
      const from = towards(C, inward);
      intensity[i++] = intensityAt(
        distribution,
        from.horizontal,
        nearest(from.vertical, distribution.vertical),
      );
    }
  return { type: "C", symmetry: "none", horizontal, vertical, intensity };
}

/** The table's own angle where it is meant: rounding must not lose its rim. */
function nearest(gamma: number, vertical: Float64Array): number {
  const [first, last] = [vertical[0], vertical[vertical.length - 1]];
  if (Math.abs(gamma - first) < 1e-8) return first;
  return Math.abs(gamma - last) < 1e-8 ? last : gamma;
}

/** Where the nodes of a table come to lie: C′ = C + turn, or turn − C upside down. */
function movedNodes({ horizontal, vertical }: IntensityDistribution, [x, , z]: Rotation) {
  const over = z[2] < 0;
  const turn = Math.atan2(x[1], x[0]);
  const full = 2 * Math.PI;
  const moved = Array.from(horizontal, (C) => {
    const at = (turn + (over ? -C : C)) % full;
    return at < 0 ? at + full : at;
  }).filter((C) => C > 1e-9 && C < full - 1e-9);
  const planes = [...new Set([0, ...moved.map((C) => Number(C.toPrecision(12))), full])].sort(
    (a, b) => a - b,
  );
  const rows = over ? Array.from(vertical, (gamma) => Math.PI - gamma).reverse() : Array.from(vertical);
  return {
    horizontal: horizontal.length === 1 ? Float64Array.of(0) : Float64Array.from(planes),
    vertical: Float64Array.from(rows),
  };
}

function evenNodes() {
  return {
    horizontal: Float64Array.from({ length: 145 }, (_, i) => radians(2.5 * i)),
    vertical: Float64Array.from({ length: 181 }, (_, i) => radians(i)),
  };
}
