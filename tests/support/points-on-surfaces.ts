/** Points over every surface of a scene by area, at least `least` on each, from a fixed seed. */
import { surfaceFrame } from "../../src/engine/interreflection/surface-grid.ts";
import { bounds, depthInside } from "../../src/geometry/polygon.ts";
import { dot, subtract, type Vec2, type Vec3 } from "../../src/geometry/vector.ts";
import type { Surface } from "../../src/scene/surface.ts";

export interface SurfacePoints {
  readonly surface: number;
  /** x, y, z each (m) */
  readonly points: Float64Array;
}

export function pointsOnSurfaces(
  surfaces: readonly Surface[],
  count: number,
  least: number,
  random: () => number,
): SurfacePoints[] {
  const flats = surfaces.map((surface) => {
    const { origin, u, v } = surfaceFrame(surface);
    const flatten = (loop: readonly Vec3[]): Vec2[] =>
      loop.map((p) => [dot(subtract(p, origin), u), dot(subtract(p, origin), v)]);
    const outline = flatten(surface.vertices);
    const box = bounds(outline);
    return { outline, holes: surface.holes.map(flatten), box, area: (box[2] - box[0]) * (box[3] - box[1]) };
  });
  const total = flats.reduce((sum, { area }) => sum + area, 0);
  return surfaces.map((surface, s) => {
    const { outline, holes, box, area } = flats[s];
    const { origin, u, v } = surfaceFrame(surface);
    const wanted = Math.max(least, Math.round((count * area) / total));
    const points: number[] = [];
    for (let tries = 0; points.length < 3 * wanted && tries < 1000 * wanted; tries++) {
      const x = box[0] + random() * (box[2] - box[0]);
      const y = box[1] + random() * (box[3] - box[1]);
      if (depthInside([x, y], outline) < 0.004) continue;
      if (holes.some((hole) => depthInside([x, y], [...hole].reverse()) > -0.004)) continue;
      points.push(
        origin[0] + x * u[0] + y * v[0],
        origin[1] + x * u[1] + y * v[1],
        origin[2] + x * u[2] + y * v[2],
      );
    }
    return { surface: s, points: Float64Array.from(points) };
  });
}
