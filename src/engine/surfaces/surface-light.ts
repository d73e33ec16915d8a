/**
 * Light on every surface of a room, as fields on even lattices: what a picture of the room is painted with.
 *
 * Interreflected light is gathered by the engine where it bends and interpolated where it does not
 * (`refined-field.ts`); between nodes it is to be taken bilinearly. Direct light is computed where it is drawn; for that,
 * luminaires traced from lamp and shade bring their near field. Things without surfaces (pendants, people) get the
 * interreflected light on the six faces of a small cube at their middle.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { boxOfMesh } from "../../geometry/box.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { LightTable } from "../../luminaire/shade/light-table.ts";
import type { CalculationOptions } from "../../scene/calculation-options.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Calculate } from "../calculate.ts";
import { DirectSources } from "../direct/direct-sources.ts";
import type { CalculationResult } from "../result.ts";
import { type NodeValues, refinedFields } from "./refined-field.ts";
import {
  type FlatSurface,
  flatSurface,
  type Lattice,
  latticeOf,
  latticePoints,
  stateOfNodes,
} from "./surface-lattice.ts";

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

/** A luminaire traced from lamp and shade: its layer, its number in it, and its light near by. */
export interface TracedLuminaire {
  readonly layer: number;
  readonly index: number;
  /** One and the same of all luminaires of a type. */
  readonly near: readonly LightTable[];
}

export interface SurfaceLight {
  /** Per surface of the scene, in its order. */
  readonly interreflected: readonly LatticeField[];
  readonly traced: readonly TracedLuminaire[];
  readonly things: readonly CubeLight[];
}

export interface SurfaceLightOptions {
  /** Distance of the nodes of interreflected light (m). */
  readonly spacing: number;
  /** Least steps between them across a narrow surface. */
  readonly leastSteps: number;
  /** What interpolating may cost where it is seen, relative to a layer's whole light there. */
  readonly tolerance: number;
  /** No more nodes than this are gathered beyond the first. */
  readonly most: number;
  readonly calculation?: Partial<CalculationOptions>;
  /** Those of the engine that calculates, where it is at hand. */
  readonly sources?: DirectSources;
}

export const SURFACE_LIGHT: SurfaceLightOptions = {
  spacing: 0.06,
  leastSteps: 16,
  tolerance: 0.012,
  most: 12_000,
};

/** In one calculation, at some 2500 nodes of a kitchen: half of the points within 0.2 % of the engine, nineteen in
 * twenty within 2 %. */
export const SKETCHED_LIGHT: SurfaceLightOptions = {
  ...SURFACE_LIGHT,
  spacing: 0.15,
  leastSteps: 4,
  tolerance: Number.POSITIVE_INFINITY,
};

/** Calculations after the first: with it no more than the engine remembers. */
const ROUNDS = 3;

/** Share of a surface's mean light under which a layer's own light there counts no less. */
const LEAST_SCALE = 0.05;

const CUBE: readonly Vec3[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];

/** The light of a scene on all of its surfaces. About 0.35 ms a node on one core: 5 s for the 15,000 nodes of a kitchen of 35 surfaces, 8 s with two people in it. `calculate` is the engine, warm if the caller has one. */
export function surfaceLight(
  scene: Scene,
  calculate: Calculate,
  options: SurfaceLightOptions = SURFACE_LIGHT,
  observer?: Observer,
): SurfaceLight {
  const flats = scene.surfaces.map(flatSurface);
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
  const full = { ...options.calculation, quality: "full" } as const;
  let onThings: CalculationResult["planes"] = [];
  const light = (planes: readonly CalculationPlane[]): CalculationResult["planes"] => {
    const result = calculate({ ...scene, planes: [...planes, ...cubes] }, full, observer);
    onThings = result.planes.slice(planes.length);
    return result.planes.slice(0, planes.length);
  };
  const interreflected = gathered(scene, flats, light, options);
  const cubeLight = things.map(
    ({ name }, t): CubeLight => ({
      blocker: name,
      layers: scene.layers.map((_, l) =>
        Float32Array.from(CUBE, (_side, k) => onThings[6 * t + k].layers[l].interreflected[0]),
      ),
    }),
  );
  things.forEach(({ kind }, t) => {
    if (kind !== "person") return;
    // People stand on their undersides: what faces down under them takes half of what their sides take.
    for (const faces of cubeLight[t].layers) faces[5] = (faces[0] + faces[1] + faces[2] + faces[3]) / 8;
  });
  return { interreflected, things: cubeLight, traced: tracedLuminaires(scene, options.sources) };
}

/** Interreflected light, per surface. */
function gathered(
  scene: Scene,
  flats: readonly FlatSurface[],
  light: (planes: readonly CalculationPlane[]) => CalculationResult["planes"],
  { spacing, leastSteps, tolerance, most }: SurfaceLightOptions,
): readonly LatticeField[] {
  const lattices = flats.map((flat) => {
    const lattice = latticeOf(flat, spacing, leastSteps);
    const points = latticePoints(flat, lattice, 3 * spacing);
    return { lattice, points, nodes: stateOfNodes(flat, lattice, points) };
  });
  const ask = (wanted: readonly (readonly number[])[]): NodeValues[] => {
    const planes = wanted.map((nodes, s) => {
      const { points } = lattices[s];
      return freePlane(
        `surface ${s + 1} of ${flats.length}`,
        Float64Array.from(nodes.flatMap((n) => [points[3 * n], points[3 * n + 1], points[3 * n + 2]])),
        flats[s].normal,
      );
    });
    const planesLight = light(planes.filter(({ points }) => points.length > 0));
    let next = 0;
    return planes.map(({ points }): NodeValues => {
      const count = points.length / 3;
      const layers = count === 0 ? [] : planesLight[next++].layers;
      const whole = layers.map(({ direct, interreflected }) => direct.map((E, i) => E + interreflected[i]));
      const mean = whole.reduce((sum, E) => sum + E.reduce((a, b) => a + b, 0), 0) / count;
      return {
        values: layers.map(({ interreflected }) => interreflected),
        scales: whole.map((E) => E.map((x) => Math.max(x, LEAST_SCALE * mean))),
      };
    });
  };
  const layers = scene.layers.length;
  const fields = refinedFields(lattices, ask, { layers, tolerance, most, rounds: ROUNDS });
  return lattices.map(({ lattice }, s) => ({ lattice, layers: fields[s] }));
}

/** Near fields of the luminaires traced from lamp and shade. */
export function tracedLuminaires(scene: Scene, sources = new DirectSources()): TracedLuminaire[] {
  const tables = new Map<Luminaire, readonly LightTable[]>();
  return scene.layers.flatMap(({ luminaires }, layer) =>
    luminaires.flatMap(({ luminaire }, index) => {
      const { emission } = luminaire;
      if (emission.kind !== "surfaces") return [];
      const near = tables.get(luminaire) ?? sources.lattice(emission).tables(emission);
      tables.set(luminaire, near);
      return [{ layer, index, near }];
    }),
  );
}

function freePlane(name: string, points: Float64Array, normal: Vec3): CalculationPlane {
  return {
    name,
    role: "probe",
    quantity: "planar",
    points,
    normal,
    weights: new Float64Array(points.length / 3).fill(1),
  };
}
