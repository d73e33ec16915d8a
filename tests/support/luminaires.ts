/** Luminaires and scenes made from formulas, for tests of the engine. */
import { DirectSources, type PlacedSource } from "../../src/engine/direct/direct-sources.ts";
import { type Frame, frame, type Orientation } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../src/luminaire/placed-luminaire.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { type LuminousOpening, POINT_OPENING } from "../../src/photometry/luminous-opening.ts";
import type { CalculationPlane, ReceivedQuantity } from "../../src/scene/calculation-plane.ts";
import type { Layer, Scene } from "../../src/scene/scene.ts";
import { radians } from "../../src/units/quantities.ts";

/** A rotational distribution sampled every `step` degrees from `from` to `to`. */
export function rotational(I: (γ: number) => number, step = 1, from = 0, to = 180): IntensityDistribution {
  const count = Math.round((to - from) / step) + 1;
  const vertical = Float64Array.from({ length: count }, (_, i) => radians(from + i * step));
  return {
    type: "C",
    symmetry: "rotational",
    horizontal: Float64Array.of(0),
    vertical,
    intensity: Float64Array.from(vertical, I),
  };
}

/** A full type C table of a function of the unit direction. */
export function sampled(I: (d: Vec3) => number, stepC = 5, stepGamma = 1, to = 180): IntensityDistribution {
  const horizontal = Float64Array.from({ length: Math.round(360 / stepC) + 1 }, (_, i) => radians(i * stepC));
  const vertical = Float64Array.from({ length: Math.round(to / stepGamma) + 1 }, (_, i) =>
    radians(i * stepGamma),
  );
  const intensity = new Float64Array(horizontal.length * vertical.length);
  horizontal.forEach((C, h) => {
    vertical.forEach((γ, v) => {
      const s = Math.sin(γ);
      intensity[h * vertical.length + v] = I([s * Math.cos(C), s * Math.sin(C), -Math.cos(γ)]);
    });
  });
  return { type: "C", symmetry: "none", horizontal, vertical, intensity };
}

/** cosⁿ with a given full beam angle (degrees, 50 % of the axis). */
export function beam(angle: number, I0 = 1000, step = 1): IntensityDistribution {
  const n = Math.log(0.5) / Math.log(Math.cos(radians(angle / 2)));
  return rotational((γ) => (γ < Math.PI / 2 ? I0 * Math.cos(γ) ** n : 0), step, 0, 90);
}

export function luminaire(distribution: IntensityDistribution, opening = POINT_OPENING): Luminaire {
  return {
    name: "test",
    distribution,
    emission: { kind: "opening", opening },
    evidence: "A",
    flux: 1000,
    origin: "a formula",
  };
}

export function opening(
  shape: LuminousOpening["shape"],
  length: number,
  width = length,
  height = 0,
): LuminousOpening {
  return { shape, length, width, height };
}

/** A luminaire in its place as a source of its own, remembered by nobody. */
export function lit(placed: PlacedLuminaire, nearFieldError: number): PlacedSource {
  return { ...placed, source: new DirectSources().of(placed.luminaire, nearFieldError) };
}

export function placed(type: Luminaire, origin: Vec3, orientation?: Orientation): PlacedLuminaire {
  return { luminaire: type, frame: frame(origin, orientation) satisfies Frame };
}

export function plane(
  points: readonly Vec3[],
  normal: Vec3 = [0, 0, 1],
  quantity: ReceivedQuantity = "planar",
): CalculationPlane {
  return {
    name: "points",
    role: "probe",
    quantity,
    points: Float64Array.from(points.flat()),
    normal,
    weights: new Float64Array(points.length).fill(1),
  };
}

export function scene(
  layers: readonly (readonly PlacedLuminaire[])[],
  planes: readonly CalculationPlane[],
): Scene {
  return {
    name: "test",
    letter: "A",
    room: { length: 6, width: 5, ceilingHeight: 2.7, slope: 0, towards: 0 },
    zones: [],
    people: [],
    layers: layers.map(
      (luminaires, i): Layer => ({ name: `layer ${i}`, role: "pendant", dim: 1, luminaires }),
    ),
    surfaces: [],
    blockers: [],
    planes,
    maintenance: 1,
  };
}
