/**
 * A first verdict: each luminaire type's light carries the fixed band of its evidence, all types at their ends
 * together,
 *
 *   E_lo = Σ E_t (1 − b_t⁻),  E_hi = Σ E_t (1 + b_t⁺),
 *
 * and the target is met when even E_lo reaches it, missed when even E_hi does not. Class bands are common to
 * all luminaires of a type and move the level, not the shape of the field, so uniformity is taken as it is.
 *
 * Known error: flux, reflectance, position and maintenance carry no doubt here; where several types share the
 * light the band is wider than their independent doubts would make it.
 */

import { EVIDENCE } from "../luminaire/evidence.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { untilted } from "../luminaire/tilted.ts";
import type { Scene } from "../scene/scene.ts";
import type { Requirement } from "../scene/target.ts";
import type { Driver } from "./assessment.ts";
import type { Verdict } from "./verdict.ts";

/** What a judge is told of one requirement on one zone. */
export interface Question {
  readonly scene: Scene;
  readonly requirement: Requirement;
  /** The computed figure, in the requirement's own nature (lx or a ratio). */
  readonly value: number;
  /** The part of the figure each layer brings, same order as the scene's layers (lx); they sum to `value`.
   * Zeros for a ratio. */
  readonly parts: readonly number[];
  /** The plane asked about, all planes that will be, and the maintained illuminance of the one (lx). */
  readonly plane: number;
  readonly planes: readonly number[];
  readonly illuminance: Float64Array;
}

export interface Judgement {
  readonly band: readonly [lo: number, hi: number];
  readonly verdict: Verdict;
  /** Probability that the true figure reaches the target, where it was worked out. */
  readonly probability?: number;
  readonly drivers: readonly Driver[];
}

/** Anything that answers a question of the assessment; the fixed band is the plainest. */
export type Judge = (question: Question) => Judgement;

/** Computed figures repeat to rounding; a target hit exactly counts as reached. */
const ROUNDING = 1e-9;

export const fixedBandJudge: Judge = ({ scene, requirement, value, parts }) => {
  if (requirement.quantity === "uniformity") return judged(value, value, requirement.value, []);
  const byType = new Map<Luminaire, number>();
  scene.layers.forEach((layer, index) => {
    let flux = 0;
    for (const { luminaire } of layer.luminaires) flux += luminaire.flux;
    // Types mixed in one layer are told apart by their flux only.
    for (const { luminaire } of layer.luminaires) {
      const type = untilted(luminaire);
      if (flux > 0) byType.set(type, (byType.get(type) ?? 0) + (parts[index] * luminaire.flux) / flux);
    }
  });
  let lo = value;
  let hi = value;
  let variance = 0;
  const spread: { input: string; square: number }[] = [];
  for (const [luminaire, part] of byType) {
    const [down, up] = EVIDENCE[luminaire.evidence].band;
    lo -= part * down;
    hi += part * up;
    const square = (part * (down + up)) ** 2;
    variance += square;
    spread.push({ input: `light of ${luminaire.name} (${EVIDENCE[luminaire.evidence].words})`, square });
  }
  const drivers = spread
    .filter(({ square }) => square > 0)
    .sort((a, b) => b.square - a.square)
    .map(({ input, square }) => ({ input, share: square / variance }));
  return judged(Math.max(0, lo), hi, requirement.value, drivers);
};

function judged(lo: number, hi: number, target: number, drivers: readonly Driver[]): Judgement {
  const reach = target * (1 - ROUNDING);
  const verdict: Verdict = lo >= reach ? "meets" : hi < reach ? "falls short" : "too close to call";
  return { band: [lo, hi], verdict, drivers };
}
