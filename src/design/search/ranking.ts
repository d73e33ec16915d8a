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
import { seenLuminaire } from "../../assessment/glare/seen-luminaire.ts";
import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { topHeightAt } from "../../scene/island.ts";
import type { Person, Scene } from "../../scene/scene.ts";
import type { Requirement } from "../../scene/target.ts";
import { type LightDoubt, lightDoubt, quantile, sureLight } from "./allowance.ts";
import { type Candidate, centreOf, type Kind, kindAt, stationOf } from "./candidate.ts";
import { LatticeKernel } from "./lattice-kernel.ts";
import { type GridPart, placeOf, type SearchGrid } from "./search-grid.ts";
import type { StandingLight } from "./standing-light.ts";

export interface RankingRequest {
  readonly scene: Scene;
  /** Index of the layer that is searched. */
  readonly layer: number;
  readonly kinds: readonly Kind[];
  readonly grid: SearchGrid;
  readonly light: StandingLight;
  /** What each of the grid's zones asks for, in their order. */
  readonly requirements: readonly (readonly Requirement[])[];
  readonly confidence: number;
  readonly nearFieldError: number;
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

/** One pendant at one node: its direct light, maintained and dimmed (lx), and the luminance it shows people. */
interface Station {
  readonly field: Float64Array;
  readonly luminance: number;
}

export function rankCandidates(
  request: RankingRequest,
  candidates: readonly Candidate[],
  observer?: Observer,
): CandidateFigures[] {
  const { scene, layer, kinds, grid, light, requirements, confidence } = request;
  const count = grid.points.length / 3;
  const weight = scene.layers[layer].dim * scene.maintenance;
  const z = quantile(confidence);
  const stations = new Stations(request);
  const doubts = kinds.map(({ luminaire }) => lightDoubt(luminaire));
  const others = otherDoubt(scene, layer);
  const fixedMeans = grid.zones.map((part) => meanOf(light.fixed, part));
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
      start = startOf(candidate, light, weight);
      starts.set(sort, start);
    }
    total.set(start);
    let watts = fixedWatts;
    let luminance = 0;
    let silhouette = 0;
    for (let n = 0; n < candidate.count; n++) {
      const k = kindAt(candidate, n);
      const station = stations.get(k, candidate, n);
      add(total, station.field);
      watts += wattsOf[k] * share;
      luminance = Math.max(luminance, station.luminance);
      silhouette += silhouettes[k];
    }
    const doubt = doubts[candidate.kinds[0]];
    let shortage = 0;
    for (let part = 0; part < grid.zones.length; part++) {
      if (requirements[part].length === 0) continue;
      const figures = figuresOf(total, grid.zones[part]);
      for (const requirement of requirements[part]) {
        const sure = sureOf(requirement, figures, fixedMeans[part], doubt, others, scene.maintenance, z);
        if (sure < requirement.value) shortage += requirement.value / Math.max(sure, 1e-9) - 1;
      }
    }
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

/** What of a figure is sure at z standard deviations, in the requirement's own nature. */
function sureOf(
  { quantity, statistic, nature }: Requirement,
  { average, minimum }: { readonly average: number; readonly minimum: number },
  fixed: number,
  doubt: LightDoubt,
  other: LightDoubt,
  maintenance: number,
  z: number,
): number {
  if (quantity === "uniformity") return average > 0 ? minimum / average : 0;
  const figure = statistic === "minimum" ? minimum : average;
  const still = average > 0 ? (figure * fixed) / average : 0;
  const undo = nature === "initial" && maintenance > 0 ? 1 / maintenance : 1;
  return undo * sureLight(figure - still, doubt, still, other, maintenance, z);
}

/** Fields of single pendants at nodes of the lattice, kept until told to forget. */
class Stations {
  readonly #request: RankingRequest;
  readonly #kernels = new Map<string, LatticeKernel>();
  readonly #known = new Map<number, Station>();
  readonly #spare: Float64Array[] = [];
  readonly #reach: readonly [number, number];

  constructor(request: RankingRequest) {
    this.#request = request;
    const { nodes, island, step } = request.grid;
    let [i, j] = [0, 0];
    for (let k = 0; k < nodes.length; k += 2) {
      i = Math.max(i, Math.abs(nodes[k]));
      j = Math.max(j, Math.abs(nodes[k + 1]));
    }
    // A pendant hangs over the top, or beside it by no more than the top's own size.
    this.#reach = [i + Math.ceil(island.length / step), j + Math.ceil(island.width / step)];
  }

  forget(): void {
    for (const { field } of this.#known.values()) this.#spare.push(field);
    this.#known.clear();
  }

  get(k: number, candidate: Candidate, n: number): Station {
    const a = stationOf(candidate, n);
    const b = candidate.across;
    const key = (k * 4096 + a + 2048) * 4096 + b + 2048;
    let station = this.#known.get(key);
    if (station === undefined) {
      station = this.#make(k, candidate, n, a, b);
      this.#known.set(key, station);
    }
    return station;
  }

  #make(k: number, candidate: Candidate, n: number, a: number, b: number): Station {
    const { grid, kinds, scene, layer } = this.#request;
    const { island, step, nodes, levels } = grid;
    const kind = kinds[k];
    const field = this.#spare.pop() ?? new Float64Array(grid.points.length / 3);
    const origin = centreOf(candidate, n, kinds, island, step);
    const above = topHeightAt(island, placeOf(island, step, a, b));
    for (const { height, which } of levels) {
      const drop = above - height + candidate.clearance - kind.lowest;
      this.#kernel(k, drop).write(a, b, nodes, which, field);
    }
    const placed = { luminaire: kind.luminaire, frame: { origin, rotation: kind.rotation } };
    const output = scene.layers[layer].dim * scene.maintenance;
    for (let i = 0; i < field.length; i++) field[i] *= output;
    let luminance = 0;
    for (const person of scene.people) {
      if (!faces(person, origin) || origin[2] <= person.eye[2]) continue;
      luminance = Math.max(luminance, seenLuminaire(placed, person.eye, output).luminance);
    }
    return { field, luminance };
  }

  #kernel(k: number, drop: number): LatticeKernel {
    const key = `${k} ${drop.toFixed(7)}`;
    let kernel = this.#kernels.get(key);
    if (kernel === undefined) {
      const { grid, kinds, nearFieldError } = this.#request;
      kernel = new LatticeKernel(
        kinds[k].luminaire,
        {
          rotation: kinds[k].rotation,
          drop,
          turn: grid.island.turn,
          step: grid.step,
          reach: this.#reach,
        },
        nearFieldError,
      );
      this.#kernels.set(key, kernel);
    }
    return kernel;
  }
}

function faces({ eye, facing }: Person, at: readonly [number, number, number]): boolean {
  return (at[0] - eye[0]) * Math.cos(facing) + (at[1] - eye[1]) * Math.sin(facing) > 0;
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

function meanOf(values: Float64Array, part: GridPart): number {
  return figuresOf(values, part).average;
}

function figuresOf(values: Float64Array, { which, weights }: GridPart): { average: number; minimum: number } {
  let sum = 0;
  let area = 0;
  let minimum = Infinity;
  for (let k = 0; k < which.length; k++) {
    const value = values[which[k]];
    sum += weights[k] * value;
    area += weights[k];
    if (value < minimum) minimum = value;
  }
  return area > 0 ? { average: sum / area, minimum } : { average: 0, minimum: 0 };
}

/** Doubt of the layers that stay, by flux. */
function otherDoubt(scene: Scene, layer: number): LightDoubt {
  let flux = 0;
  let shift = 0;
  let sigma = 0;
  scene.layers.forEach(({ luminaires }, l) => {
    if (l === layer) return;
    for (const { luminaire } of luminaires) {
      const doubt = lightDoubt(luminaire);
      flux += luminaire.flux;
      shift += luminaire.flux * doubt.shift;
      sigma += luminaire.flux * doubt.sigma;
    }
  });
  return flux > 0 ? { shift: shift / flux, sigma: sigma / flux } : { shift: 0, sigma: 0 };
}
