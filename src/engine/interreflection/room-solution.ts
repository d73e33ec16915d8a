/**
 * Exitance of a room's patches and of the parts of bodies in it, of all layers, as often as gathered light needs it: as they
 * are divided, and once more on a coarser division, from which the solution starts.
 *
 * Bodies that come and go hide direct light and are lit, part by part. Quickly the patches see each other past them, and their
 * parts emit what they get of that; in full the parts are in the exchange (`body-exchange.ts`).
 *
 * Key: room, luminaires in their places, bodies, reflectances, quality.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { Quality } from "../quality.ts";
import type { EnergyBalance } from "../result.ts";
import type { Bodies, BodiesStage } from "./bodies-stage.ts";
import { litParts, passingBodies, type RoomLight, solveJoined } from "./body-solution.ts";
import {
  type CoarseExitance,
  coarseExchange,
  coarseSolution,
  type MemberExchange,
} from "./coarse-solution.ts";
import { energyBalance } from "./energy-balance.ts";
import type { PatchDirect } from "./patch-direct.ts";
import { solveRadiosity } from "./radiosity.ts";
import type { SolvedRoom } from "./reflectance-change.ts";
import type { RoomExchange } from "./room-exchange.ts";
import { type UnevenPatches, unevenPatches } from "./uneven-patches.ts";

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
  const joinedRoom =
    quality.bodiesExchange && parts.parts > 0 ? stage.joined(room, bodies, observer) : undefined;
  const exchange: MemberExchange = joinedRoom ?? { count: n, area: patches.area, factors };
  // A sixteenth of a sweep's cost, and a start some sweeps nearer than direct light.
  const coarse = coarseExchange(patches, exchange, parts);
  const coarsely = coarseSolution(patches, coarse, parts, passing, reflectance, light, options, observer);
  const whole = ({ patches: of, parts: own }: CoarseExitance): Exitance => ({
    patches: of,
    parts: own ?? litParts(n, parts, passing, light, of),
  });
  const start = whole(coarsely);
  const joined =
    joinedRoom && solveJoined(joinedRoom, reflectance, parts, passing, light, start, options, observer);
  const solution = joined?.room ?? solveRadiosity(factors, reflectance, D, options, start.patches, observer);
  return {
    coarse,
    parts,
    passing,
    reflectance,
    exitance: whole({ patches: solution.exitance, parts: joined?.partExitance }),
    coarsely: start,
    uneven: unevenPatches(
      patches,
      reflectance,
      luminaires.map(({ layer }, k) => ({ layer, light: direct[k].patches })),
      solution.exitance,
      layers,
    ),
    illuminance: D.map((value, k) => value + solution.interreflected[k]),
    balance: energyBalance(room, luminaires, light, solution, joined?.leak ?? 0, joined?.absorbed ?? 0),
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
