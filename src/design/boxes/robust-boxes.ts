/**
 * Box positions that stay good whichever pendant of a shortlist is hung later, and wherever within a stated error the
 * boxes end up.
 *
 * Boxes are cut weeks before pendants are chosen; heights are set last. So a set of positions is judged by its worst
 * kind, each kind at its best clearance, each box displaced by the error in the worst of eight directions:
 *
 *   E_worst(p) = E(p) + Σ_boxes min over directions of ΔE(p)
 *
 * which is below the light of any displacement in those directions, all boxes together (direct light superposes), so a
 * set that passes here passes for each of them. The error is taken to whole lattice steps, upwards.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Candidate } from "../search/candidate.ts";
import { stationOf } from "../search/candidate.ts";
import type { RankingRequest } from "../search/ranking.ts";
import { Stations } from "../search/stations.ts";
import { figuresOf, ZoneNeeds } from "../search/zone-needs.ts";

export interface RobustRequest extends RankingRequest {
  readonly clearances: readonly number[];
  /** Setting-out error (m): how far a box may end up from its place. */
  readonly error: number;
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
  const { scene, layer, kinds, grid, light, clearances, error } = request;
  const needs = new ZoneNeeds(request);
  const count = grid.points.length / 3;
  const weight = scene.layers[layer].dim * scene.maintenance;
  const off = Math.ceil(error / grid.step - 1e-9);
  const sets = distinct(patterns);
  const best = sets.map((): (RobustKind | undefined)[] => kinds.map(() => undefined));
  const nominal = new Float64Array(count);
  const worst = new Float64Array(count);
  const least = new Float64Array(count);
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
        for (let i = 0; i < count; i++) nominal[i] += boxes.count * weight * returned[i];
        worst.set(nominal);
        for (let n = 0; n < boxes.count; n++) {
          const [a, b] = [stationOf(boxes, n), boxes.across];
          const { field } = stations.at(k, clearance, a, b);
          for (let i = 0; i < count; i++) nominal[i] += field[i];
          least.set(field);
          if (off > 0)
            for (const [di, dj] of DIRECTIONS) {
              // Diagonally the same distance, to the step below: the ring is round.
              const reach = di !== 0 && dj !== 0 ? Math.round(off * Math.SQRT1_2) : off;
              const shifted = stations.at(k, clearance, a + di * reach, b + dj * reach).field;
              for (let i = 0; i < count; i++) if (shifted[i] < least[i]) least[i] = shifted[i];
            }
          for (let i = 0; i < count; i++) worst[i] += least[i];
        }
        const found: RobustKind = {
          kind: k,
          clearance,
          shortage: needs.shortage(k, (part) => figuresOf(nominal, grid.zones[part])),
          uniformity: evenness(nominal),
          worstShortage: needs.shortage(k, (part) => figuresOf(worst, grid.zones[part])),
          worstUniformity: evenness(worst),
        };
        const known = best[s][k];
        if (known === undefined || better(found, known)) best[s][k] = found;
      });
    });
  });
  return sets
    .map((boxes, s): RobustBoxes => {
      const own = best[s].flatMap((each) => each ?? []);
      const worstShortage = Math.max(...own.map((each) => each.worstShortage));
      return {
        boxes,
        kinds: own,
        robust: worstShortage === 0,
        worstShortage,
        worstUniformity: Math.min(...own.map((each) => each.worstUniformity)),
      };
    })
    .sort((a, b) => a.worstShortage - b.worstShortage || b.worstUniformity - a.worstUniformity);

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
  return patterns.filter(({ count, pitch, along, across, kinds }) => {
    const key = `${count} ${pitch} ${along} ${across}`;
    if (kinds.length > 1 || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
