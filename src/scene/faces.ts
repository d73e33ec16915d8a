/**
 * Flat faces that meet: where two coincide, facing one another, neither sees light and both are cut away.
 *
 * A face is a loop with holes in its own plane frame. A cut that lies strictly inside becomes a hole, so that an
 * undisturbed rectangle stays one; any other cut divides the face into convex pieces.
 */

import { type PlaneFrame, placeInPlane, pointOfPlane } from "../geometry/plane-frame.ts";
import { area, counterClockwise, depthInside, type Polygon } from "../geometry/polygon.ts";
import { convexPieces, difference, intersection } from "../geometry/polygon-pieces.ts";
import { cross, dot, normalize, subtract, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { Surface } from "./surface.ts";

/** Planes closer than this are one (m). */
const SAME_PLANE = 1e-6;
const PARALLEL = 1e-9;
/** Overlaps smaller than this are rounding (m²). */
const NO_OVERLAP = 1e-8;

export type Face = Omit<Surface, "holes">;

/** Faces with what they hide of one another cut away. Faces of one `solid` never hide each other. */
export function exposedSurfaces(faces: readonly (Face & { readonly solid: number })[]): Surface[] {
  return faces.flatMap((face) => {
    const frame = frameOf(face);
    const cuts = faces
      .filter((other) => other.solid !== face.solid && opposes(face, other))
      .map((other) => toPlane(other.vertices, frame))
      .map(counterClockwise);
    const { solid: _, ...plain } = face;
    return cutFace(plain, frame, cuts);
  });
}

/** A face with regions removed, given in any loop of its own plane. */
export function withoutRegions(face: Face, regions: readonly (readonly Vec3[])[]): Surface[] {
  const frame = frameOf(face);
  const cuts = regions.map((loop) => counterClockwise(toPlane(loop, frame)));
  return cutFace(face, frame, cuts);
}

function opposes(a: Face, b: Face): boolean {
  return (
    dot(a.normal, b.normal) < -1 + PARALLEL &&
    Math.abs(dot(subtract(b.vertices[0], a.vertices[0]), a.normal)) < SAME_PLANE
  );
}

function frameOf({ vertices, normal }: Face): PlaneFrame {
  const u = normalize(subtract(vertices[1], vertices[0]));
  return { origin: vertices[0], u, v: cross(normal, u) };
}

function toPlane(points: readonly Vec3[], frame: PlaneFrame): Vec2[] {
  return points.map((p) => placeInPlane(p, frame));
}

function cutFace(face: Face, frame: PlaneFrame, cuts: readonly Polygon[]): Surface[] {
  const outer = toPlane(face.vertices, frame);
  const outerPieces = convexPieces(outer);
  const holes: Polygon[] = [];
  const crossing: Polygon[] = [];
  for (const cut of cuts) {
    if (area(intersection(convexPieces(cut), outerPieces)) < NO_OVERLAP) continue;
    const apart = holes.every(
      (hole) => area(intersection(convexPieces(cut), convexPieces(hole))) < NO_OVERLAP && !touches(cut, hole),
    );
    if (apart && cut.every((p) => depthInside(p, outer) > SAME_PLANE) && !crosses(cut, outer))
      holes.push(cut);
    else crossing.push(cut);
  }
  const room = (p: Vec2): Vec3 => pointOfPlane(p, frame);
  if (crossing.length === 0) return [{ ...face, holes: holes.map((hole) => hole.map(room).reverse()) }];
  const gone = [...holes, ...crossing].flatMap(convexPieces);
  return difference(outerPieces, gone)
    .filter((piece) => area([piece]) > NO_OVERLAP)
    .map((piece) => ({ ...face, vertices: piece.map(room), holes: [] }));
}

function touches(a: Polygon, b: Polygon): boolean {
  return (
    a.some((p) => Math.abs(depthInside(p, b)) < SAME_PLANE) ||
    b.some((p) => Math.abs(depthInside(p, a)) < SAME_PLANE)
  );
}

/** Whether a concave outer loop dips into a cut whose corners are all inside it. */
function crosses(cut: Polygon, outer: Polygon): boolean {
  return outer.some((p) => depthInside(p, cut) > -SAME_PLANE);
}
