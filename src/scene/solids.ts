/**
 * What stands in the room as upright prisms: the island's slab, base and raised levels, and bodies.
 *
 * The island's top is 40 mm thick over the whole outline; the base is set back by the overhang; a basin is a recess
 * through both. Each prism is convex in plan, closed by itself, and touches its neighbours face to face.
 */

import { type Ledger, TYPICAL } from "../diagnostics/ledger.ts";
import { lengthList, phrase } from "../diagnostics/phrase.ts";
import { planPlacement } from "../geometry/plan-placement.ts";
import { loopNormal } from "../geometry/plane-frame.ts";
import { area, type Polygon, rectangleBetween } from "../geometry/polygon.ts";
import { convexPieces, difference, intersection } from "../geometry/polygon-pieces.ts";
import { prism } from "../geometry/solids.ts";
import { normalize, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { BodyDocument } from "../study/room-schema.ts";
import { radians } from "../units/quantities.ts";
import { ceilingAt } from "./ceiling-height.ts";
import type { Face } from "./faces.ts";
import { ON_SURFACE, overFloor, spaceOfRoom } from "./inside-room.ts";
import { basePieces } from "./island.ts";
import { islandToRoom } from "./island-frame.ts";
import type { Blocker, Island, RoomShape, SolidBody } from "./scene.ts";
import type { SurfacePart } from "./surface.ts";

/** Common volume above which two solids overlap rather than touch (m³). */
export const TOUCHING_VOLUME = 1e-6;

/** An upright prism in the room, convex in plan, counter-clockwise. */
export interface Prism {
  readonly outline: Polygon;
  readonly bottom: number;
  readonly top: number;
}

/** Prisms that belong together: one thing to people, one solid to light. */
export interface Solid {
  readonly name: string;
  readonly kind: "island" | "body";
  readonly path: string;
  readonly prisms: readonly Prism[];
  readonly topPart: SurfacePart;
  readonly sidePart: SurfacePart;
  readonly topReflectance: number;
  readonly sideReflectance: number;
  readonly transmittance: number;
}

export function islandSolid(island: Island): Solid {
  const { height, topThickness, basin, levels } = island;
  const recess = basin === undefined ? [] : convexPieces(basin.outline);
  const underTop = height - topThickness;
  const prisms: Prism[] = [];
  const add = (pieces: readonly Polygon[], bottom: number, top: number) => {
    for (const piece of pieces)
      if (top - bottom > 1e-9 && area([piece]) > 1e-9)
        prisms.push({ outline: piece.map((p) => islandToRoom(island, p)), bottom, top });
  };
  const outline = convexPieces(island.outline);
  const base = basePieces(island);
  const floor = basin?.floor ?? underTop;
  add(difference(outline, recess), Math.max(floor, underTop), height);
  if (floor > underTop) add(outline, underTop, floor);
  add(base, 0, Math.min(floor, underTop));
  if (floor < underTop) add(difference(base, recess), floor, underTop);
  for (const level of levels) add(convexPieces(level.outline), height, level.height);
  return {
    name: "island",
    kind: "island",
    path: "/island",
    prisms,
    topPart: "island top",
    sidePart: "island sides",
    topReflectance: island.topReflectance,
    sideReflectance: island.sideReflectance,
    transmittance: 0,
  };
}

export function bodySolid(
  document: BodyDocument,
  path: string,
  room: RoomShape,
  ledger: Ledger,
): { readonly body: SolidBody; readonly solid: Solid } | undefined {
  const { name, box, turn, colour, finish } = document;
  const [a, b] = box;
  const low = a.map((value, i) => Math.min(value, b[i]));
  const high = a.map((value, i) => Math.max(value, b[i]));
  if (low.some((value, i) => high[i] - value < 1e-4)) {
    const sizes = lengthList(
      high.map((value, i) => value - low[i]),
      " × ",
    );
    ledger.error("body-flat", `${path}/box`, "The body has no thickness.", "at least 0.1 mm each way", sizes);
    return undefined;
  }
  const middle: Vec2 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const [hx, hy] = [(high[0] - low[0]) / 2, (high[1] - low[1]) / 2];
  const corners: Vec2[] = rectangleBetween(-hx, -hy, hx, hy);
  const outline = corners.map(planPlacement(middle, radians(turn ?? 0)));
  const outside = outline.some((corner) => !overFloor(corner, room));
  if (outside || low[2] < -ON_SURFACE)
    ledger.error(
      "body-outside",
      `${path}/box`,
      "The body reaches outside the room.",
      spaceOfRoom(room),
      phrase`corners (${low[0]}, ${low[1]}, ${low[2]}) and (${high[0]}, ${high[1]}, ${high[2]})`,
    );
  const ceiling = Math.min(...outline.map(([x, y]) => ceilingAt(room, x, y)));
  if (!outside && high[2] > ceiling + ON_SURFACE)
    ledger.warn(
      "body-above-ceiling",
      `${path}/box`,
      phrase`"${name}" reaches ${high[2] - ceiling} above the ceiling.`,
      phrase`at most ${ceiling} above the floor at its lowest corner`,
    );
  const reflectance = ledger.fill(document.reflectance, `${path}/reflectance`, 0.5, TYPICAL);
  const body: SolidBody = {
    name,
    outline,
    bottom: low[2],
    top: high[2],
    ...(colour === undefined ? {} : { colour }),
    ...(finish === undefined ? {} : { finish }),
  };
  return {
    body,
    solid: {
      name,
      kind: "body",
      path,
      prisms: [{ outline, bottom: low[2], top: high[2] }],
      topPart: "body",
      sidePart: "body",
      topReflectance: reflectance,
      sideReflectance: reflectance,
      transmittance: document.transmittance ?? 0,
    },
  };
}

/** The outward faces of a prism. Only its upper face is of the solid's top. */
export function prismFaces(solid: Solid, { outline, bottom, top }: Prism): Face[] {
  const { name, topPart, sidePart, topReflectance, sideReflectance } = solid;
  const face = (vertices: readonly Vec3[], part: SurfacePart, reflectance: number): Face => ({
    part,
    name,
    vertices,
    normal: normalize(loopNormal(vertices)),
    reflectance,
  });
  const at = (z: number) => outline.map(([x, y]): Vec3 => [x, y, z]);
  const low = at(bottom);
  const high = at(top);
  const sides = outline.map((_, i) => {
    const j = (i + 1) % outline.length;
    return face([low[i], low[j], high[j], high[i]], sidePart, sideReflectance);
  });
  return [face(high, topPart, topReflectance), face([...low].reverse(), sidePart, sideReflectance), ...sides];
}

export function solidBlockers({ name, kind, prisms, transmittance }: Solid): Blocker[] {
  return prisms.map(({ outline, bottom, top }) => ({
    name,
    kind,
    mesh: prism(outline, bottom, top),
    transmittance,
  }));
}

/** Common volume of two sets of prisms (m³). */
export function commonVolume(a: readonly Prism[], b: readonly Prism[]): number {
  let sum = 0;
  for (const p of a)
    for (const q of b) {
      const height = Math.min(p.top, q.top) - Math.max(p.bottom, q.bottom);
      if (height > 0) sum += height * area(intersection([p.outline], [q.outline]));
    }
  return sum;
}

/** How far (m) along x, y and up two sets of prisms reach into one another: of the box about what they share. */
function commonExtents(a: readonly Prism[], b: readonly Prism[]): readonly [number, number, number] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const p of a)
    for (const q of b) {
      const [bottom, top] = [Math.max(p.bottom, q.bottom), Math.min(p.top, q.top)];
      if (top <= bottom) continue;
      for (const [x, y] of intersection([p.outline], [q.outline]).flat())
        for (const corner of [
          [x, y, bottom],
          [x, y, top],
        ])
          corner.forEach((at, axis) => {
            low[axis] = Math.min(low[axis], at);
            high[axis] = Math.max(high[axis], at);
          });
    }
  return [high[0] - low[0], high[1] - low[1], high[2] - low[2]];
}

/** Warns of solids that stand in one another. */
export function checkOverlaps(solids: readonly Solid[], ledger: Ledger): void {
  solids.forEach((a, i) => {
    for (const b of solids.slice(0, i)) {
      if (commonVolume(a.prisms, b.prisms) > TOUCHING_VOLUME)
        ledger.warn(
          "bodies-overlap",
          a.path,
          phrase`"${a.name}" and "${b.name}" stand in one another, ${lengthList(commonExtents(a.prisms, b.prisms), " × ")} (x, y, height).`,
        );
    }
  });
}
