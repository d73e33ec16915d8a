/**
 * Every standing face that reflects: room, openings, island and bodies, each once, without what touching faces hide.
 */

import { type Ledger, TYPICAL } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { loopNormal } from "../geometry/plane-frame.ts";
import { rectangle } from "../geometry/polygon.ts";
import { dot, normalize, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { RoomDocument } from "../study/room-schema.ts";
import { ceilingAt } from "./ceiling-height.ts";
import { exposedSurfaces, type Face, withoutRegions } from "./faces.ts";
import type { RoomOpening, RoomShape } from "./scene.ts";
import { prismFaces, type Solid } from "./solids.ts";
import type { Surface, SurfacePart } from "./surface.ts";

const SILL = 0.9;

interface WallFrame {
  readonly corner: Vec2;
  readonly direction: Vec2;
  readonly length: number;
  readonly normal: Vec3;
}

/** Wall 0 is y = 0, then counter-clockwise; each from its first corner. */
export function wallFrame({ length: L, width: W }: RoomShape, wall: number): WallFrame {
  const frames: readonly WallFrame[] = [
    { corner: [0, 0], direction: [1, 0], length: L, normal: [0, 1, 0] },
    { corner: [L, 0], direction: [0, 1], length: W, normal: [-1, 0, 0] },
    { corner: [L, W], direction: [-1, 0], length: L, normal: [0, -1, 0] },
    { corner: [0, W], direction: [0, -1], length: W, normal: [1, 0, 0] },
  ];
  return frames[wall];
}

export function onWall({ corner, direction }: WallFrame, along: number, z: number): Vec3 {
  return [corner[0] + along * direction[0], corner[1] + along * direction[1], z];
}

/** Height of the ceiling (m) over the lower end of a stretch of a wall. */
export function lowestCeiling(room: RoomShape, wall: number, from: number, length: number): number {
  const frame = wallFrame(room, wall);
  const heights = [from, from + length].map((along) => {
    const [x, y] = onWall(frame, along, 0);
    return ceilingAt(room, x, y);
  });
  return Math.min(...heights);
}

function face(
  part: SurfacePart,
  name: string,
  vertices: readonly Vec3[],
  normal: Vec3,
  reflectance: number,
): Face {
  const turned = dot(normalize(loopNormal(vertices)), normal) < 0 ? [...vertices].reverse() : vertices;
  return { part, name, vertices: turned, normal: normalize(loopNormal(turned)), reflectance };
}

/** Surfaces of room and solids. */
export function surfacesOf(
  document: RoomDocument,
  room: RoomShape,
  solids: readonly Solid[],
  ledger: Ledger,
): { readonly surfaces: readonly Surface[]; readonly openings: readonly RoomOpening[] } {
  const path = "/room/reflectance";
  const given = document.reflectance;
  const ceiling = ledger.fill(given?.ceiling, `${path}/ceiling`, 0.8, TYPICAL);
  const floor = ledger.fill(given?.floor, `${path}/floor`, 0.2, TYPICAL);
  const walls = ledger.fill(given?.walls, `${path}/walls`, 0.5, TYPICAL);
  const { length: L, width: W } = room;
  const corners: Vec2[] = rectangle(0, 0, L, W);
  const openings = openingsOf(document, room, ledger);
  const wallFaces = [0, 1, 2, 3].flatMap((wall) => {
    const frame = wallFrame(room, wall);
    const end = onWall(frame, frame.length, 0);
    const high = (p: Vec3): Vec3 => [p[0], p[1], ceilingAt(room, p[0], p[1])];
    const start = onWall(frame, 0, 0);
    const part = `wall ${wall}` as SurfacePart;
    const reflectance = typeof walls === "number" ? walls : walls[wall];
    const whole = face(part, part, [start, end, high(end), high(start)], frame.normal, reflectance);
    const here = openings.filter((opening) => opening.wall === wall);
    const panes = here.map((o) =>
      face("opening", o.name, rectangleOnWall(frame, o), frame.normal, o.reflectance),
    );
    return { whole, panes, regions: panes.map((pane) => pane.vertices) };
  });
  const shell: Face[] = [
    face(
      "floor",
      "floor",
      corners.map(([x, y]): Vec3 => [x, y, 0]),
      [0, 0, 1],
      floor,
    ),
    face(
      "ceiling",
      "ceiling",
      corners.map(([x, y]): Vec3 => [x, y, ceilingAt(room, x, y)]),
      [0, 0, -1],
      ceiling,
    ),
  ];
  // The shell is one solid; every prism is its own, so that a slab hides the base it lies on.
  let solid = 0;
  const faces = [
    ...shell.map((f) => ({ ...f, solid: 0 })),
    ...wallFaces.flatMap(({ panes }) => panes.map((f) => ({ ...f, solid: 0 }))),
    ...solids.flatMap((s) =>
      s.prisms.flatMap((p) => {
        solid++;
        return prismFaces(s, p).map((f) => ({ ...f, solid }));
      }),
    ),
  ];
  const solidFaces = faces.filter((f) => f.solid > 0);
  const wallSurfaces = wallFaces.flatMap(({ whole, regions }) =>
    withoutRegions(whole, [...regions, ...touching(whole, solidFaces)]),
  );
  const withWalls = [...faces, ...wallFaces.map(({ whole }) => ({ ...whole, solid: 0 }))];
  const rest = exposedSurfaces(withWalls).filter((s) => !s.part.startsWith("wall"));
  const surfaces = [
    ...rest.filter((s) => s.part === "floor" || s.part === "ceiling"),
    ...wallSurfaces,
    ...rest.filter((s) => s.part !== "floor" && s.part !== "ceiling"),
  ];
  return { surfaces, openings: openings.map(({ reflectance: _, ...opening }) => opening) };
}

function touching(whole: Face, faces: readonly Face[]): (readonly Vec3[])[] {
  return faces
    .filter(
      (other) =>
        dot(whole.normal, other.normal) < -1 + 1e-9 &&
        Math.abs(dot(whole.normal, other.vertices[0]) - dot(whole.normal, whole.vertices[0])) < 1e-6,
    )
    .map((other) => other.vertices);
}

function rectangleOnWall(frame: WallFrame, { from, length, sill, height }: RoomOpening): Vec3[] {
  return [
    onWall(frame, from, sill),
    onWall(frame, from + length, sill),
    onWall(frame, from + length, sill + height),
    onWall(frame, from, sill + height),
  ];
}

type Glazed = RoomOpening & { readonly reflectance: number };

function openingsOf(document: RoomDocument, room: RoomShape, ledger: Ledger): Glazed[] {
  const glazing: Glazed[] = [];
  (document.openings ?? []).forEach((opening, i) => {
    const path = `/room/openings/${i}`;
    const wall = opening.wall as RoomOpening["wall"];
    const sill = ledger.fill(opening.sill, `${path}/sill`, SILL, TYPICAL);
    const reflectance = ledger.fill(
      opening.reflectance,
      `${path}/reflectance`,
      0.1,
      `dark glass: ${TYPICAL}`,
    );
    const { from, length, height } = opening;
    const pane: Glazed = {
      name: opening.name ?? `opening ${i + 1}`,
      wall,
      from,
      length,
      sill,
      height,
      reflectance,
    };
    const wide = wallFrame(room, wall).length;
    const lowest = lowestCeiling(room, wall, from, length);
    if (from + length > wide + 1e-6 || sill + height > lowest + 1e-6) {
      ledger.error(
        "opening-outside",
        path,
        `The opening reaches beyond wall ${wall}.`,
        phrase`within ${wide} × ${lowest}`,
        phrase`${from} to ${from + length} along the wall, ${sill} to ${sill + height} above the floor`,
      );
      return;
    }
    const clash = glazing.find((other) => other.wall === wall && overlap(other, pane));
    if (clash !== undefined) {
      ledger.error("openings-overlap", path, `The opening overlaps "${clash.name}".`);
      return;
    }
    glazing.push(pane);
  });
  return glazing;
}

function overlap(a: RoomOpening, b: RoomOpening): boolean {
  const width = Math.min(a.from + a.length, b.from + b.length) - Math.max(a.from, b.from);
  const height = Math.min(a.sill + a.height, b.sill + b.height) - Math.max(a.sill, b.sill);
  return width > 1e-6 && height > 1e-6;
}
