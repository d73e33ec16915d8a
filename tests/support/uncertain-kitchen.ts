/**
 * Random kitchens, and the kitchens they might really turn out to be: every input drawn from its stated band,
 * the light calculated again from scratch. The second route to a verdict's uncertainty.
 */

import type { InputBands } from "../../src/assessment/uncertainty/input-bands.ts";
import type { LightEngine } from "../../src/engine/light-engine.ts";
import { frame } from "../../src/geometry/frame.ts";
import { beamLuminaire } from "../../src/luminaire/beam-luminaire.ts";
import { EVIDENCE, type Evidence } from "../../src/luminaire/evidence.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { reshapedLuminaire } from "../../src/luminaire/reshaped.ts";
import type { Random } from "../../src/numerics/random-sequence.ts";
import { beamAngle } from "../../src/photometry/beam-angle.ts";
import { POINT_OPENING } from "../../src/photometry/luminous-opening.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { rotational } from "./distributions.ts";
import { MEASURED_LAMPS } from "./measured-lamps.ts";
import { boxSurfaces, roomSurfaces } from "./rooms.ts";
import { rectanglePlane } from "./tiny-scene.ts";

/** Direct light and some 60 patches: thousands of kitchens must be calculated. */
export const CHEAP = { quality: "quick", patches: 60, occlusion: false } as const;

export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** A kitchen 5.4 × 4.2 × 2.7 m with an island, a row of pendants and a recessed grid, drawn by `random`; all luminaires
 * of one class of evidence where it is given. */
export function randomKitchen(random: Random, of?: Evidence): Scene {
  const between = (low: number, high: number) => low + (high - low) * random();
  const length = between(1.8, 3);
  const width = between(0.8, 1.3);
  const count = 2 + Math.floor(3 * random());
  const drawn = ["A", "B", "D", "E"][Math.floor(4 * random())] as Evidence;
  const evidence = of ?? drawn;
  const exponent = between(1, 5);
  const pendant = lobe("pendant", between(500, 1800), exponent, evidence);
  const downlight = lobe("downlight", between(400, 900), between(2, 6), of ?? "A");
  const x0 = 2.7 - length / 2;
  const y0 = 2.1 - width / 2;
  const height = 0.92;
  const clearance = between(0.7, 1);
  return {
    name: "random",
    letter: "A",
    room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, slope: 0, towards: 0 },
    zones: [],
    people: [],
    layers: [
      {
        name: "pendants",
        role: "pendant",
        dim: random() < 0.3 ? between(0.5, 0.95) : 1,
        luminaires: Array.from({ length: count }, (_, i) => ({
          luminaire: pendant,
          frame: frame([x0 + ((i + 0.5) * length) / count, 2.1, height + clearance]),
        })),
      },
      {
        name: "recessed",
        role: "recessed",
        dim: 1,
        luminaires: [0.9, 2.7, 4.5].flatMap((x) =>
          [0.9, 3.3].map((y) => ({ luminaire: downlight, frame: frame([x, y, 2.69]) })),
        ),
      },
    ],
    surfaces: [
      ...roomSurfaces(5.4, 4.2, 2.7, {
        ceiling: between(0.6, 0.88),
        walls: between(0.2, 0.8),
        floor: between(0.05, 0.4),
      }),
      ...boxSurfaces(
        "island sides",
        [x0, y0, 0],
        [x0 + length, y0 + width, height - 0.001],
        between(0.1, 0.8),
      ),
    ],
    blockers: [],
    planes: [rectanglePlane("top", [x0, y0, height], [length, width], 7, 4)],
    maintenance: between(0.75, 0.9),
  };
}

/** A point: how large an opening is changes neither its inputs nor their spread, only the time they take. */
function lobe(name: string, flux: number, n: number, evidence: Evidence): Luminaire {
  return {
    name,
    origin: "test",
    distribution: rotational((gamma) =>
      gamma < Math.PI / 2 ? ((flux * (n + 1)) / (2 * Math.PI)) * Math.cos(gamma) ** n : 0,
    ),
    emission: { kind: "opening", opening: POINT_OPENING },
    evidence,
    flux,
  };
}

/** Gives the lobe that a type really has. */
export type DrawLobe = (luminaire: Luminaire, random: Random) => Luminaire;

/** By the stated scatter of the class. */
export const statedLobe: DrawLobe = (luminaire, random) =>
  reshapedLuminaire(luminaire, EVIDENCE[luminaire.evidence].lobe * normal(random));

/** One of five measured lamps, each with its own share of the peak of cosⁿ of the same flux and beam, fitted to flux,
 * beam and peak: a route that knows nothing of the stated scatter. */
export const measuredLobe: DrawLobe = (luminaire, random) => {
  const { distribution, flux, emission } = luminaire;
  const lamp = MEASURED_LAMPS[Math.floor(MEASURED_LAMPS.length * random())];
  const fitted = beamLuminaire(luminaire.name, {
    flux,
    beamAngle: beamAngle(distribution).ofMaximum ?? 0,
    peakIntensity: (distribution.intensity[0] * lamp.peak) / lamp.model,
    opening: emission.opening,
  });
  if (!fitted.ok) throw new Error(fitted.issues[0].message);
  return fitted.value;
};

interface DrawnType {
  readonly luminaire: Luminaire;
  readonly factor: number;
  /** Of the measured axes, about local x and y (rad). */
  readonly lean: readonly [number, number];
}

function drawnType(luminaire: Luminaire, bands: InputBands, random: Random, lobe: DrawLobe): DrawnType {
  const { level, alignment, fromRatedFlux } = EVIDENCE[luminaire.evidence];
  const factor = 1 + (level / 2) * normal(random);
  return {
    luminaire: lobe(luminaire, random),
    factor: fromRatedFlux ? factor * (1 - bands.ratedFlux * random()) : factor,
    lean: [(alignment / 2) * normal(random), (alignment / 2) * normal(random)],
  };
}

/** Rotation by small angles about x, then y, column-major; luminaires hang upright here, so that room and own axes are
 * the same. */
function leant([a, b]: readonly [number, number]): Float64Array {
  const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
  return Float64Array.of(cb, 0, -sb, sb * sa, ca, cb * sa, sb * ca, -sa, cb * ca);
}

/** One way the kitchen may turn out: maintained, dimmed illuminance of its plane (lx). */
export function drawnIlluminance(
  scene: Scene,
  bands: InputBands,
  random: Random,
  engine: LightEngine,
  lobe: DrawLobe = statedLobe,
): Float64Array {
  const types = new Map<Luminaire, DrawnType>();
  const typeOf = (luminaire: Luminaire): DrawnType => {
    const type = types.get(luminaire) ?? drawnType(luminaire, bands, random, lobe);
    types.set(luminaire, type);
    return type;
  };
  const surface = new Map<string, number>();
  const reflectanceOf = (part: string, reflectance: number): number => {
    let drawn = surface.get(part);
    if (drawn === undefined) {
      do drawn = reflectance + (bands.reflectance / 2) * normal(random);
      while (drawn < 0 || drawn > 0.98);
      surface.set(part, drawn);
    }
    return drawn;
  };
  const maintenance = Math.min(1, scene.maintenance + (bands.maintenance / 2) * normal(random));
  // Each luminaire is a layer of its own, so that each may have its own flux.
  const weights: number[] = [];
  const layers = scene.layers.flatMap((layer) => {
    const dim = layer.dim < 1 ? layer.dim * (1 + (bands.dimming / 2) * normal(random)) : layer.dim;
    return layer.luminaires.map(({ luminaire, frame: at }, i) => {
      const type = typeOf(luminaire);
      weights.push(maintenance * dim * type.factor * (1 + bands.unitScatter * normal(random)));
      const [x, y, z] = at.origin;
      const place = (bands.position / 2) * normal(random);
      const across = (bands.position / 2) * normal(random);
      const lift = (bands.height / 2) * normal(random);
      const [a, b] = type.lean.map((angle) => angle + (bands.hungAngle / 2) * normal(random));
      const rotation = leant([a, b]);
      return {
        name: `${layer.name} ${i}`,
        role: layer.role,
        dim: 1,
        luminaires: [
          {
            luminaire: type.luminaire,
            frame: { origin: [x + place, y + across, z + lift] as const, rotation },
          },
        ],
      };
    });
  });
  const surfaces = scene.surfaces.map((each) => ({
    ...each,
    reflectance: reflectanceOf(each.part, each.reflectance),
  }));
  const result = engine.calculate({ ...scene, layers, surfaces }, CHEAP);
  const out = new Float64Array(scene.planes[0].weights.length);
  result.planes[0].layers.forEach(({ direct, interreflected }, l) => {
    for (let i = 0; i < out.length; i++) out[i] += weights[l] * (direct[i] + interreflected[i]);
  });
  return out;
}
