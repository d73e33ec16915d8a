/** Geometry of a scene's surfaces, and of what is not a surface: pendants, cords, trims, people. */

import {
  BufferAttribute,
  BufferGeometry,
  CylinderGeometry,
  LatheGeometry,
  Matrix4,
  ShapeUtils,
  SphereGeometry,
  Vector2,
  Vector3,
} from "three";
import { RoundedBoxGeometry } from "three/addons/geometries/RoundedBoxGeometry.js";
import { mergeVertices } from "three/addons/utils/BufferGeometryUtils.js";
import { openingSurface } from "../../engine/direct/opening-surface.ts";
import { type Frame, pointToRoom } from "../../geometry/frame.ts";
import { depthInside } from "../../geometry/polygon.ts";
import { dot, subtract, type Vec2, type Vec3 } from "../../geometry/vector.ts";
import { halfProfile } from "../../luminaire/half-profile.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { ceilingAt } from "../../scene/room.ts";
import type { Blocker, Scene } from "../../scene/scene.ts";
import { flatSurface } from "../surface-light.ts";
import { albedoOf, linearOf, tinted, unitTint } from "./colour.ts";
import type { AtlasCell, SurfaceAtlas } from "./surface-atlas.ts";

/** Vertices as the room's shader takes them, and the triangles between them. */
export class Triangles {
  readonly positions: number[] = [];
  readonly normals: number[] = [];
  readonly albedo: number[] = [];
  readonly traits: number[] = [];
  readonly index: number[] = [];

  /** Number of vertices. */
  get count(): number {
    return this.positions.length / 3;
  }

  /** A vertex of its own: three one after the other make a triangle. */
  corner(p: Vec3, n: Vec3, albedo: Vec3, mirrors = 0, surface = 0): void {
    this.index.push(this.count);
    this.vertex(p, n, albedo, mirrors, surface);
  }

  vertex(p: Vec3, n: Vec3, albedo: Vec3, mirrors = 0, surface = 0): void {
    this.positions.push(...p);
    this.normals.push(...n);
    this.albedo.push(...albedo);
    this.traits.push(mirrors, surface);
  }

  /** The triangles of a three geometry, moved. */
  add(geometry: BufferGeometry, matrix: Matrix4, albedo: Vec3): void {
    // Each vertex once: light is computed for every one.
    geometry.deleteAttribute("uv");
    const flat = mergeVertices(geometry, 1e-5);
    const { position, normal } = flat.attributes;
    const first = this.count;
    for (const i of flat.index?.array ?? []) this.index.push(first + i);
    const p = new Vector3();
    const n = new Vector3();
    for (let i = 0; i < position.count; i++) {
      p.fromBufferAttribute(position, i).applyMatrix4(matrix);
      n.fromBufferAttribute(normal, i).transformDirection(matrix);
      this.vertex([p.x, p.y, p.z], [n.x, n.y, n.z], albedo);
    }
    flat.dispose();
    geometry.dispose();
  }

  /** `spots` two and `own` four numbers a vertex; none: lit by nothing. */
  geometry(spots?: Float32Array, own?: Float32Array): BufferGeometry {
    const geometry = new BufferGeometry();
    const set = (name: string, values: ArrayLike<number>, size: number): void => {
      geometry.setAttribute(name, new BufferAttribute(Float32Array.from(values), size));
    };
    set("position", this.positions, 3);
    set("normal", this.normals, 3);
    set("albedo", this.albedo, 3);
    set("traits", this.traits, 2);
    geometry.setIndex(new BufferAttribute(Uint32Array.from(this.index), 1));
    geometry.setAttribute("spot", new BufferAttribute(spots ?? new Float32Array(2 * this.count).fill(-1), 2));
    geometry.setAttribute("own", new BufferAttribute(own ?? new Float32Array(4 * this.count), 4));
    return geometry;
  }
}

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
  const polished = scene.island?.finish === "polished";
  const mainTop = scene.island?.height ?? 0;
  scene.surfaces.forEach((surface, s) => {
    const { outline, holes, corner, u, v, normal } = flatSurface(surface);
    const albedo = albedoOf(surface, colours);
    const mirrors = polished && surface.part === "island top" && Math.abs(corner[2] - mainTop) < 1e-6 ? 1 : 0;
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
      for (const k of face) {
        const place = points[k];
        // Half a millimetre beyond the edge: neighbours overlap, and no crack shows between them.
        const [x, y] = k < outline.length ? beyond(place, middle) : place;
        const at = [0, 1, 2].map((c) => corner[c] + x * u[c] + y * v[c]) as unknown as Vec3;
        triangles.corner(at, normal, albedo, mirrors, 1);
        surfaces.push(s);
        places.push(place);
      }
  });
  return { triangles, surfaces, places };
}

const OVERLAP = 7e-4;

function beyond([x, y]: Vec2, [mx, my]: Vec2): Vec2 {
  return [x + OVERLAP * Math.sign(x - mx), y + OVERLAP * Math.sign(y - my)];
}

/** Texel of a place on a surface (m). */
export function texelOf({ flat, lattice, x, y }: AtlasCell, [a, b]: Vec2): Vec2 {
  const along = (place: number, side: number, n: number): number => {
    const inset = Math.min(0.004, side / 8);
    return (n - 1) * Math.min(1, Math.max(0, (place - inset) / (side - 2 * inset)));
  };
  return [x + along(a, flat.length, lattice.columns), y + along(b, flat.width, lattice.rows)];
}

export function spotsOf({ surfaces, places }: RoomTriangles, { cells }: SurfaceAtlas): Float32Array {
  const spots = new Float32Array(2 * places.length);
  places.forEach((place, i) => {
    spots.set(texelOf(cells[surfaces[i]], place), 2 * i);
  });
  return spots;
}

/** A thing that is no surface: its triangles and the blocker it stands for. */
export interface Thing {
  readonly name: string;
  readonly kind: "pendant" | "person" | "fitting";
  /** Index among the scene's blockers, −1 for none. */
  readonly blocker: number;
  readonly triangles: Triangles;
}

const WHITE: Vec3 = [0.8, 0.8, 0.78];
const CORD: Vec3 = [0.05, 0.05, 0.05];
const SKIN_AND_CLOTH: Vec3 = [1.12, 0.98, 0.83];
const AROUND = 36;

/** Pendants with cord and canopy, trims of recessed luminaires, people. */
export function thingsOf(scene: Scene): Thing[] {
  const things: Thing[] = [];
  scene.layers.forEach(({ name, role, luminaires }, layer) => {
    luminaires.forEach((placed, index) => {
      const triangles = new Triangles();
      const blocker = scene.blockers.findIndex(({ owner }) => owner?.[0] === layer && owner[1] === index);
      hung(scene, placed, role === "pendant", triangles);
      if (triangles.count > 0)
        things.push({
          name: `${name} ${index + 1}`,
          kind: blocker < 0 ? "fitting" : "pendant",
          blocker,
          triangles,
        });
    });
  });
  scene.blockers.forEach((each, blocker) => {
    if (each.kind !== "person") return;
    const triangles = new Triangles();
    person(each, triangles);
    things.push({ name: each.name, kind: "person", blocker, triangles });
  });
  return things;
}

/** Whether the luminous surface is the body's own: opal glass, not a shade around it. */
export function glowsWhole({ luminaire }: PlacedLuminaire): boolean {
  const { body, emission, distribution } = luminaire;
  if (body === undefined) return true;
  const { kind, half } = openingSurface(emission.opening, distribution);
  if (kind === "point" || kind.startsWith("flat")) return false;
  return 2 * half[2] > 0.8 * body.height && 2 * Math.max(half[0], half[1]) > 0.8 * body.diameter;
}

function matrixOf({ origin, rotation: r }: Frame): Matrix4 {
  return new Matrix4().set(
    r[0],
    r[3],
    r[6],
    origin[0],
    r[1],
    r[4],
    r[7],
    origin[1],
    r[2],
    r[5],
    r[8],
    origin[2],
    0,
    0,
    0,
    1,
  );
}

function hung(scene: Scene, placed: PlacedLuminaire, hangs: boolean, out: Triangles): void {
  const { luminaire, frame } = placed;
  const { body, emission } = luminaire;
  const matrix = matrixOf(frame);
  let top = emission.opening.height / 2;
  if (body !== undefined) {
    const profile = halfProfile(body, emission.opening, 16);
    top = profile[profile.length - 1][1];
    if (!glowsWhole(placed)) {
      // A colour that is given says more of the outside than a reflectance that is usual.
      const albedo = linearOf(luminaire.colour) ?? tinted([1, 1, 1], body.reflectance);
      if (body.profile === "box") {
        const box = new RoundedBoxGeometry(
          body.length ?? body.diameter,
          body.width ?? body.diameter,
          body.height,
          2,
          0.004,
        );
        box.translate(0, 0, body.offset);
        out.add(box, matrix, albedo);
      } else {
        out.add(lathe(profile), matrix, albedo);
        const [[rim, z]] = profile;
        if (rim > 0)
          out.add(
            lathe([
              [0, z],
              [rim, z],
            ]),
            matrix,
            albedo,
          );
        const [end, high] = profile[profile.length - 1];
        if (end > 0)
          out.add(
            lathe([
              [end, high],
              [0, high],
            ]),
            matrix,
            albedo,
          );
      }
    }
  }
  const [x, y, z] = pointToRoom(frame, [0, 0, top]);
  const ceiling = ceilingAt(scene.room, x, y);
  if (hangs && ceiling - z > 0.01) {
    const canopy = luminaire.canopy;
    const height = canopy?.height ?? (canopy === undefined ? 0 : 0.025);
    const length = ceiling - z;
    const cord = new CylinderGeometry(0.004, 0.004, length, 8, 1, true);
    cord.rotateX(Math.PI / 2);
    out.add(cord, new Matrix4().makeTranslation(x, y, z + length / 2), CORD);
    if (canopy !== undefined) {
      const plate = new CylinderGeometry(canopy.diameter / 2, canopy.diameter / 2, height, AROUND);
      plate.rotateX(Math.PI / 2);
      const colour = linearOf(luminaire.colour) ?? tinted([1, 1, 1], body?.reflectance ?? 0.5);
      out.add(plate, new Matrix4().makeTranslation(x, y, ceiling - height / 2), colour);
    }
  } else if (!hangs && body === undefined) {
    const { kind, half } = openingSurface(emission.opening, luminaire.distribution);
    if (kind !== "flat disc") return;
    // A trim around a recessed opening; common practice, no source.
    const r = half[0];
    out.add(
      lathe([
        [r, -0.004],
        [r + 0.014, -0.004],
        [r + 0.018, 0],
      ]),
      matrix,
      WHITE,
    );
  }
}

/** A profile turned about local z, facing outwards for one that rises. */
function lathe(profile: readonly (readonly [number, number])[]): BufferGeometry {
  const geometry = new LatheGeometry(
    profile.map(([r, z]) => new Vector2(Math.max(r, 1e-5), z)),
    AROUND,
  );
  geometry.rotateX(Math.PI / 2);
  return geometry;
}

/** Each box of the figure rounded off, heads to an egg. */
function person({ mesh, reflectance = 0.3 }: Blocker, out: Triangles): void {
  const albedo = tinted(unitTint(SKIN_AND_CLOTH), reflectance);
  const { positions } = mesh;
  for (let part = 0; 24 * part < positions.length; part++) {
    const corner = (i: number): Vector3 => new Vector3().fromArray(positions, 24 * part + 3 * i);
    const corners = Array.from({ length: 8 }, (_, i) => corner(i));
    const centre = corners.reduce((sum, c) => sum.add(c), new Vector3()).multiplyScalar(1 / 8);
    const first = corners[0];
    const byDistance = corners.slice(1).sort((a, b) => a.distanceTo(first) - b.distanceTo(first));
    const edges: Vector3[] = [];
    for (const other of byDistance) {
      const edge = other.clone().sub(first);
      if (edges.length < 3 && edges.every((e) => Math.abs(e.dot(edge)) < 1e-6 * e.length() * edge.length()))
        edges.push(edge);
    }
    if (edges.length < 3) continue;
    const [a, b, c] = edges;
    const size = [a.length(), b.length(), c.length()];
    const axes = [a, b, c].map((edge) => edge.clone().normalize());
    if (axes[0].clone().cross(axes[1]).dot(axes[2]) < 0) axes[2].negate();
    const matrix = new Matrix4().makeBasis(axes[0], axes[1], axes[2]).setPosition(centre);
    const isHead = part === 2;
    const shape = isHead
      ? new SphereGeometry(0.5, 20, 14).scale(size[0] * 1.08, size[1] * 1.08, size[2] * 1.02)
      : new RoundedBoxGeometry(
          size[0],
          size[1],
          part === 1 ? 1.5 * size[2] : size[2],
          3,
          0.42 * Math.min(...size),
        );
    out.add(shape, matrix, albedo);
  }
}

/** Luminous openings; `recordOf` gives the book's record, `tintOf` the tint of a layer. */
export function luminousGeometry(
  scene: Scene,
  recordOf: (layer: number, index: number) => number,
  tintOf: (layer: number) => Vec3,
): BufferGeometry {
  const positions: number[] = [];
  const normals: number[] = [];
  const records: number[] = [];
  const tints: number[] = [];
  const index: number[] = [];
  scene.layers.forEach(({ luminaires }, layer) => {
    luminaires.forEach((placed, which) => {
      const shape = luminousShape(placed);
      const matrix = matrixOf(placed.frame);
      const part = new Triangles();
      const first = positions.length / 3;
      part.add(shape, matrix, WHITE);
      positions.push(...part.positions);
      normals.push(...part.normals);
      for (const k of part.index) index.push(first + k);
      for (let i = 0; i < part.count; i++) {
        records.push(recordOf(layer, which));
        tints.push(...tintOf(layer));
      }
    });
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setAttribute("normal", new BufferAttribute(Float32Array.from(normals), 3));
  geometry.setIndex(new BufferAttribute(Uint32Array.from(index), 1));
  geometry.setAttribute("record_", new BufferAttribute(Float32Array.from(records), 1));
  geometry.setAttribute("tint", new BufferAttribute(Float32Array.from(tints), 3));
  return geometry;
}

function luminousShape({ luminaire }: PlacedLuminaire): BufferGeometry {
  const { kind, half, axis } = openingSurface(luminaire.emission.opening, luminaire.distribution);
  const [a, b, c] = half;
  switch (kind) {
    case "point":
      return new SphereGeometry(0.02, 16, 12);
    case "ellipsoid":
      return new SphereGeometry(1, 40, 28).scale(a, b, c);
    case "box":
      return new RoundedBoxGeometry(2 * a, 2 * b, 2 * c, 2, 0.2 * Math.min(a, b, c));
    case "cylinder": {
      const tube = new CylinderGeometry(1, 1, 2, AROUND);
      if (axis === 2) tube.rotateX(Math.PI / 2);
      if (axis === 0) tube.rotateZ(Math.PI / 2);
      return tube.scale(a, b, c);
    }
    case "flat disc": {
      const disc = new CylinderGeometry(1, 1, 0.001, AROUND);
      if (axis === 2)
        disc
          .rotateX(Math.PI / 2)
          .scale(a, b, 1)
          .translate(0, 0, -0.003);
      else disc.rotateZ(Math.PI / 2).scale(1, b, c);
      return disc;
    }
    default:
      return new RoundedBoxGeometry(
        Math.max(2 * a, 0.004),
        Math.max(2 * b, 0.004),
        Math.max(2 * c, 0.002),
        1,
        0.0005,
      ).translate(0, 0, c === 0 ? -0.003 : 0);
  }
}

/** Pieces of an edge that are looked at one by one. */
const EDGE_PIECES = 12;
const BESIDE = 0.004;

/** Outlines of things as ink: edges of surfaces, without the seams between pieces of one flat face. */
export function edgeGeometry(scene: Scene): BufferGeometry {
  const flats = scene.surfaces.map(flatSurface);
  const lies = (s: number, place: Vec2): boolean =>
    depthInside(place, flats[s].outline) > 0 && !flats[s].holes.some((hole) => depthInside(place, hole) > 0);
  const positions: number[] = [];
  flats.forEach((flat, s) => {
    const level = dot(flat.normal, flat.corner);
    const alike = flats.flatMap((other, o) =>
      o !== s &&
      scene.surfaces[o].part === scene.surfaces[s].part &&
      dot(other.normal, flat.normal) > 1 - 1e-6 &&
      Math.abs(dot(other.normal, other.corner) - level) < 1e-4
        ? [o]
        : [],
    );
    const room = ([x, y]: Vec2): Vec3 =>
      [0, 1, 2].map((k) => flat.corner[k] + x * flat.u[k] + y * flat.v[k]) as unknown as Vec3;
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
            return alike.some((o) => {
              const d = subtract(beside, flats[o].corner);
              return lies(o, [dot(d, flats[o].u), dot(d, flats[o].v)]);
            });
          });
          if (!seam) positions.push(...room(at(piece / EDGE_PIECES)), ...room(at((piece + 1) / EDGE_PIECES)));
        }
      });
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float32Array.from(positions), 3));
  return geometry;
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
    const d = subtract(point, flat.corner);
    const away = Math.abs(dot(d, flat.normal));
    if (away >= nearest) continue;
    const place: Vec2 = [dot(d, flat.u), dot(d, flat.v)];
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
