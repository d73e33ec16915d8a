/** A small kitchen for tests of what comes after the engine: an island 2.4 m × 1.0 m, two layers, given light. */
import type { CalculationResult } from "../../src/engine/result.ts";
import { frame } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Evidence } from "../../src/luminaire/evidence.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { POINT_OPENING } from "../../src/photometry/luminous-opening.ts";
import { DEFAULT_OPTIONS } from "../../src/scene/calculation-options.ts";
import type { CalculationPlane } from "../../src/scene/calculation-plane.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { Layer, Scene, Zone } from "../../src/scene/scene.ts";
import type { Target } from "../../src/scene/target.ts";

export function rectanglePlane(
  name: string,
  corner: Vec3,
  size: readonly [number, number],
  columns: number,
  rows: number,
  zone?: string,
): CalculationPlane {
  const count = columns * rows;
  const points = new Float64Array(3 * count);
  for (let k = 0; k < count; k++) {
    points[3 * k] = corner[0] + (((k % columns) + 0.5) * size[0]) / columns;
    points[3 * k + 1] = corner[1] + ((Math.floor(k / columns) + 0.5) * size[1]) / rows;
    points[3 * k + 2] = corner[2];
  }
  return {
    name,
    role: zone === undefined ? "top" : "zone",
    zone,
    quantity: "planar",
    points,
    normal: [0, 0, 1],
    weights: new Float64Array(count).fill((size[0] * size[1]) / count),
    grid: {
      columns,
      rows,
      corner,
      u: [size[0], 0, 0],
      v: [0, size[1], 0],
      cells: Uint32Array.from({ length: count }, (_, k) => k),
    },
  };
}

/** A Lambertian point luminaire pointing down: I = Φ/π · cos γ. */
export function lambertian(name: string, flux: number, evidence: Evidence, watts?: number): Luminaire {
  const vertical = Float64Array.from({ length: 181 }, (_, i) => (i * Math.PI) / 360);
  return {
    name,
    distribution: {
      type: "C",
      symmetry: "rotational",
      horizontal: new Float64Array(1),
      vertical,
      intensity: vertical.map((gamma) => (flux / Math.PI) * Math.max(0, Math.cos(gamma))),
    },
    emission: { kind: "opening", opening: POINT_OPENING },
    evidence,
    flux,
    watts,
    origin: `${name}.ies`,
  };
}

export const PENDANT = lambertian("dome", 1000, "A", 10);
export const SPOT = lambertian("spot", 500, "D");

export function tinyScene(more: Partial<Scene> = {}): Scene {
  const zones: Zone[] = [
    {
      name: "prep",
      outline: [
        [0, 0],
        [1.2, 0],
        [1.2, 1],
        [0, 1],
      ],
      height: 0.9,
      target: "preparation",
    },
    {
      name: "eating",
      outline: [
        [1.2, 0],
        [2.4, 0],
        [2.4, 1],
        [1.2, 1],
      ],
      height: 0.9,
      target: "eating",
    },
  ];
  const layers: Layer[] = [
    {
      name: "pendants",
      role: "pendant",
      dim: 1,
      luminaires: [0.6, 1.8].map((x) => ({ luminaire: PENDANT, frame: frame([1 + x, 2.5, 1.75]) })),
    },
    {
      name: "ambient",
      role: "recessed",
      dim: 0.5,
      luminaires: [
        { luminaire: SPOT, frame: frame([1.5, 1.5, 2.7]) },
        { luminaire: SPOT, frame: frame([3.5, 1.5, 2.7]) },
      ],
    },
  ];
  return {
    name: "two domes",
    letter: "A",
    room: { length: 5, width: 4, ceilingHeight: 2.7, slope: 0, towards: 0 },
    island: {
      centre: [2.2, 2.5],
      turn: 0,
      length: 2.4,
      width: 1,
      height: 0.9,
      outline: [
        [0, 0],
        [2.4, 0],
        [2.4, 1],
        [0, 1],
      ],
      topThickness: 0.04,
      finish: "matt",
      topReflectance: 0.35,
      sideReflectance: 0.5,
      levels: [],
    },
    zones,
    people: [],
    layers,
    surfaces: [],
    blockers: [],
    planes: [
      rectanglePlane("island top", [1, 2, 0.9], [2.4, 1], 12, 5),
      rectanglePlane("prep", [1, 2, 0.9], [1.2, 1], 6, 5, "prep"),
      rectanglePlane("eating", [2.2, 2, 0.9], [1.2, 1], 6, 5, "eating"),
    ],
    maintenance: 0.8,
    ...more,
  };
}

/** Point-source light of every layer on every plane by the textbook: E = I cos ξ / d². No interreflection but
 * an even 20 lx from each layer. */
export function textbookResult(scene: Scene, interreflected = 20): CalculationResult {
  return {
    planes: scene.planes.map((plane) => ({
      plane: plane.name,
      layers: scene.layers.map((layer) => {
        const count = plane.points.length / 3;
        const direct = new Float64Array(count);
        for (let i = 0; i < count; i++)
          for (const { luminaire, frame: placed } of layer.luminaires) {
            const dx = placed.origin[0] - plane.points[3 * i];
            const dy = placed.origin[1] - plane.points[3 * i + 1];
            const dz = placed.origin[2] - plane.points[3 * i + 2];
            const d2 = dx * dx + dy * dy + dz * dz;
            // Lambertian: I = Φ/π cos γ and cos γ = cos ξ = dz/d
            direct[i] += ((luminaire.flux / Math.PI) * dz * dz) / (d2 * d2);
          }
        return { layer: layer.name, direct, interreflected: new Float64Array(count).fill(interreflected) };
      }),
    })),
    method: {
      quality: "full",
      interreflection: "none",
      nearFieldError: 0,
      patches: 0,
      residual: 0,
      people: false,
    },
  };
}

export function tinyStudy(scenes: readonly Scene[], targets: readonly Target[] = []): ResolvedStudy {
  return {
    title: "Small kitchen",
    display: { length: "mm", illuminance: "lx" },
    scenes,
    luminaires: new Map([PENDANT, SPOT].map((luminaire) => [luminaire.name, luminaire])),
    targets: new Map(targets.map((target) => [target.id, target])),
    options: DEFAULT_OPTIONS,
    defaults: [],
    warnings: [],
  };
}
