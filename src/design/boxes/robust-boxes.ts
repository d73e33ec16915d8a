/**
 * Box positions that stay good whichever pendant of a shortlist is hung later, and wherever within a stated error the
 * boxes end up.
 *
 * Boxes are cut weeks before pendants are chosen; heights are set last. So a set of positions is judged by its worst
 * kind, each kind at its best clearance, each box displaced by the error in the worst of eight directions:
 *
 *   E_worst(p) = E(p) + Σ_boxes min over directions of ΔE(p)
 *   Ē_worst = Ē + Σ_boxes min of ΔĒ,  U_worst = min E_worst / (Ē + Σ_boxes max of ΔĒ)
 *
 * which is below the figure of any displacement in those directions, all boxes together (direct light superposes), so a
 * set that passes here passes for each of them. The error is taken to whole lattice steps, upwards.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Candidate } from "../search/candidate.ts";
import { stationOf } from "../search/candidate.ts";
import { type Station, Stations } from "../search/pendant-fields.ts";
import type { RankingRequest } from "../search/ranking.ts";
import { figuresOf, ZoneNeeds } from "../search/zone-needs.ts";

export interface RobustRequest extends RankingRequest {
  readonly clearances: readonly number[];
  /** Setting-out error (m): how far a box may end up from its place. */
  readonly error: number;
  /** Least evenness of the whole top, wherever the boxes end up; 0, any, by default. */
  readonly evenness?: number;
}

export interface RobustKind {
  /** Index in the shortlist. */
  readonly kind: number;
  /** The clearance it stands best (m). */
  readonly clearance: number;
  /** As set out, and with every box off: how far short of the targets, and evenness of the whole top. */
  readonly shortage: number;
  readonly uniformity: number;
  readonly worstShortage: number;
  readonly worstUniformity: number;
}

export interface RobustBoxes {
  /** Positions: count, pitch and shifts count; kinds and clearance do not. */
  readonly boxes: Candidate;
  /** One for each of the shortlist. */
  readonly kinds: readonly RobustKind[];
  /** Whether every kind reaches every target wherever the boxes end up within the error. */
  readonly robust: boolean;
  /** The worst kind's. */
  readonly worstShortage: number;
  readonly worstUniformity: number;
}

const DIRECTIONS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
] as const;

/** Sets of positions, the most robust first. `patterns` are rows of one kind; those of equal positions count once. */
export function robustBoxes(
  request: RobustRequest,
  patterns: readonly Candidate[],
  observer?: Observer,
): RobustBoxes[] {
  const { scene, layer, kinds, grid, light, clearances, error, evenness: floor = 0 } = request;
  const needs = new ZoneNeeds(request);
  const count = grid.points.length / 3;
  const weight = maintainedShare(scene, scene.layers[layer]);
  const off = Math.ceil(error / grid.step - 1e-9);
  const sets = distinct(patterns);
  const best = sets.map((): (RobustKind | undefined)[] => kinds.map(() => undefined));
  const nominal = new Float64Array(count);
  const worst = new Float64Array(count);
  const least = new Float64Array(count);
  // Of each zone and, last, of the top: means of one box's light, and what displacement takes from and adds to the sum.
  const parts = [...grid.zones, grid.top];
  const low = new Float64Array(parts.length);
  const high = new Float64Array(parts.length);
  const spread = new Float64Array(2 * parts.length);
  const places = new WeakMap<Station, Float64Array>();
  const meansOf = (station: Station): Float64Array => {
    let means = places.get(station);
    if (means === undefined) {
      means = Float64Array.from(parts, (part) => figuresOf(station.field, part).average);
      places.set(station, means);
    }
    return means;
  };
  kinds.forEach((_, k) => {
    const stations = new Stations(request);
    const returned = light.returned[k];
    clearances.forEach((clearance, c) => {
      stations.forget();
      sets.forEach((boxes, s) => {
        if (s % 32 === 0) {
          throwIfCancelled(observer);
          observer?.progress?.("boxes", (k * clearances.length + c) / (kinds.length * clearances.length));
        }
        nominal.set(light.fixed);
        spread.fill(0);
        for (let i = 0; i < count; i++) nominal[i] += boxes.count * weight * returned[i];
        worst.set(nominal);
        for (let n = 0; n < boxes.count; n++) {
          const [a, b] = [stationOf(boxes, n), boxes.across];
          const station = stations.at(k, clearance, a, b);
          const { field } = station;
          for (let i = 0; i < count; i++) nominal[i] += field[i];
          least.set(field);
          const own = meansOf(station);
          low.set(own);
          high.set(own);
          if (off > 0)
            for (const [di, dj] of DIRECTIONS) {
              // Diagonally the same distance, to the step below: the ring is round.
              const reach = di !== 0 && dj !== 0 ? Math.round(off * Math.SQRT1_2) : off;
              const displaced = stations.at(k, clearance, a + di * reach, b + dj * reach);
              const shifted = displaced.field;
              for (let i = 0; i < count; i++) if (shifted[i] < least[i]) least[i] = shifted[i];
              const means = meansOf(displaced);
              for (let q = 0; q < means.length; q++) {
                if (means[q] < low[q]) low[q] = means[q];
                if (means[q] > high[q]) high[q] = means[q];
              }
            }
          for (let q = 0; q < own.length; q++) {
            spread[2 * q] += low[q] - own[q];
            spread[2 * q + 1] += high[q] - own[q];
          }
          for (let i = 0; i < count; i++) worst[i] += least[i];
        }
        const choice: RobustKind = {
          kind: k,
          clearance,
          shortage: needs.shortage(k, (part) => figuresOf(nominal, grid.zones[part])),
          uniformity: evenness(nominal),
          worstShortage: needs.shortage(k, (part) => worstFigures(part)),
          worstUniformity: worstFigures(grid.zones.length).evenness,
        };
        const before = best[s][k];
        if (before === undefined || better(choice, before)) best[s][k] = choice;
      });
    });
  });
  return sets
    .map((boxes, s): RobustBoxes => {
      const own = best[s].flatMap((each) => each ?? []);
      const worstShortage = Math.max(...own.map((each) => each.worstShortage));
      const worstUniformity = Math.min(...own.map((each) => each.worstUniformity));
      const robust = worstShortage === 0 && worstUniformity >= floor;
      return { boxes, kinds: own, robust, worstShortage, worstUniformity };
    })
    .sort((a, b) => shortOf(a) - shortOf(b) || b.worstUniformity - a.worstUniformity);

  function shortOf({ worstShortage, worstUniformity }: RobustBoxes): number {
    return worstShortage + Math.max(0, floor / Math.max(worstUniformity, 1e-3) - 1);
  }

  function worstFigures(part: number): { average: number; minimum: number; evenness: number } {
    const { average } = figuresOf(nominal, parts[part]);
    const { minimum } = figuresOf(worst, parts[part]);
    const most = average + spread[2 * part + 1];
    return { average: average + spread[2 * part], minimum, evenness: most > 0 ? minimum / most : 0 };
  }

  function evenness(field: Float64Array): number {
    const { average, minimum } = figuresOf(field, grid.top);
    return average > 0 ? minimum / average : 0;
  }
}

function better(a: RobustKind, b: RobustKind): boolean {
  if (a.worstShortage !== b.worstShortage) return a.worstShortage < b.worstShortage;
  return a.worstUniformity > b.worstUniformity;
}

function distinct(patterns: readonly Candidate[]): Candidate[] {
  const seen = new Set<string>();
  return patterns.filter(({ count, pitch, along, across, shift, kinds }) => {
    const key = `${count} ${pitch} ${along} ${across} ${shift}`;
    if (kinds.length > 1 || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
