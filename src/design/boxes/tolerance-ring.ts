/**
 * How far a ceiling box may be off, and a pendant hang too low or too high, before the verdict changes.
 *
 * The pendant moves out in eight directions, all else as planned; the first distance at which the arrangement's verdict
 * is another is found by halving; down and up, from the first of eight steps at which it is another. Light: E' = E − D + D', D and D' its direct light before and after, nothing in the way;
 * uncertainties as those of the plan. Besides the light: how far it is free of what it would stand in or hang at.
 *
 * Known error: shadows and interreflected light stay as they were, under 1 % of the average (see `superposed-light.ts`);
 * ring and heights are exact to 5 mm in the directions tried.
 */

import { addedClashes } from "../../advice/clashes/added-clashes.ts";
import type { Clash } from "../../advice/clashes/clash.ts";
import { clashes } from "../../advice/clashes/clashes.ts";
import { assess } from "../../assessment/assess.ts";
import type { VerdictMethod } from "../../assessment/uncertainty/verdict-method.ts";
import type { Verdict } from "../../assessment/verdict.ts";
import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import { DirectSources } from "../../engine/direct/direct-sources.ts";
import type { CalculationResult } from "../../engine/result.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { clearanceOf } from "../../scene/arrangement.ts";
import { boxTags } from "../../scene/ceiling-boxes.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import { withLuminaires } from "../../scene/with-hanging.ts";

export interface ToleranceRing {
  /** Index of the luminaire in its layer. */
  readonly index: number;
  readonly position: Vec3;
  /** m; the farthest looked at where nothing changes. */
  readonly radius: number;
  /** What the verdict becomes beyond, and towards where (rad from the room's +x); undefined where nothing changes. */
  readonly beyond?: { readonly verdict: Verdict; readonly direction: number };
  /** What it would stand in or hang at that it does not as planned, from how far off (m); undefined where nothing as far as was looked. */
  readonly obstacle?: { readonly distance: number; readonly clash: Clash };
  /** What it stands in or hangs at as planned: it must not be set out there. */
  readonly planned?: Clash;
  /** How much lower and higher it may hang, in its place. */
  readonly lower: HeightMargin;
  readonly higher: HeightMargin;
}

export interface HeightMargin {
  /** m; the farthest looked at where nothing changes, or where it would be in the top or the ceiling. */
  readonly distance: number;
  /** What the verdict becomes beyond; undefined where nothing changes. */
  readonly beyond?: Verdict;
}

/** Nobody sets a box out worse than this (m). */
export const FARTHEST = 0.3;
/** Nor a cord shorter or longer than this (m). */
export const FARTHEST_HEIGHT = 0.2;
const HEIGHT_STEP = FARTHEST_HEIGHT / 8;
const EXACT = 0.005;
/** Nothing in a ceiling or beside a pendant is narrower, with half a box on either side, than this (m). */
const OBSTACLE_STEP = 0.05;
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
  const standing = clashes(scene);
  const tagOf = boxTags(scene);
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
    const otherVerdict = (x: number, y: number, z: number): Verdict | undefined => {
      throwIfCancelled(observer);
      const after = direct([origin[0] + x, origin[1] + y, origin[2] + z]);
      const { verdict } = assess(study, scene, moved(result, layer, before, after), verdicts);
      return verdict === planned ? undefined : verdict;
    };
    let radius = FARTHEST;
    let beyond: ToleranceRing["beyond"];
    for (let k = 0; k < DIRECTIONS; k++) {
      observer?.progress?.(
        "tolerance rings",
        (index + k / DIRECTIONS) / scene.layers[layer].luminaires.length,
      );
      const direction = (2 * Math.PI * k) / DIRECTIONS;
      const at = (r: number) => otherVerdict(r * Math.cos(direction), r * Math.sin(direction), 0);
      // Only what would narrow the ring is looked at closer.
      const change = firstChange(at, radius, radius);
      if (change === undefined) continue;
      radius = change.distance;
      beyond = { verdict: change.to, direction };
    }
    const lower = heightMargin(
      (z) => otherVerdict(0, 0, -z),
      (clearanceOf(placed, scene.island) ?? FARTHEST_HEIGHT) - EXACT,
    );
    const room = ceilingAt(scene.room, origin[0], origin[1]) - origin[2] - EXACT;
    const higher = heightMargin((z) => otherVerdict(0, 0, z), room);
    const own = tagOf([layer, index]);
    const stands = standing.find(({ kind, between }) => kind !== "opening" && between.includes(own));
    const obstacle = nearestObstacle(scene, layer, index, standing, observer);
    return {
      index,
      position: origin,
      radius,
      ...(beyond === undefined ? {} : { beyond }),
      ...(obstacle === undefined ? {} : { obstacle }),
      ...(stands === undefined ? {} : { planned: stands }),
      lower,
      higher,
    };
  });
}

/** The first clash the luminaire meets on its way out, in any of the directions. @param standing clashes of the plan */
function nearestObstacle(
  scene: Scene,
  layer: number,
  index: number,
  standing: readonly Clash[],
  observer: Observer | undefined,
): ToleranceRing["obstacle"] {
  const met = (k: number, r: number): Clash | undefined => {
    throwIfCancelled(observer);
    const [dx, dy] = [(2 * Math.PI * k) / DIRECTIONS].flatMap((a) => [r * Math.cos(a), r * Math.sin(a)]);
    const luminaires = scene.layers[layer].luminaires.map((placed, i) => {
      const [x, y, z] = placed.frame.origin;
      return i === index
        ? { ...placed, frame: { ...placed.frame, origin: [x + dx, y + dy, z] as const } }
        : placed;
    });
    return addedClashes(standing, clashes(withLuminaires(scene, layer, luminaires)))[0];
  };
  let nearest: ToleranceRing["obstacle"];
  for (let k = 0; k < DIRECTIONS; k++) {
    const change = firstChange((r) => met(k, r), nearest?.distance ?? FARTHEST, OBSTACLE_STEP);
    if (change !== undefined) nearest = { distance: change.distance, clash: change.to };
  }
  return nearest;
}

/** @param most there is room for (m) */
function heightMargin(at: (distance: number) => Verdict | undefined, most: number): HeightMargin {
  const farthest = Math.max(0, Math.min(FARTHEST_HEIGHT, most));
  const change = firstChange(at, farthest, HEIGHT_STEP);
  return change === undefined ? { distance: farthest } : { distance: change.distance, beyond: change.to };
}

/** The last distance, to {@link EXACT}, before something changes, and to what: first in steps, then by halving.
 * @param at undefined where all is as planned */
function firstChange<T>(
  at: (distance: number) => T | undefined,
  farthest: number,
  step: number,
): { readonly distance: number; readonly to: T } | undefined {
  for (let from = 0; from < farthest; from += step) {
    let [low, high] = [from, Math.min(farthest, from + step)];
    let to = at(high);
    if (to === undefined) continue;
    while (high - low > EXACT) {
      const middle = (low + high) / 2;
      const other = at(middle);
      if (other === undefined) low = middle;
      else [high, to] = [middle, other];
    }
    return { distance: low, to };
  }
  return undefined;
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
