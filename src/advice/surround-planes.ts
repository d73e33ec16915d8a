/**
 * Where light is read around the island beside the planes that a study names: the fronts of its wall units and the floor of the
 * aisles at its sides.
 *
 * A wall unit is a body that begins 1.2 m or more above the floor with its back to a wall; its front is the face across.
 * An aisle is the floor along one side of the island's bounding box, as wide as it is free to the next body that
 * stands there or to the wall, of that at most 1.2 m; with less than 0.6 m nobody passes, and it is none (common practice,
 * no source). Grids are those of any other plane; points that another body covers are left out.
 */

import { depthInside, type Polygon } from "../geometry/polygon.ts";
import { clip } from "../geometry/polygon-pieces.ts";
import { dot, scale, type Vec2, type Vec3 } from "../geometry/vector.ts";
import { type GridArea, gridCells, gridPlane } from "../scene/calculation-grid.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import { ON_SURFACE } from "../scene/inside-room.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import { type IslandSide, sideAxes } from "../scene/island-side.ts";
import type { Island, Scene, SolidBody } from "../scene/scene.ts";

export type SurroundPlaneKind = "front" | "aisle";
export type AisleSide = "left" | "right" | "near" | "far";

export interface SurroundPlane {
  readonly kind: SurroundPlaneKind;
  /** The body, or the side of the island that the aisle runs along. */
  readonly of: string;
  readonly plane: CalculationPlane;
}

type Room = Pick<Scene, "room" | "island" | "bodies">;

/** Nothing lower is a wall unit, nothing that begins higher stands in an aisle (m). */
const OVERHEAD = 1.2;
/** As far from a wall, a body has its back to it (m). */
const AT_WALL = 0.05;
const WIDEST_AISLE = 1.2;
const NARROWEST_AISLE = 0.6;
const UP: Vec3 = [0, 0, 1];

export function surroundPlanes(scene: Room): SurroundPlane[] {
  const { bodies = [], island } = scene;
  return [
    ...bodies.flatMap((body) => frontOf(body, scene)),
    ...(island === undefined ? [] : SIDES.flatMap(([side, name]) => aisleAt(side, name, island, scene))),
  ];
}

/** The front of a wall unit; nothing of any other body. */
function frontOf({ name, outline, bottom, top }: SolidBody, scene: Room): SurroundPlane[] {
  if (bottom < OVERHEAD || outline.length !== 4) return [];
  const sides = outline.map((from, i) => ({ from, to: outline[(i + 1) % 4] }));
  const lengths = sides.map(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]));
  const atWall = sides.map(({ from, to }) =>
    wallsAt(from, scene).some((w) => wallsAt(to, scene).includes(w)),
  );
  const back = [0, 1, 2, 3]
    .filter((i) => atWall[i] && !atWall[(i + 2) % 4])
    .sort((a, b) => lengths[b] - lengths[a])[0];
  if (back === undefined) return [];
  const { from, to } = sides[(back + 2) % 4];
  const along: Vec3 = [to[0] - from[0], to[1] - from[1], 0];
  const normal = scale([along[1], -along[0], 0], 1 / lengths[(back + 2) % 4]);
  const gridArea = { corner: [from[0], from[1], bottom], u: along, v: [0, 0, top - bottom] } as const;
  return planeAt("front", name, `front of ${name}`, gridArea, normal, scene);
}

/** The room's walls that a place is at. */
function wallsAt([x, y]: Vec2, { room: { length, width } }: Room): number[] {
  return [y, length - x, width - y, x].flatMap((gap, wall) => (gap < AT_WALL ? [wall] : []));
}

const SIDES: readonly (readonly [IslandSide, AisleSide])[] = [
  ["y-", "near"],
  ["y+", "far"],
  ["x-", "left"],
  ["x+", "right"],
];

/** The floor along a side of the island; nothing where nobody passes. */
function aisleAt(side: IslandSide, name: AisleSide, island: Island, scene: Room): SurroundPlane[] {
  const { along: run, at } = sideAxes(island, side);
  const place = (u: number, outwards: number): Vec2 => islandToRoom(island, at(u, -outwards));
  const [from, to] = [place(0, 0), place(run, 0)];
  const level = ([x, y]: Vec2): Vec3 => [x - from[0], y - from[1], 0];
  const outwards = level(place(0, 1));
  const strip: Polygon = [from, to, place(run, WIDEST_AISLE), place(0, WIDEST_AISLE)];
  const inTheWay = (scene.bodies ?? []).flatMap(({ outline, bottom }) =>
    bottom >= OVERHEAD ? [] : clip(strip, outline).map((corner) => dot(level(corner), outwards)),
  );
  const walls = [from, to].map((end) => toWall(end, outwards, scene));
  const free = Math.min(WIDEST_AISLE, ...inTheWay, ...walls);
  if (free < NARROWEST_AISLE) return [];
  const gridArea = { corner: [...from, 0] as const, u: scale(outwards, free), v: level(to) };
  return planeAt("aisle", name, `aisle, ${name} side`, gridArea, UP, scene);
}

/** From a place to the room's wall along a level direction (m). */
function toWall([x, y]: Vec2, [dx, dy]: Vec3, { room: { length, width } }: Room): number {
  const along = (at: number, step: number, most: number): number =>
    step > 0 ? (most - at) / step : step < 0 ? -at / step : Number.POSITIVE_INFINITY;
  return Math.min(along(x, dx, length), along(y, dy, width));
}

function planeAt(
  kind: SurroundPlaneKind,
  of: string,
  name: string,
  gridArea: GridArea,
  normal: Vec3,
  { bodies = [] }: Room,
): SurroundPlane[] {
  const [columns, rows] = gridCells(gridArea);
  const about = { name, role: "probe", quantity: "planar", normal } as const;
  const { points, weights } = gridPlane(about, gridArea, columns, rows);
  const open = Array.from(weights, (_, i) => i).filter((i) => {
    const [x, y, z] = normal.map((n, axis) => points[3 * i + axis] + 2 * ON_SURFACE * n);
    return !bodies.some(
      ({ outline, bottom, top }) =>
        z > bottom + ON_SURFACE && z < top - ON_SURFACE && depthInside([x, y], outline) > ON_SURFACE,
    );
  });
  if (open.length === 0) return [];
  const plane = {
    ...about,
    points: Float64Array.from(open.flatMap((i) => [points[3 * i], points[3 * i + 1], points[3 * i + 2]])),
    weights: Float64Array.from(open, (i) => weights[i]),
  };
  return [{ kind, of, plane }];
}
