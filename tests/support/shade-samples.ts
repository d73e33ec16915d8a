/**
 * Places of a lamp in its shade that send light to a point, drawn evenly over rings and lamps, and what each sends a plane that
 * faces it (lx): the engine's own optics of the shade, in none of the facets and cells in which the engine sums them.
 * Of shades without mirror-like parts.
 */

import { passedAlong, type RingPlace, ringPlace } from "../../src/geometry/revolved-surface.ts";
import type { SurfaceEmission } from "../../src/luminaire/emission.ts";
import { lawAt } from "../../src/luminaire/shade/lamp.ts";
import { eachLampPlace } from "../../src/luminaire/shade/shade-light.ts";

const SKIN = 1e-7;
/** Places across a ring. */
const ACROSS = 3;

/** Places around a ring, for about so many samples of rings. */
export function shadeSampleCount({ light }: SurfaceEmission, around: number): number {
  return ACROSS * around * light.assembly.surface.count + 2 * 96 * light.assembly.lamps.length;
}

/** Writes local positions (m) and weights; how many. */
export function scatterShade(
  { light, size, strength }: SurfaceEmission,
  [px, py, pz]: readonly number[],
  around: number,
  positions: Float64Array,
  weights: Float64Array,
): number {
  const { assembly, inwardExitance, outwardExitance } = light;
  const { surface, straight, centre, lamps } = assembly;
  const [qx, qy, qz] = [px / size, py / size, pz / size + centre];
  const level = strength / (size * size);
  let count = 0;
  const put = (x: number, y: number, z: number, E: number): void => {
    positions.set([size * x, size * y, size * (z - centre)], 3 * count);
    weights[count++] = level * E;
  };
  const passed = (x: number, y: number, z: number): number =>
    passedAlong(surface, straight, x, y, z, qx - x, qy - y, qz - z, SKIN, 1);
  const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  for (let ring = 0; ring < surface.count; ring++) {
    if (inwardExitance[ring] === 0 && outwardExitance[ring] === 0) continue;
    for (let i = 0; i < ACROSS; i++) {
      ringPlace(surface, ring, (i + 0.5) / ACROSS, place);
      for (let k = 0; k < around; k++) {
        const angle = (2 * Math.PI * (k + 0.5 + i / ACROSS)) / around;
        const [x, y, z] = [place.r * Math.cos(angle), place.r * Math.sin(angle), place.z];
        const facing =
          place.nr * (Math.cos(angle) * (qx - x) + Math.sin(angle) * (qy - y)) + place.nz * (qz - z);
        const M = facing > 0 ? outwardExitance[ring] : inwardExitance[ring];
        const d = Math.hypot(qx - x, qy - y, qz - z);
        if (M > 0)
          put(
            x,
            y,
            z,
            (M * Math.abs(facing) * place.area * passed(x, y, z)) / (Math.PI * d ** 3 * around * ACROSS),
          );
      }
    }
  }
  for (const lamp of lamps) {
    if (lamp.radius > 0) throw new Error("Lamps beside the axis are not drawn here.");
    const [tx, ty, tz] = [qx, qy, qz - lamp.z];
    const toward = Math.hypot(tx, ty, tz);
    const r = Math.hypot(tx, ty);
    // Places are of the half y >= 0 about the point's own azimuth; the other is its mirror image.
    eachLampPlace(lamp, r / toward, 0, tz / toward, (a, b, z, along) => {
      for (const side of [1, -1]) {
        const [x, y] = [(a * tx - side * b * ty) / r, (a * ty + side * b * tx) / r];
        const d = Math.hypot(qx - x, qy - y, qz - z);
        const J = lawAt(lamp.law, Math.acos(Math.max(-1, Math.min(1, (z - qz) / d))));
        const start = [x, y, z].map((c, k) => c + (along * [tx, ty, tz][k]) / toward);
        put(x, y, z, (lamp.flux * lamp.count * J * passed(start[0], start[1], start[2])) / (2 * 96 * d * d));
      }
    });
  }
  return count;
}
