/**
 * Thousands of rows compared by their light on one lattice: shifted, summed, reduced to a handful of figures each.
 *
 * A row's light is the sum of its pendants' fields, each a shifted copy of its kind's (`lattice-kernel.ts`), beside the
 * light that stays (`standing-light.ts`). Fields of one pendant at one node are kept for as long as rows of one
 * clearance are looked at.
 *
 * Known error: nothing blocks here and the grid is not the verification grid; figures sort candidates and are never
 * shown as a verdict.
 */

import { layerPower, powerShare } from "../../assessment/energy.ts";
import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Requirement } from "../../scene/target.ts";
import { type Candidate, kindAt, stationOf } from "./candidate.ts";
import { Stations, type StationsRequest } from "./pendant-fields.ts";
import { SettingMixtures, type SoughtSetting } from "./setting-mixtures.ts";
import type { StandingLight } from "./standing-light.ts";
import { figuresOf, ZoneNeeds } from "./zone-needs.ts";

export interface RankingRequest extends StationsRequest {
  readonly light: StandingLight;
  /** What each of the grid's zones asks for, in their order. */
  readonly requirements: readonly (readonly Requirement[])[];
  readonly confidence: number;
  /** Settings that rows must serve at whatever levels do it; scene and light are then at full output. */
  readonly settings?: readonly SoughtSetting[];
}

/** Figures of one candidate; maintained and dimmed light (lx). */
export interface CandidateFigures {
  readonly candidate: Candidate;
  /** How far short of its targets, summed over them, relative; 0 where all are reached with the confidence. */
  readonly shortage: number;
  /** Of the whole top. */
  readonly average: number;
  readonly uniformity: number;
  /** Of all layers as dimmed (W); pendants that do not state theirs count at 80 lm/W. */
  readonly watts: number;
  /** Highest luminance of a pendant above the eye of a person who faces it (cd/m²). */
  readonly luminance: number;
  /** Silhouettes of all pendants seen from the side (m²). */
  readonly silhouette: number;
}

/** Where a luminaire does not state its power (lm/W); a present white LED luminaire, common practice, no source. */
const ASSUMED_EFFICACY = 80;
/** Nothing that hangs is thinner to the eye (m), body known or not; our own. */
const LEAST_HEIGHT = 0.05;
const BETWEEN_QUESTIONS = 256;

export function rankCandidates(
  request: RankingRequest,
  candidates: readonly Candidate[],
  observer?: Observer,
): CandidateFigures[] {
  const { scene, layer, kinds, grid, light } = request;
  const count = grid.points.length / 3;
  const weight = maintainedShare(scene, scene.layers[layer]);
  const needs = new ZoneNeeds(request);
  const stations = new Stations(request);
  const fixedWatts = scene.layers.reduce(
    (sum, each, l) => (l === layer ? sum : sum + layerPower(each).watts),
    0,
  );
  const wattsOf = kinds.map(({ luminaire: l }) => l.watts ?? l.flux / ASSUMED_EFFICACY);
  const share = powerShare(scene.layers[layer]);
  const silhouettes = kinds.map(({ luminaire, rim }) => {
    const height = luminaire.body?.height ?? luminaire.emission.opening.height;
    return rim * Math.max(height, LEAST_HEIGHT);
  });
  const mixtures =
    request.settings === undefined
      ? undefined
      : new SettingMixtures(
          grid,
          request.settings,
          ({ requirements }) => new ZoneNeeds({ ...request, requirements }),
        );
  const starts = new Map<string, Float64Array>();
  const total = new Float64Array(count);
  let clearance = Number.NaN;
  return candidates.map((candidate, index): CandidateFigures => {
    if (index % BETWEEN_QUESTIONS === 0) {
      throwIfCancelled(observer);
      observer?.progress?.("comparing rows", index / candidates.length);
    }
    if (candidate.clearance !== clearance) {
      clearance = candidate.clearance;
      stations.forget();
    }
    const sort = `${candidate.kinds} ${candidate.count}`;
    let start = starts.get(sort);
    if (start === undefined) {
      start = startOf(
        candidate,
        mixtures === undefined ? light : { ...light, fixed: new Float64Array(count) },
        weight,
      );
      starts.set(sort, start);
    }
    total.set(start);
    let watts = fixedWatts;
    let luminance = 0;
    let silhouette = 0;
    for (let n = 0; n < candidate.count; n++) {
      const k = kindAt(candidate, n);
      const station = stations.at(k, candidate.clearance, stationOf(candidate, n), candidate.across);
      add(total, station.field);
      watts += wattsOf[k] * share;
      luminance = Math.max(luminance, station.luminance);
      silhouette += silhouettes[k];
    }
    if (mixtures !== undefined) {
      const power = { row: watts - fixedWatts, rest: fixedWatts };
      const { level, ...served } = mixtures.of(total, light.fixed, candidate.kinds[0], power);
      return { candidate, ...served, luminance: level * luminance, silhouette };
    }
    const shortage = needs.shortage(candidate.kinds[0], (part) => figuresOf(total, grid.zones[part]));
    const whole = figuresOf(total, grid.top);
    return {
      candidate,
      shortage,
      average: whole.average,
      uniformity: whole.average > 0 ? whole.minimum / whole.average : 0,
      watts,
      luminance,
      silhouette,
    };
  });
}

function add(total: Float64Array, field: Float64Array): void {
  for (let i = 0; i < total.length; i++) total[i] += field[i];
}

/** What is there before the row's own direct light: the same for every row of one make-up. */
function startOf(candidate: Candidate, { fixed, returned }: StandingLight, weight: number): Float64Array {
  const start = fixed.slice();
  for (let n = 0; n < candidate.count; n++) {
    const field = returned[kindAt(candidate, n)];
    for (let i = 0; i < start.length; i++) start[i] += weight * field[i];
  }
  return start;
}
