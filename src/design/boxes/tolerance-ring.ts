/**
 * How far a ceiling box may be off before the verdict changes.
 *
 * The pendant moves out in eight directions, all else as planned; the first distance at which the arrangement's verdict
 * is another is found by halving. Light: E' = E − D + D', D and D' its direct light before and after, nothing in the way;
 * uncertainties as those of the plan.
 *
 * Known error: shadows and interreflected light stay as they were, under 1 % of the average (see `superposed-light.ts`);
 * the ring is exact to 5 mm in the directions tried.
 */

import { assess } from "../../assessment/assess.ts";
import type { VerdictMethod } from "../../assessment/uncertainty/verdict-method.ts";
import type { Verdict } from "../../assessment/verdict.ts";
import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import { DirectSources } from "../../engine/direct/direct-sources.ts";
import type { CalculationResult } from "../../engine/result.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";

export interface ToleranceRing {
  /** Index of the luminaire in its layer. */
  readonly index: number;
  readonly position: Vec3;
  /** m; the farthest looked at where nothing changes. */
  readonly radius: number;
  /** What the verdict becomes beyond, and towards where (rad from the room's +x); undefined where nothing changes. */
  readonly beyond?: { readonly verdict: Verdict; readonly direction: number };
}

/** Nobody sets a box out worse than this (m). */
export const FARTHEST = 0.3;
const EXACT = 0.005;
const DIRECTIONS = 8;
const NEAR_FIELD_ERROR = 0.0025;

/** One for each luminaire of the layer. @param result of the scene @param verdicts of the same result */
export function toleranceRings(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  result: CalculationResult,
  verdicts: VerdictMethod,
  layer: number,
  observer?: Observer,
): ToleranceRing[] {
  const sources = new DirectSources();
  const planned = assess(study, scene, result, verdicts).verdict;
  return scene.layers[layer].luminaires.map((placed, index): ToleranceRing => {
    const lit = sources.placed(placed, NEAR_FIELD_ERROR);
    const direct = (origin: Vec3): Float64Array[] =>
      scene.planes.map((plane) => {
        const out = new Float64Array(plane.points.length / 3);
        const frame = { ...placed.frame, origin };
        addDirectLight({ ...lit, frame }, plane, 0, out);
        return out;
      });
    const { origin } = placed.frame;
    const before = direct(origin);
    const verdictAt = (radius: number, direction: number): Verdict => {
      throwIfCancelled(observer);
      const after = direct([
        origin[0] + radius * Math.cos(direction),
        origin[1] + radius * Math.sin(direction),
        origin[2],
      ]);
      return assess(study, scene, moved(result, layer, before, after), verdicts).verdict;
    };
    let radius = FARTHEST;
    let beyond: ToleranceRing["beyond"];
    for (let k = 0; k < DIRECTIONS; k++) {
      observer?.progress?.(
        "tolerance rings",
        (index + k / DIRECTIONS) / scene.layers[layer].luminaires.length,
      );
      const direction = (2 * Math.PI * k) / DIRECTIONS;
      // Only what would narrow the ring is looked at closer.
      const at = verdictAt(radius, direction);
      if (at === planned) continue;
      let [low, high, found] = [0, radius, at];
      while (high - low > EXACT) {
        const middle = (low + high) / 2;
        const verdict = verdictAt(middle, direction);
        if (verdict === planned) low = middle;
        else {
          high = middle;
          found = verdict;
        }
      }
      radius = low;
      beyond = { verdict: found, direction };
    }
    return { index, position: origin, radius, ...(beyond === undefined ? {} : { beyond }) };
  });
}

/** The result with a luminaire's direct light taken off one layer and put back from elsewhere. */
function moved(
  result: CalculationResult,
  layer: number,
  before: readonly Float64Array[],
  after: readonly Float64Array[],
): CalculationResult {
  return {
    ...result,
    planes: result.planes.map((plane, p) => ({
      ...plane,
      layers: plane.layers.map((field, l) =>
        l === layer
          ? { ...field, direct: field.direct.map((E, i) => Math.max(0, E - before[p][i] + after[p][i])) }
          : field,
      ),
    })),
  };
}
