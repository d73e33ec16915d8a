/**
 * Exitance of a room's patches and of the parts of bodies in it, of all layers, as often as gathered light needs it: in the
 * exchange of light without the bodies, with them, and once more on a coarser division.
 *
 * Bodies that come and go hide direct light and are lit, part by part. In a first solution the patches see each other past
 * them, and their parts emit what they get of that; the refinement puts the parts into the exchange (`body-exchange.ts`).
 *
 * Key: room, luminaires in their places, bodies, reflectances, quality.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { Quality } from "../quality.ts";
import type { EnergyBalance } from "../result.ts";
import type { Bodies, BodiesStage } from "./bodies-stage.ts";
import { litParts, passingBodies, type RoomLight, solveJoined } from "./body-solution.ts";
import { coarseExchange, coarseSolution, type MemberExchange } from "./coarse-solution.ts";
import { energyBalance } from "./energy-balance.ts";
import type { PatchDirect } from "./patch-direct.ts";
import { type RadiositySolution, solveRadiosity } from "./radiosity.ts";
import type { SolvedRoom } from "./reflectance-change.ts";
import type { RoomExchange } from "./room-exchange.ts";
import { type UnevenPatches, unevenPatches } from "./uneven-patches.ts";

/** Bound on the first solution where it is refined. */
const START_TOLERANCE = 1e-3;

/** Direct light of one luminaire: on patches, and on the parts of each body (lm). */
export interface LuminaireDirect {
  readonly patches: PatchDirect;
  readonly bodies: readonly Float64Array[];
}

/** Of patches `layer * patches + i`, and of parts `layer * parts + q` (lm/m²). */
export interface Exitance {
  readonly patches: Float64Array;
  readonly parts: Float64Array;
}

export interface RoomSolution extends SolvedRoom {
  readonly exitance: Exitance;
  /** With bodies left out of the exchange; absent where that is all there is. */
  readonly withoutBodies: Exitance | undefined;
  readonly coarsely: Exitance;
  readonly uneven: UnevenPatches;
  /** Whole illuminance of patches, `layer * patches + i` (lx). */
  readonly illuminance: Float64Array;
  readonly balance: EnergyBalance;
  readonly residual: number;
}

export function roomSolution(
  room: RoomExchange,
  patchReflectance: readonly number[],
  layers: number,
  luminaires: readonly KeyedLuminaire[],
  direct: readonly LuminaireDirect[],
  bodies: Bodies,
  stage: BodiesStage,
  quality: Quality,
  observer?: Observer,
): RoomSolution {
  const { patches, factors } = room.exchange;
  const n = patches.count;
  const reflectance = Float64Array.from(patches.surface, (s) => patchReflectance[s]);
  const parts = stage.exchange(room, bodies, observer);
  const passing = passingBodies(bodies.solids, parts);
  const light = arrivedFlux(luminaires, direct, parts.first, n, layers);
  const D = light.patchFlux.map((flux, k) => flux / patches.area[k % n]);
  const options = { tolerance: quality.tolerance };
  const refines = quality.bodiesExchange && parts.parts > 0;
  // Where the refinement follows, the first solution only measures its difference and starts it.
  const start = refines ? { tolerance: Math.max(quality.tolerance, START_TOLERANCE) } : options;
  const joinedRoom = refines ? stage.joined(room, bodies, observer) : undefined;
  const exchange: MemberExchange = joinedRoom ?? { count: n, area: patches.area, factors };
  // A sixteenth of a sweep's cost, and a start some sweeps nearer than direct light.
  const coarse = coarseExchange(patches, exchange, parts);
  const coarsely = coarseSolution(patches, coarse, parts, passing, reflectance, light, options, observer);
  const apart = solveRadiosity(factors, reflectance, D, start, coarsely.patches, observer);
  const lit = (exitance: Float64Array): Exitance => ({
    patches: exitance,
    parts: litParts(n, parts, passing, light, exitance),
  });
  const first = lit(apart.exitance);
  let solution: RadiositySolution = apart;
  let exitance = first;
  let absorbed = 0;
  let leak = 0;
  if (joinedRoom !== undefined) {
    const joined = solveJoined(
      joinedRoom,
      reflectance,
      parts,
      passing,
      light,
      first.patches,
      first.parts,
      options,
      observer,
    );
    solution = joined.room;
    exitance = { patches: solution.exitance, parts: joined.partExitance };
    absorbed = joined.absorbed;
    leak = joined.leak;
  }
  return {
    coarse,
    parts,
    passing,
    reflectance,
    exitance,
    withoutBodies: refines ? first : undefined,
    coarsely:
      coarsely.parts === undefined
        ? lit(coarsely.patches)
        : { patches: coarsely.patches, parts: coarsely.parts },
    uneven: unevenPatches(
      patches,
      reflectance,
      luminaires.map(({ layer }, k) => ({ layer, light: direct[k].patches })),
      apart.exitance,
      layers,
    ),
    illuminance: D.map((value, k) => value + solution.interreflected[k]),
    balance: energyBalance(room, luminaires, light, solution, leak, absorbed),
    residual: solution.residual,
  };
}

/** What arrives straight of every layer's light (lm). @param first part of each body, and one past the last */
function arrivedFlux(
  luminaires: readonly KeyedLuminaire[],
  direct: readonly LuminaireDirect[],
  first: Uint32Array,
  n: number,
  layers: number,
): RoomLight {
  const parts = first[first.length - 1];
  const patchFlux = new Float64Array(layers * n);
  const partFlux = new Float64Array(layers * parts);
  luminaires.forEach(({ layer }, k) => {
    const { patches, bodies } = direct[k];
    for (let i = 0; i < n; i++) patchFlux[layer * n + i] += patches.flux[i];
    bodies.forEach((flux, b) => {
      for (let q = 0; q < flux.length; q++) partFlux[layer * parts + first[b] + q] += flux[q];
    });
  });
  return { patchFlux, partFlux, layers };
}
