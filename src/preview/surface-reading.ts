/** Light read at one point of a surface: direct computed for that very point, interreflected from its lattice. */

import { type Camera, type Mesh, Raycaster, type Vector2, type Vector3 } from "three";
import { placeInPlane } from "../geometry/plane-frame.ts";
import { depthInside } from "../geometry/polygon.ts";
import { dot, subtract, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import { type Cut, isKept } from "./cut.ts";
import type { LightCache } from "./light-cache.ts";
import { EXACT } from "./preview-quality.ts";
import { SLOTS } from "./scene-texture.ts";
import { type AtlasCell, texelOf } from "./surface-atlas.ts";

/** Light at one point of a surface (lx). */
export interface SurfaceReading {
  readonly surface: string;
  readonly direct: number;
  readonly interreflected: number;
  readonly place: Vec3;
}

/** Light at a room point (m) on a surface; undefined where there is none. */
export function readingOn(cache: LightCache, scene: Scene, point: Vec3): SurfaceReading | undefined {
  const atlas = cache.target?.atlas;
  if (atlas === undefined) return undefined;
  const surface = surfaceAt(scene, atlas.cells, point);
  if (surface === undefined) return undefined;
  const { cell, place } = surface;
  const slots = cache.points.at(
    Float32Array.from(point),
    Float32Array.from(cell.flat.normal),
    [cell.surface],
    EXACT,
  );
  let direct = 0;
  for (let k = 0; k < SLOTS; k++) direct += cache.weights[k] * slots[k];
  const interreflected = cache.interreflectedAt(...texelOf(cell, place));
  return { surface: scene.surfaces[cell.surface].name, direct, interreflected, place: point };
}

/** Where a ray from the eye meets the first surface that faces it. */
export function seenPoint(mesh: Mesh, camera: Camera, ndc: Vector2, cut?: Cut): Vec3 | undefined {
  const caster = new Raycaster();
  caster.setFromCamera(ndc, camera);
  const { direction } = caster.ray;
  const hit = caster
    .intersectObject(mesh, false)
    .find(
      ({ point, face }) =>
        face !== null && face !== undefined && face.normal.dot(direction) < 0 && isKept(cut, point),
    );
  return hit === undefined ? undefined : [hit.point.x, hit.point.y, hit.point.z];
}

/** Whether a point is seen from an eye, past all that stands before it. */
export function isInSight(meshes: readonly Mesh[], eye: Vector3, point: Vector3, cut?: Cut): boolean {
  if (!isKept(cut, point)) return false;
  const way = point.clone().sub(eye);
  const far = way.length();
  const caster = new Raycaster(eye, way.normalize(), 0.05, far - 0.02);
  return !caster
    .intersectObjects(
      meshes.filter(({ visible }) => visible),
      false,
    )
    .some((hit) => isKept(cut, hit.point));
}

/** Cell of the atlas and place on it of the surface nearest to a room point, within 1 cm. */
export function surfaceAt(
  scene: Scene,
  cells: readonly AtlasCell[],
  point: Vec3,
): { readonly cell: AtlasCell; readonly place: Vec2 } | undefined {
  let best: { cell: AtlasCell; place: Vec2 } | undefined;
  let nearest = 0.01;
  for (const cell of cells) {
    const { flat } = cell;
    const away = Math.abs(dot(subtract(point, flat.origin), flat.normal));
    if (away >= nearest) continue;
    const place = placeInPlane(point, flat);
    if (
      depthInside(place, flat.outline) < -1e-3 ||
      flat.holes.some((hole) => depthInside(place, hole) > 1e-3)
    )
      continue;
    if (scene.surfaces[cell.surface] === undefined) continue;
    nearest = away;
    best = { cell, place };
  }
  return best;
}
