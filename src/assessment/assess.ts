/**
 * From calculated light to the judgement of an arrangement: statistics of every plane, checks of every zone,
 * power, verdict.
 */

import type { CalculationResult, PlaneField } from "../engine/result.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import { natureFactor } from "../scene/maintained.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { LightingSetting, Scene, Zone } from "../scene/scene.ts";
import { withSetting } from "../scene/settings.ts";
import type { Requirement, Target } from "../scene/target.ts";
import { topPlane } from "../scene/top-plane.ts";
import type {
  ArrangementAssessment,
  Check,
  FineFigures,
  LayerOffAssessment,
  PlaneAssessment,
  SettingAssessment,
  Statistics,
  ZoneAssessment,
} from "./assessment.ts";
import { energyOf } from "./energy.ts";
import { maintainedLayers, totalOf } from "./layer-light.ts";
import { statistics } from "./statistics.ts";
import { PUBLISHED_TARGETS_BY_ID } from "./targets-published.ts";
import type { CriterionVerdict, VerdictMethod } from "./uncertainty/verdict-method.ts";
import { worstVerdict } from "./verdict.ts";

/** A finer grid of a plane, calculated beside it. */
export interface FineField {
  readonly plane: CalculationPlane;
  readonly field: PlaneField;
  /** The points around it that its contours need. */
  readonly margin?: FineField;
}

/** The judgement of one scene of a study from its calculation. `result.planes` follow the scene's order.
 * @param verdicts the verdict method of the scene; null for a draft: figures without intervals, `not judged`
 * @param fines fine grids by the name of the plane they refine */
export function assess(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  result: CalculationResult,
  verdicts: VerdictMethod | null,
  fines?: ReadonlyMap<string, FineField>,
): ArrangementAssessment {
  const planes = scene.planes.map((plane, index) =>
    planeAssessment(scene, plane, result.planes[index], fines?.get(plane.name)),
  );
  const zones = zoneAssessments(study, scene, (plane) => planes[plane], verdicts);
  const settings = scene.settings?.map((setting) => assessSetting(study, scene, setting, result, verdicts));
  return {
    name: scene.name,
    planes,
    zones,
    ...(settings === undefined ? {} : { settings }),
    verdict: worstVerdict((settings ?? zones).map(({ verdict }) => verdict)),
    energy: energyOf(scene),
    ...(result.balance === undefined ? {} : { balance: result.balance }),
    method: result.method,
  };
}

/** The judgement of a scene in one of its settings; fine grids are of the layers' own levels and have no part in it. */
export function assessSetting(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  setting: LightingSetting,
  result: CalculationResult,
  verdicts: VerdictMethod | null,
): SettingAssessment {
  const dimmed = withSetting(scene, setting);
  const planes = new Map<number, PlaneAssessment>();
  const assessed = (index: number): PlaneAssessment => {
    const assessed = planes.get(index) ?? planeAssessment(dimmed, scene.planes[index], result.planes[index]);
    planes.set(index, assessed);
    return assessed;
  };
  const zones = zoneAssessments(study, dimmed, assessed, verdicts);
  const { name, dims } = setting;
  const top = topPlane(scene);
  return {
    name,
    dims,
    zones,
    ...(top < 0 ? {} : { top: assessed(top).statistics }),
    verdict: worstVerdict(zones.map(({ verdict }) => verdict)),
    energy: energyOf(dimmed),
  };
}

/** What is left with each layer off in turn; empty where fewer than two layers give light. */
export function assessLayersOff(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  result: CalculationResult,
  verdicts: VerdictMethod | null,
): LayerOffAssessment[] {
  const lit = scene.layers.filter(({ dim, luminaires }) => dim > 0 && luminaires.length > 0);
  if (lit.length < 2) return [];
  return lit.map((off): LayerOffAssessment => {
    const dims = scene.layers.map((layer) => (layer === off ? 0 : layer.dim));
    const setting: LightingSetting = { name: off.name, dims, targets: new Map() };
    const { zones, verdict } = assessSetting(study, scene, setting, result, verdicts);
    return {
      layer: off.name,
      left: lit.filter((layer) => layer !== off).map(({ name }) => name),
      zones,
      verdict,
    };
  });
}

function planeAssessment(
  scene: Scene,
  plane: CalculationPlane,
  field: PlaneField,
  fine?: FineField,
): PlaneAssessment {
  const layers = maintainedLayers(scene, field);
  const illuminance = totalOf(layers, plane.points.length / 3);
  return {
    name: plane.name,
    layers,
    illuminance,
    statistics: statistics(illuminance, plane.weights),
    ...(fine === undefined ? {} : { fine: fineFigures(scene, fine) }),
  };
}

function zoneAssessments(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  planeAt: (index: number) => PlaneAssessment,
  verdicts: VerdictMethod | null,
): ZoneAssessment[] {
  const zonePlanes = planesOfZones(scene);
  const indices = zonePlanes.map(({ plane }) => plane);
  return zonePlanes.map(({ name, target, plane }): ZoneAssessment => {
    const assessed = planeAt(plane);
    const criteria = target === undefined ? undefined : targetOf(study, target);
    const checks = (criteria?.requirements ?? []).map((requirement) =>
      check(scene, plane, indices, assessed, requirement, criteria as Target, verdicts),
    );
    return {
      name,
      plane: assessed.name,
      statistics: assessed.statistics,
      checks,
      verdict: worstVerdict(checks.map((each) => each.verdict)),
      ...(criteria === undefined ? {} : { target: criteria.name }),
      ...middleOf(scene.planes[plane], assessed),
    };
  });
}

/** The point nearest to the middle of all, by area. */
function middleOf(
  { points, weights }: CalculationPlane,
  { layers }: PlaneAssessment,
): Pick<ZoneAssessment, "middle"> {
  const middle = [0, 0, 0];
  let area = 0;
  weights.forEach((weight, i) => {
    area += weight;
    for (let axis = 0; axis < 3; axis++) middle[axis] += weight * points[3 * i + axis];
  });
  let nearest = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < weights.length; i++) {
    const from = [0, 1, 2].map((axis) => points[3 * i + axis] - middle[axis] / area);
    // Of two that are as near, the first: rounding does not choose.
    const distance = Math.hypot(...from);
    if (distance < least - 1e-9) [nearest, least] = [i, distance];
  }
  if (nearest < 0) return {};
  return {
    middle: {
      at: [points[3 * nearest], points[3 * nearest + 1], points[3 * nearest + 2]],
      layers: layers.map(
        ({ direct, interreflected }) => (direct[nearest] ?? 0) + (interreflected[nearest] ?? 0),
      ),
    },
  };
}

/** The study's own target of a name before the published one. */
export function targetOf(study: Pick<ResolvedStudy, "targets">, id: string): Target | undefined {
  return study.targets.get(id) ?? PUBLISHED_TARGETS_BY_ID.get(id);
}

/** What a zone's target asks for; nothing where it has none. */
export function requirementsOf(
  study: Pick<ResolvedStudy, "targets">,
  { target }: Pick<Zone, "target">,
): readonly Requirement[] {
  return target === undefined ? [] : (targetOf(study, target)?.requirements ?? []);
}

/** Zones with the plane that judges each, then other planes with a target; without zones the whole top is one, named `top`. */
export function planesOfZones(scene: Scene): { name: string; target?: string; plane: number }[] {
  const zones = scene.zones
    .map(({ name, target }) => ({
      name,
      target,
      plane: scene.planes.findIndex((plane) => plane.zone === name && plane.quantity === "planar"),
    }))
    .filter(({ plane }) => plane >= 0);
  const top = topPlane(scene);
  const onIsland = zones.length > 0 ? zones : top < 0 ? [] : [{ name: "top", plane: top }];
  return [...onIsland, ...judgedPlanes(scene)];
}

/** Planes away from the island of which something is asked in some setting, such as a counter under wall units. */
function judgedPlanes({ planes }: Scene): { name: string; target?: string; plane: number }[] {
  return planes.flatMap(({ name, target, unasked }, plane) => {
    if (target === undefined && unasked === undefined) return [];
    return [{ name, plane, ...(target === undefined ? {} : { target }) }];
  });
}

function check(
  scene: Scene,
  plane: number,
  planes: readonly number[],
  assessed: PlaneAssessment,
  requirement: Requirement,
  target: Target,
  verdicts: VerdictMethod | null,
): Check {
  const { illuminance } = assessed;
  const judgement: Partial<CriterionVerdict> =
    verdicts?.({ requirement, scene, plane, planes, illuminance }) ?? {};
  const { band, verdict = "not judged", confidence, probability, drivers = [] } = judgement;
  return {
    quantity: requirement.quantity,
    statistic: requirement.statistic,
    value: figureOf(scene, assessed.statistics, requirement),
    target: requirement.value,
    nature: requirement.nature,
    ...(requirement.footcandles === undefined ? {} : { footcandles: requirement.footcandles }),
    ...(band === undefined ? {} : { band }),
    ...fineUniformity(requirement, assessed.fine, band),
    verdict,
    ...(confidence === undefined ? {} : { confidence }),
    ...(probability === undefined ? {} : { probability }),
    drivers,
    source: target.source,
  };
}

/** The figure a requirement asks for. An initial figure is the maintained one with the maintenance factor taken out. */
function figureOf(
  scene: Scene,
  { uniformity, minimum, average }: Statistics,
  { quantity, statistic, nature }: Requirement,
): number {
  if (quantity === "uniformity") return uniformity;
  return (statistic === "minimum" ? minimum : average) * natureFactor(scene, nature);
}

/** U₀ of the fine grid where it lies outside the interval of the verification grid's. */
function fineUniformity(
  { quantity }: Requirement,
  fine: FineFigures | undefined,
  band: Check["band"],
): Pick<Check, "fine"> {
  if (quantity !== "uniformity" || fine === undefined || band === undefined) return {};
  const { uniformity } = fine;
  return uniformity < band[0] || uniformity > band[1] ? { fine: uniformity } : {};
}

function fineFigures(scene: Scene, { plane, field, margin }: FineField): FineFigures {
  const { layers, illuminance } = lightOf(scene, { plane, field });
  const { average, minimum, maximum, uniformity } = statistics(illuminance, plane.weights);
  const { columns, rows, u, v } = plane.grid ?? { columns: 0, rows: 0, u: [0, 0, 0], v: [0, 0, 0] };
  const cell: readonly [number, number] = [
    columns > 0 ? Math.hypot(u[0], u[1], u[2]) / columns : 0,
    rows > 0 ? Math.hypot(v[0], v[1], v[2]) / rows : 0,
  ];
  return {
    cell,
    columns,
    rows,
    ...(plane.grid === undefined ? {} : { grid: plane.grid }),
    average,
    minimum,
    maximum,
    uniformity,
    layers,
    illuminance,
    ...(margin === undefined ? {} : { margin: lightOf(scene, margin) }),
  };
}

function lightOf(scene: Scene, { plane, field }: FineField): Pick<PlaneAssessment, "layers" | "illuminance"> {
  const layers = maintainedLayers(scene, field);
  return { layers, illuminance: totalOf(layers, plane.points.length / 3) };
}
