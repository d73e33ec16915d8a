/**
 * Levels of the layers for what is asked of the light: of a setting that does not say how it is dimmed, and of an arrangement that
 * has light to spare.
 *
 *   least power   minimise Σ_l P_l d_l
 *   evenest       the greatest u for which the levels exist, then those of least power
 *
 *   with  Σ_l d_l Ē_l,z ≥ T_z · s,  Σ_l d_l E_l(p) ≥ T_z · s at each p where a minimum is asked,
 *         Σ_l d_l (E_l(p) − u Ē_l,z) ≥ 0 at each p where evenness is asked,  f_l ≤ d_l ≤ 1
 *
 * a linear problem in as many unknowns as layers. E_l(p), Ē_l,z light of layer l at full output at a point and its mean over
 * zone z, maintained (lx); f_l the least level of a layer, 0 in a
 * setting; P_l power (W), or flux where one of them does not state its power; s a margin for what is
 * uncertain: 1 on nominal values, then raised until the verdict meets. Levels are rounded up to whole hundredths, as
 * dimmers are set. Where no levels meet, those that come nearest.
 *
 * Known error: power is taken as proportional to light; a dimmer's own curve counts in the energy that is stated, not here. One
 * margin serves all zones, though one may have the wider band: at most 18 % more power than needed in 12 kitchens of two layers.
 */

import { type Constraint, solve } from "yalps";
import { assessSetting, planesOfZones, requirementsOf } from "../assessment/assess.ts";
import { layerPower } from "../assessment/energy.ts";
import { maintainedLayers } from "../assessment/layer-light.ts";
import { statistics } from "../assessment/statistics.ts";
import type { VerdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { LightingSetting, Scene } from "../scene/scene.ts";
import { withSetting } from "../scene/settings.ts";
import type { Requirement } from "../scene/target.ts";

type Targets = Pick<ResolvedStudy, "targets">;

const STEP = 0.01;
/** Margins that are tried: above this no uncertainty leads. */
const MOST_MARGIN = 2.5;
const MARGIN_STEP = 0.005;
const EVENNESS_STEP = 0.002;

/** The scene with levels for every setting that is to find its own.
 * @param result of the scene @param verdicts null for a draft, whose levels are those on nominal values */
export function withFoundLevels(
  study: Targets,
  scene: Scene,
  result: CalculationResult,
  verdicts: VerdictMethod | null,
): Scene {
  const { settings } = scene;
  if (settings === undefined || settings.every(({ find }) => find === undefined)) return scene;
  return {
    ...scene,
    settings: settings.map((setting) =>
      setting.find === undefined
        ? setting
        : { ...setting, dims: foundLevels(study, scene, setting, result, verdicts) },
    ),
  };
}

/** Levels of least power with which a scene meets what its zones ask, whatever its settings; undefined where they ask nothing.
 * @param result of the scene @param floors least level of each layer, 0 to 1 */
export function leastPowerLevels(
  study: Targets,
  scene: Scene,
  result: CalculationResult,
  verdicts: VerdictMethod,
  floors: readonly number[],
): readonly number[] | undefined {
  const dims = scene.layers.map(({ dim }) => dim);
  const setting: LightingSetting = { name: scene.name, dims, targets: new Map(), find: "least power" };
  const { settings: _, ...plain } = scene;
  const asks = planesOfZones(plain).some((zone) => requirementsOf(study, zone).length > 0);
  return asks ? foundLevels(study, plain, setting, result, verdicts, floors) : undefined;
}

function foundLevels(
  study: Targets,
  scene: Scene,
  setting: LightingSetting,
  result: CalculationResult,
  verdicts: VerdictMethod | null,
  floors: readonly number[] = scene.layers.map(() => 0),
): readonly number[] {
  const needs = needsOf(study, scene, setting, result);
  if (needs.length === 0) return floors;
  const layers = powersOf(scene).map((power, l) => ({ power, floor: floors[l] }));
  const levels = (margin: number): readonly number[] | undefined =>
    setting.find === "evenest"
      ? evenest(needs, layers, margin)
      : leastPower(needs, layers, margin)?.map(roundedUp);
  const meets = (dims: readonly number[]): boolean =>
    verdicts === null ||
    assessSetting(study, scene, { ...setting, dims }, result, verdicts).verdict === "meets";
  const nominal = levels(1);
  if (nominal !== undefined && meets(nominal)) return nominal;
  // The least margin that meets, else the greatest that the layers can give.
  let [low, high] = nominal === undefined ? [0, 1] : [1, MOST_MARGIN];
  let nearest = nominal;
  let met: readonly number[] | undefined;
  while (high - low > MARGIN_STEP) {
    const margin = (low + high) / 2;
    const dims = levels(margin);
    if (dims === undefined) high = margin;
    else if (nominal !== undefined && meets(dims)) [met, high] = [dims, margin];
    else [nearest, low] = [dims, margin];
  }
  return met ?? nearest ?? scene.layers.map(() => 1);
}

/** What is asked of the points of one zone: Σ_l d_l a_l ≥ b. */
interface Need {
  readonly requirement: Requirement;
  /** Light of each layer at full output, maintained (lx): mean, and at each point. */
  readonly means: readonly number[];
  readonly points: readonly Float64Array[];
  /** lx, maintained; a ratio of evenness. */
  readonly value: number;
}

function needsOf(study: Targets, scene: Scene, setting: LightingSetting, result: CalculationResult): Need[] {
  const full = withSetting(scene, { ...setting, dims: scene.layers.map(() => 1) });
  return planesOfZones(full).flatMap(({ target, plane }) => {
    const points = maintainedLayers(full, result.planes[plane]).map(({ direct, interreflected }) =>
      direct.map((value, i) => value + (interreflected[i] ?? 0)),
    );
    const means = points.map((field) => statistics(field, scene.planes[plane].weights).average);
    return requirementsOf(study, { target }).map((requirement): Need => {
      const initial = requirement.nature === "initial" && requirement.quantity === "illuminance";
      const value = requirement.value * (initial ? scene.maintenance : 1);
      return { requirement, means, points, value };
    });
  });
}

/** One unknown of the linear problem: what its full level costs (W, or lm), and the least level it may have. */
interface DimmedLayer {
  readonly power: number;
  readonly floor: number;
}

function powersOf(scene: Scene): readonly number[] {
  const full = scene.layers.map((layer) => layerPower({ ...layer, dim: 1 }));
  if (full.every(({ unknown }) => unknown === 0)) return full.map(({ watts }) => watts);
  return scene.layers.map(({ luminaires }) =>
    luminaires.reduce((sum, { luminaire }) => sum + luminaire.flux, 0),
  );
}

/** Levels of least power; undefined where no levels give it. */
function leastPower(
  needs: readonly Need[],
  layers: readonly DimmedLayer[],
  margin: number,
  evenness?: number,
): readonly number[] | undefined {
  const constraints = new Map<string, Constraint>();
  const variables = layers.map(({ power }) => new Map<string, number>([["power", power]]));
  const atLeast = (coefficients: readonly number[], min: number): void => {
    const key = `${constraints.size}`;
    constraints.set(key, { min });
    coefficients.forEach((coefficient, l) => {
      variables[l].set(key, coefficient);
    });
  };
  layers.forEach(({ floor }, l) => {
    const key = `${constraints.size}`;
    constraints.set(key, { min: floor, max: 1 });
    variables[l].set(key, 1);
  });
  for (const { requirement, means, points, value } of needs) {
    const count = points[0]?.length ?? 0;
    const each = (coefficient: (l: number, i: number) => number, min: number): void => {
      for (let i = 0; i < count; i++)
        atLeast(
          points.map((_, l) => coefficient(l, i)),
          min,
        );
    };
    if (requirement.quantity === "uniformity") {
      const least = Math.max(evenness ?? 0, Math.min(1, value * margin));
      each((l, i) => points[l][i] - least * means[l], 0);
    } else if (requirement.statistic === "minimum") each((l, i) => points[l][i], value * margin);
    else atLeast(means, value * margin);
    if (evenness !== undefined && requirement.quantity !== "uniformity")
      each((l, i) => points[l][i] - evenness * means[l], 0);
  }
  const solution = solve({
    direction: "minimize",
    objective: "power",
    constraints,
    variables: new Map(variables.map((each, l) => [l, each])),
  });
  if (solution.status !== "optimal") return undefined;
  const dims = new Map(solution.variables);
  return layers.map(({ floor }, l) => Math.min(1, Math.max(floor, dims.get(l) ?? 0)));
}

/** The evenest levels that give the light asked for, and of those the ones of least power. */
function evenest(
  needs: readonly Need[],
  layers: readonly DimmedLayer[],
  margin: number,
): readonly number[] | undefined {
  let levels = leastPower(needs, layers, margin);
  let [low, high] = [0, 1];
  while (levels !== undefined && high - low > EVENNESS_STEP) {
    const evenness = (low + high) / 2;
    const dims = leastPower(needs, layers, margin, evenness);
    if (dims === undefined) high = evenness;
    else [low, levels] = [evenness, dims];
  }
  return levels?.map(roundedUp);
}

function roundedUp(level: number): number {
  return Number((Math.ceil(level / STEP - 1e-6) * STEP).toFixed(2));
}
