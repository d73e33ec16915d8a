/**
 * A lamp as the source inside a shade: where its light starts and in which directions.
 *
 * Directions are a rotational law J(γ), γ from nadir, of unit flux: 2π ∫ J(γ) sin γ dγ = 1.
 * Places: evenly over the source's outline as seen in each direction (a sphere's disc, a filament's length, a
 * flat module's face), which for a Lambertian sphere or disc is exact at every distance.
 *
 * Filament law: upright filaments send I ∝ a + b sin γ, a ≈ 0.5 (engineering default, no source): less
 * straight down than an even source.
 */

import type { LampFinish } from "./lamp-finishes.ts";

export interface LampSource {
  /** lm, of one lamp. */
  readonly flux: number;
  readonly shape: "sphere" | "filament" | "disc";
  /** Sphere or disc: radius; filament: half its length (m). */
  readonly size: number;
  /** Height above the shade's rim (m) and distance from its axis (m). */
  readonly z: number;
  readonly radius: number;
  readonly count: number;
  /** J at evenly spaced γ from 0 to π (1/sr). */
  readonly law: Float64Array;
  /** Luminance the eye meets when it sees the lamp itself (cd/m²): mean over the source's outline, per γ-max. */
  readonly luminance: number;
  /** Outline of bulb and cap for blocking light, in the lamp's own heights: half-profile, reflectance. */
  readonly bulbRadius: number;
  readonly bulbReflectance: number;
  readonly capRadius: number;
  readonly capLength: number;
  /** +1 cap above (base-up), −1 cap below. */
  readonly capSide: 1 | -1;
}

export interface LampDefinition {
  /** lm */
  readonly flux: number;
  readonly finish: LampFinish;
  /** Largest diameter (m). */
  readonly diameter: number;
  /** Full beam angle of a directional lamp (rad). */
  readonly beam?: number;
  readonly orientation: "base-up" | "base-down" | "horizontal";
  readonly z: number;
  readonly radius?: number;
  readonly count?: number;
  /** Length of an upright filament (m). */
  readonly filamentLength?: number;
  /** Diameter of the cap that holds the lamp, 0 for none (m); default 27 mm, the common screw cap, or 60 % of
   * a thinner bulb. */
  readonly capDiameter?: number;
}

const LAW_STEPS = 180;
const FILAMENT_DIAMETER = 0.0015;
const FILAMENTS = 4;

export function lampSource(lamp: LampDefinition): LampSource {
  const bulb = lamp.diameter / 2;
  const up = lamp.orientation !== "base-down";
  const law = normalised(lawOf(lamp), up);
  const peak = law.reduce((a, b) => Math.max(a, b), 0);
  const common = {
    flux: lamp.flux,
    z: lamp.z,
    radius: lamp.radius ?? 0,
    count: lamp.count ?? 1,
    law,
    capRadius: lamp.capDiameter === undefined ? Math.min(0.0135, bulb * 0.6) : lamp.capDiameter / 2,
    capLength: lamp.finish === "module" || lamp.capDiameter === 0 ? 0 : 0.05,
    capSide: up ? (1 as const) : (-1 as const),
  };
  const facing = peak * lamp.flux;
  if (lamp.finish === "clear") {
    const half = (lamp.filamentLength ?? 0.04) / 2;
    const luminance = facing / (2 * half * FILAMENT_DIAMETER * FILAMENTS);
    return { ...common, shape: "filament", size: half, luminance, bulbRadius: 0, bulbReflectance: 0 };
  }
  if (lamp.finish === "directional" || lamp.finish === "module") {
    return {
      ...common,
      shape: "disc",
      size: bulb,
      luminance: facing / (Math.PI * bulb * bulb),
      bulbRadius: 0,
      bulbReflectance: 0,
    };
  }
  return {
    ...common,
    shape: "sphere",
    size: bulb,
    luminance: facing / (Math.PI * bulb * bulb),
    bulbRadius: bulb,
    bulbReflectance: lamp.finish === "half-mirrored" ? 0.8 : 0.6,
  };
}

/** Shape of J for a lamp with its cap above; any scale. */
function lawOf(lamp: LampDefinition): (gamma: number) => number {
  switch (lamp.finish) {
    case "frosted":
      return () => 1;
    case "clear":
      if (lamp.orientation === "horizontal") return horizontalFilament;
      return (gamma) => 0.5 + 0.5 * Math.sin(gamma);
    case "half-mirrored":
      // The mirrored bowl hides the lamp from below and sends its light up into the shade.
      return (gamma) => (gamma > Math.PI / 2 ? 1 : 0);
    case "directional": {
      const exponent = Math.log(0.5) / Math.log(Math.cos((lamp.beam ?? Math.PI / 3) / 2));
      return (gamma) => (gamma < Math.PI / 2 ? Math.cos(gamma) ** exponent : 0);
    }
    case "module":
      return (gamma) => Math.max(0, Math.cos(gamma));
  }
}

/** Mean over all azimuths of 0.5 + 0.5 sin(angle to a horizontal filament). */
function horizontalFilament(gamma: number): number {
  let sum = 0;
  for (let i = 0; i < 36; i++) {
    const along = Math.sin(gamma) * Math.cos(((i + 0.5) * Math.PI) / 18);
    sum += 0.5 + 0.5 * Math.sqrt(1 - along * along);
  }
  return sum / 36;
}

function normalised(shape: (gamma: number) => number, capAbove: boolean): Float64Array {
  const law = Float64Array.from({ length: LAW_STEPS + 1 }, (_, i) => {
    const gamma = (i * Math.PI) / LAW_STEPS;
    return shape(capAbove ? gamma : Math.PI - gamma);
  });
  let flux = 0;
  for (let i = 0; i < LAW_STEPS; i++) flux += zoneFlux(law, i);
  return law.map((value) => value / flux);
}

/** Flux of the law between its nodes i and i + 1, J linear in γ (closed form of ∫ J sin γ dγ). */
export function zoneFlux(law: Float64Array, i: number): number {
  const step = Math.PI / (law.length - 1);
  const g0 = i * step;
  const g1 = g0 + step;
  const slope = (law[i + 1] - law[i]) / step;
  const c0 = Math.cos(g0);
  const c1 = Math.cos(g1);
  const constant = law[i] - slope * g0;
  return 2 * Math.PI * (constant * (c0 - c1) + slope * (Math.sin(g1) - g1 * c1 - Math.sin(g0) + g0 * c0));
}

/** J at a polar angle (1/sr). */
export function lawAt(law: Float64Array, gamma: number): number {
  const x = (gamma / Math.PI) * (law.length - 1);
  const i = Math.min(law.length - 2, Math.max(0, Math.floor(x)));
  return law[i] + (law[i + 1] - law[i]) * (x - i);
}
