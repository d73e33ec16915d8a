/** Outlines of things as ink: edges of surfaces, without the seams between pieces of one flat face. */

import { BufferAttribute, BufferGeometry } from "three";
import { flatSurface } from "../engine/surfaces/surface-lattice.ts";
import { placeInPlane, pointOfPlane } from "../geometry/plane-frame.ts";
import { depthInside } from "../geometry/polygon.ts";
import { dot, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";

/** Pieces of an edge that are looked at one by one. */
const EDGE_PIECES = 12;
const BESIDE = 0.004;

interface Lines {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
}

const edges = new WeakMap<Scene["surfaces"], Lines>();

/** Pairs of points, a line each, with the normal of their face. Key: the surfaces, which a moved luminaire leaves as they are. */
export function edgeGeometry(scene: Scene): BufferGeometry {
  const lines = edges.get(scene.surfaces) ?? edgesOf(scene);
  edges.set(scene.surfaces, lines);
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(lines.positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(lines.normals, 3));
  return geometry;
}

function edgesOf(scene: Scene): Lines {
  const flats = scene.surfaces.map(flatSurface);
  const lies = (s: number, place: Vec2): boolean =>
    depthInside(place, flats[s].outline) > 0 && !flats[s].holes.some((hole) => depthInside(place, hole) > 0);
  const positions: number[] = [];
  const normals: number[] = [];
  flats.forEach((flat, s) => {
    const level = dot(flat.normal, flat.origin);
    const alike = flats.flatMap((other, o) =>
      o !== s &&
      scene.surfaces[o].part === scene.surfaces[s].part &&
      dot(other.normal, flat.normal) > 1 - 1e-6 &&
      Math.abs(dot(other.normal, other.origin) - level) < 1e-4
        ? [o]
        : [],
    );
    const room = (p: Vec2): Vec3 => pointOfPlane(p, flat);
    for (const loop of [flat.outline, ...flat.holes])
      loop.forEach((a, i) => {
        const b = loop[(i + 1) % loop.length];
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const size = Math.hypot(dx, dy);
        if (size < 1e-6) return;
        for (let piece = 0; piece < EDGE_PIECES; piece++) {
          const at = (t: number): Vec2 => [a[0] + t * dx, a[1] + t * dy];
          const [mx, my] = at((piece + 0.5) / EDGE_PIECES);
          const seam = [1, -1].some((side) => {
            const beside = room([mx - (side * BESIDE * dy) / size, my + (side * BESIDE * dx) / size]);
            return alike.some((o) => lies(o, placeInPlane(beside, flats[o])));
          });
          if (seam) continue;
          positions.push(...room(at(piece / EDGE_PIECES)), ...room(at((piece + 1) / EDGE_PIECES)));
          normals.push(...flat.normal, ...flat.normal);
        }
      });
  });
  return { positions: Float32Array.from(positions), normals: Float32Array.from(normals) };
}
