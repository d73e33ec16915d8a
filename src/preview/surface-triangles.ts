/** The scene's surfaces as triangles, and where each of their vertices finds its light in an atlas. */

import { ShapeUtils, Vector2 } from "three";
import { flatSurface } from "../engine/surfaces/surface-lattice.ts";
import { pointOfPlane } from "../geometry/plane-frame.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import { albedoOf } from "./colour.ts";
import { type SurfaceAtlas, texelOf } from "./surface-atlas.ts";
import { Triangles } from "./triangles.ts";

export interface RoomTriangles {
  readonly triangles: Triangles;
  /** Surface of each vertex, and its place on it (m). */
  readonly surfaces: readonly number[];
  readonly places: readonly Vec2[];
}

/** Every surface of the scene. */
export function roomTriangles(scene: Scene): RoomTriangles {
  const triangles = new Triangles();
  const surfaces: number[] = [];
  const places: Vec2[] = [];
  const colours = new Map<string, string>();
  for (const { name, colour } of scene.bodies ?? []) if (colour !== undefined) colours.set(name, colour);
  if (scene.island?.colour !== undefined) colours.set("island", scene.island.colour);
  scene.surfaces.forEach((surface, s) => {
    const flat = flatSurface(surface);
    const { outline, holes, normal } = flat;
    const albedo = albedoOf(surface, colours);
    const loops = [outline, ...holes];
    const middle: Vec2 = [
      outline.reduce((sum, [x]) => sum + x, 0) / outline.length,
      outline.reduce((sum, [, y]) => sum + y, 0) / outline.length,
    ];
    const points = loops.flat();
    const faces = ShapeUtils.triangulateShape(
      outline.map(([x, y]) => new Vector2(x, y)),
      holes.map((hole) => hole.map(([x, y]) => new Vector2(x, y))),
    );
    for (const face of faces)
      for (const k of facingUp(face, points)) {
        const place = points[k];
        // Half a millimetre beyond the edge: neighbours overlap, and no crack shows between them.
        const drawn = k < outline.length ? beyond(place, middle) : place;
        triangles.corner(pointOfPlane(drawn, flat), normal, albedo);
        surfaces.push(s);
        places.push(place);
      }
  });
  return { triangles, surfaces, places };
}

/** Surfaces of the island's top that mirror the room: those of a polished top at its main height. */
export function mirroringSurfaces({ island, surfaces }: Scene): number[] {
  if (island?.finish !== "polished") return [];
  return surfaces.flatMap(({ part, vertices }, s) =>
    part === "island top" && Math.abs(vertices[0][2] - island.height) < 1e-6 ? [s] : [],
  );
}

const OVERLAP = 7e-4;

/** A triangle's corners counter-clockwise, seen against the normal. */
function facingUp(face: readonly number[], points: readonly Vec2[]): readonly number[] {
  const [a, b, c] = face.map((k) => points[k]);
  const twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  return twice < 0 ? [face[0], face[2], face[1]] : face;
}

function beyond([x, y]: Vec2, [mx, my]: Vec2): Vec2 {
  return [x + OVERLAP * Math.sign(x - mx), y + OVERLAP * Math.sign(y - my)];
}

export function spotsOf({ surfaces, places }: RoomTriangles, { cells }: SurfaceAtlas): Float32Array {
  const spots = new Float32Array(2 * places.length);
  places.forEach((place, i) => {
    spots.set(texelOf(cells[surfaces[i]], place), 2 * i);
  });
  return spots;
}
