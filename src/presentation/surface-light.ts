/**
 * Light on every surface of a room, as fields on lattices: what a picture of the room is painted with.
 *
 * Interreflected light is gathered by the engine at the nodes of a lattice on each surface, denser towards its edges:
 *
 *   x_i = ε + (U − 2ε) (1 − cos(π i / (n − 1))) / 2
 *
 * and is to be interpolated bilinearly in i. Luminaires traced from lamp and shade bring their direct light too, on an
 * even lattice; all others are lit where they are drawn. Things without surfaces (pendants, people) get the
 * interreflected light on the six faces of a small cube at their middle.
 */

import type { Observer } from "../diagnostics/cancelled.ts";
import type { Calculate } from "../engine/calculate.ts";
import { surfaceFrame } from "../engine/interreflection/surface-grid.ts";
import { boxOfMesh } from "../geometry/box.ts";
import { bounds, depthInside, distanceToSegment } from "../geometry/polygon.ts";
import { dot, subtract, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { Scene } from "../scene/scene.ts";
import type { Surface } from "../scene/surface.ts";

/** Nodes keep this far from a surface's edges (m). */
export const EDGE_INSET = 0.004;
const MOST_NODES_A_SIDE = 256;

/** A surface laid flat: x along u, y along v, the least corner at the origin (m). */
export interface FlatSurface {
  /** Room position of the least corner. */
  readonly corner: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
  readonly length: number;
  readonly width: number;
  readonly outline: readonly Vec2[];
  readonly holes: readonly (readonly Vec2[])[];
}

export function flatSurface(surface: Surface): FlatSurface {
  const { origin, u, v, normal } = surfaceFrame(surface);
  const flatten = (loop: readonly Vec3[]): Vec2[] =>
    loop.map((p) => [dot(subtract(p, origin), u), dot(subtract(p, origin), v)]);
  const outline = flatten(surface.vertices);
  const [x0, y0, x1, y1] = bounds(outline);
  const move = ([x, y]: Vec2): Vec2 => [x - x0, y - y0];
  return {
    corner: [
      origin[0] + x0 * u[0] + y0 * v[0],
      origin[1] + x0 * u[1] + y0 * v[1],
      origin[2] + x0 * u[2] + y0 * v[2],
    ],
    u,
    v,
    normal,
    length: x1 - x0,
    width: y1 - y0,
    outline: outline.map(move),
    holes: surface.holes.map((hole) => flatten(hole).map(move)),
  };
}

export interface Lattice {
  readonly columns: number;
  readonly rows: number;
  /** Whether it is denser towards the edges. */
  readonly graded: boolean;
}

export function latticeOf({ length, width }: FlatSurface, spacing: number, graded: boolean): Lattice {
  const count = (side: number): number =>
    Math.min(MOST_NODES_A_SIDE, Math.max(graded ? 3 : 2, Math.ceil(side / spacing) + 1));
  return { columns: count(length), rows: count(width), graded };
}

/** Place along a side of node i of n (m). */
export function nodePlace(i: number, n: number, side: number, graded: boolean): number {
  const inset = Math.min(EDGE_INSET, side / 8);
  const t = n < 2 ? 0.5 : i / (n - 1);
  return inset + (side - 2 * inset) * (graded ? (1 - Math.cos(Math.PI * t)) / 2 : t);
}

/** Node, with its fraction, of a place along a side: the inverse of {@link nodePlace}, 0…n − 1. */
export function nodeAt(place: number, n: number, side: number, graded: boolean): number {
  const inset = Math.min(EDGE_INSET, side / 8);
  const t = Math.min(1, Math.max(0, (place - inset) / (side - 2 * inset)));
  return (n - 1) * (graded ? Math.acos(1 - 2 * t) / Math.PI : t);
}

/** The nodes of a lattice in the room, x, y, z each; a node in no part of the surface moves to the nearest part when
 * that is within `reach` (m), else it is NaN. */
export function latticePoints(flat: FlatSurface, lattice: Lattice, reach: number): Float64Array {
  const { columns, rows, graded } = lattice;
  const out = new Float64Array(3 * columns * rows).fill(Number.NaN);
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const place = insideOf(
        flat,
        [nodePlace(i, columns, flat.length, graded), nodePlace(j, rows, flat.width, graded)],
        reach,
      );
      if (place === undefined) continue;
      for (let k = 0; k < 3; k++)
        out[3 * (j * columns + i) + k] = flat.corner[k] + place[0] * flat.u[k] + place[1] * flat.v[k];
    }
  return out;
}

function insideOf({ outline, holes }: FlatSurface, p: Vec2, reach: number): Vec2 | undefined {
  const inHole = holes.find((hole) => depthInside(p, hole) > -EDGE_INSET / 2);
  const outside = inHole === undefined && depthInside(p, outline) < EDGE_INSET / 2;
  if (inHole === undefined && !outside) return p;
  const loop = inHole ?? outline;
  let best: Vec2 | undefined;
  let nearest = reach;
  for (let i = 0; i < loop.length; i++) {
    const a = loop[i];
    const b = loop[(i + 1) % loop.length];
    const d = distanceToSegment(p, a, b);
    if (d >= nearest) continue;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const size = Math.hypot(dx, dy);
    if (size === 0) continue;
    const t = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (size * size)));
    for (const side of [1, -1]) {
      // A little beyond the edge, on whichever side the surface is.
      const q: Vec2 = [
        a[0] + t * dx - (side * EDGE_INSET * dy) / size,
        a[1] + t * dy + (side * EDGE_INSET * dx) / size,
      ];
      if (depthInside(q, outline) <= 0 || holes.some((hole) => depthInside(q, hole) >= 0)) continue;
      best = q;
      nearest = d;
    }
  }
  return best;
}

/** One field on one surface, per layer (lx at full output, initial). */
export interface LatticeField {
  readonly lattice: Lattice;
  readonly layers: readonly Float32Array[];
}

/** Interreflected light at the middle of a thing on planes facing +x, −x, +y, −y, +z, −z (lx), per layer. */
export interface CubeLight {
  readonly blocker: string;
  readonly layers: readonly Float32Array[];
}

export interface SurfaceLight {
  /** Per surface of the scene, in its order. */
  readonly interreflected: readonly LatticeField[];
  /** Direct light of the luminaires traced from lamp and shade; absent where there are none. */
  readonly traced?: readonly LatticeField[];
  readonly things: readonly CubeLight[];
}

export interface SurfaceLightOptions {
  /** Distance of the nodes of interreflected light at most (m). */
  readonly spacing: number;
  /** Of traced direct light (m). */
  readonly tracedSpacing: number;
  readonly calculation?: Partial<CalculationOptions>;
}

export const SURFACE_LIGHT: SurfaceLightOptions = { spacing: 0.3, tracedSpacing: 0.08 };

const CUBE: readonly Vec3[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];

/** The light of a scene on all of its surfaces. `calculate` is the engine, warm if the caller has one. */
export function surfaceLight(
  scene: Scene,
  calculate: Calculate,
  options: SurfaceLightOptions = SURFACE_LIGHT,
  observer?: Observer,
): SurfaceLight {
  const flats = scene.surfaces.map(flatSurface);
  const fields = latticePlanes(flats, options.spacing, true);
  const things = scene.blockers.filter(({ kind }) => kind === "pendant" || kind === "person");
  const cubes = things.flatMap(({ name, mesh }, t) => {
    const box = boxOfMesh(mesh);
    const middle = [0, 1, 2].map((k) => (box[k] + box[k + 3]) / 2);
    return CUBE.map((normal, side) => {
      // On the box's own face, so that a body does not stand in its own light.
      const at = middle.map((x, k) => x + normal[k] * ((box[k + 3] - box[k]) / 2 + 0.01));
      return freePlane(`${name} ${t} ${side}`, Float64Array.from(at), normal);
    });
  });
  const planes = [...fields.map(({ plane }) => plane), ...cubes];
  const result = calculate({ ...scene, planes }, { ...options.calculation, quality: "full" }, observer);
  const interreflected = fields.map((field, s) =>
    spread(
      field,
      result.planes[s].layers.map(({ interreflected }) => interreflected),
    ),
  );
  const cubeLight = things.map(
    ({ name }, t): CubeLight => ({
      blocker: name,
      layers: scene.layers.map((_, l) =>
        Float32Array.from(
          CUBE,
          (_side, k) => result.planes[fields.length + 6 * t + k].layers[l].interreflected[0],
        ),
      ),
    }),
  );
  things.forEach(({ kind }, t) => {
    if (kind !== "person") return;
    // People stand on their undersides: what faces down under them takes half of what their sides take.
    for (const faces of cubeLight[t].layers) faces[5] = (faces[0] + faces[1] + faces[2] + faces[3]) / 8;
  });
  const traced = tracedLight(scene, flats, calculate, options, observer);
  return { interreflected, things: cubeLight, ...(traced === undefined ? {} : { traced }) };
}

function tracedLight(
  scene: Scene,
  flats: readonly FlatSurface[],
  calculate: Calculate,
  options: SurfaceLightOptions,
  observer: Observer | undefined,
): readonly LatticeField[] | undefined {
  const renumbered = new Map<string, number>();
  const layers = scene.layers.map((layer, l) => ({
    ...layer,
    luminaires: layer.luminaires.filter(({ luminaire }, i) => {
      if (luminaire.emission.kind !== "surfaces") return false;
      renumbered.set(`${l} ${i}`, renumbered.size);
      return true;
    }),
  }));
  if (renumbered.size === 0) return undefined;
  const blockers = scene.blockers.map((blocker) => {
    if (blocker.owner === undefined) return blocker;
    const [l, i] = blocker.owner;
    const before = scene.layers[l].luminaires.slice(0, i);
    const index = before.filter(({ luminaire }) => luminaire.emission.kind === "surfaces").length;
    const { owner: _, ...rest } = blocker;
    return renumbered.has(`${l} ${i}`) ? { ...rest, owner: [l, index] as const } : rest;
  });
  const fields = latticePlanes(flats, options.tracedSpacing, false);
  const { planes } = calculate(
    { ...scene, layers, blockers, planes: fields.map(({ plane }) => plane) },
    { ...options.calculation, interreflection: false, quality: "full" },
    observer,
  );
  return fields.map((field, s) =>
    spread(
      field,
      planes[s].layers.map(({ direct }) => direct),
    ),
  );
}

interface FieldPlane {
  readonly lattice: Lattice;
  readonly plane: CalculationPlane;
  /** Node of each point of the plane. */
  readonly nodes: readonly number[];
}

function latticePlanes(flats: readonly FlatSurface[], spacing: number, graded: boolean): FieldPlane[] {
  return flats.map((flat, s) => {
    const lattice = latticeOf(flat, spacing, graded);
    const all = latticePoints(flat, lattice, 2 * spacing);
    const nodes: number[] = [];
    const points: number[] = [];
    for (let n = 0; n < all.length / 3; n++) {
      if (Number.isNaN(all[3 * n])) continue;
      nodes.push(n);
      points.push(all[3 * n], all[3 * n + 1], all[3 * n + 2]);
    }
    return { lattice, nodes, plane: freePlane(`surface ${s}`, Float64Array.from(points), flat.normal) };
  });
}

function freePlane(name: string, points: Float64Array, normal: Vec3): CalculationPlane {
  return { name, quantity: "planar", points, normal, weights: new Float64Array(points.length / 3).fill(1) };
}

function spread({ lattice, nodes }: FieldPlane, layers: readonly Float64Array[]): LatticeField {
  return {
    lattice,
    layers: layers.map((values) => {
      const field = new Float32Array(lattice.columns * lattice.rows);
      nodes.forEach((node, i) => {
        field[node] = values[i];
      });
      return field;
    }),
  };
}
