/**
 * The answer to "how much light, and is it enough" for one arrangement: the contract's object, fields as typed arrays.
 * Metres, degrees, lux, watts.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import type { Clash } from "../advice/clashes/clash.ts";
import { familiarPlace } from "../advice/illuminance-examples.ts";
import { pendantsOverHob } from "../advice/over-hob.ts";
import type {
  ArrangementAssessment,
  Check,
  Energy,
  FineFigures,
  LayerOffAssessment,
  PlaneAssessment,
  SettingAssessment,
  Statistics,
  ZoneAssessment,
} from "../assessment/assessment.ts";
import { layerPower } from "../assessment/energy.ts";
import { centreProfile, endShares, steepestGradient } from "../assessment/gradient.ts";
import { percentile } from "../assessment/statistics.ts";
import type { Verdict } from "../assessment/verdict.ts";
import { orientationOf } from "../geometry/frame.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { clearanceOf } from "../scene/arrangement.ts";
import type { CalculationPlane, ReceivedQuantity } from "../scene/calculation-plane.ts";
import type { LayerRole, LightingSetting, Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import { degrees } from "../units/quantities.ts";
import { findingsJson } from "./findings-json.ts";
import { contourOf, type JudgedArrangement } from "./judged-arrangement.ts";
import { settingLevels } from "./settings-comparison.ts";
import { type WorkingEdge, workingEdge } from "./working-edge.ts";

/** Light of one layer at the points of a plane (lx), after dim and maintenance, which stand beside it. */
export interface LayerAnswer {
  readonly role: LayerRole;
  readonly dim: number;
  readonly maintenance: number;
  /** Null where the power of a luminaire is not known. */
  readonly watts: number | null;
  readonly direct: Float64Array;
  readonly interreflected: Float64Array;
  readonly nearFieldBand?: Float64Array;
}

export interface PlaneAnswer {
  readonly name: string;
  readonly zone?: string;
  readonly quantity: ReceivedQuantity;
  /** x, y, z of each point (m). */
  readonly points: Float64Array;
  readonly normal: Vec3;
  readonly layers: Readonly<Record<string, LayerAnswer>>;
  /** Total at each point (lx), maintained and dimmed. */
  readonly illuminance: Float64Array;
  readonly statistics: Statistics;
  /** By area (lx); null of a plane without points. */
  readonly percentiles: {
    readonly p5: number | null;
    readonly p50: number | null;
    readonly p95: number | null;
  };
  readonly steepest?: { readonly luxPer100mm: number; readonly at: readonly number[] };
  /** Along the centre line of a grid; `ends`: first and last value over the mean of the middle third. */
  readonly profile?: {
    readonly distance: Float64Array;
    readonly illuminance: Float64Array;
    readonly ends: readonly number[] | null;
  };
  readonly fine?: FineAnswer;
}

/** Figures of the fine grid (lx); its fields where they were asked for. */
export interface FineAnswer extends Omit<FineFigures, "grid" | "layers" | "illuminance" | "margin"> {
  readonly points?: Float64Array;
  readonly layers?: Readonly<Record<string, LayerAnswer>>;
  readonly illuminance?: Float64Array;
}

export interface ZoneAnswer {
  readonly name: string;
  /** Name of the plane that judges it. */
  readonly plane: string;
  readonly target?: string;
  readonly statistics: Statistics;
  readonly familiarPlace: string;
  readonly verdict: Verdict;
  readonly checks: readonly Check[];
}

/** One setting: its levels by layer, and the zones as lit and judged then. */
export interface SettingAnswer {
  readonly name: string;
  readonly dim: Readonly<Record<string, number>>;
  /** What each dimmer whose control is known is set to, of full control; null where it does not reach the level. */
  readonly control?: Readonly<Record<string, number | null>>;
  /** What the levels were found by, where they were not given. */
  readonly find?: LightingSetting["find"];
  readonly zones: readonly ZoneAnswer[];
  readonly verdict: Verdict;
  readonly energy: Energy;
}

/** What is left with a layer off; no verdict of the arrangement rests on it. */
export interface LayerOffAnswer extends Omit<LayerOffAssessment, "zones"> {
  readonly zones: readonly ZoneAnswer[];
}

/** @typeParam C how a clash is given: as facts, or with its remedy in words */
export interface CheckAnswer<C = Clash> {
  readonly name: string;
  readonly letter: string;
  readonly luminaires: readonly {
    readonly layer: string;
    readonly luminaire: string;
    readonly position: Vec3;
    /** From the top to the lowest point (m); null where nothing of the top lies under the luminaire's centre. */
    readonly clearance: number | null;
    /** As hung, whatever made them (degrees, `geometry/frame.ts`). */
    readonly turn: number;
    readonly tilt: number;
    readonly spin: number;
    /** The point it was aimed at (m), where it was. */
    readonly aim?: Vec3;
  }[];
  /** What cannot hang or be built as it is placed; the light's verdict stays. */
  readonly clashes: readonly C[];
  /** The whole top once boxes are shifted as the ways out of clashes say; absent where none are to be. */
  readonly shifted?: Statistics;
  /** Pendants over the hob by their tags on paper, a caution; absent without any. */
  readonly overHob?: readonly string[];
  readonly planes: readonly PlaneAnswer[];
  /** Name of the plane of the whole top. */
  readonly top: string | null;
  readonly zones: readonly ZoneAnswer[];
  /** Absent without any. */
  readonly settings?: readonly SettingAnswer[];
  /** With each layer off in turn; absent where fewer than two give light. */
  readonly layersOff?: readonly LayerOffAnswer[];
  /** Light along the edge that is worked at; absent without an island. */
  readonly workingEdge?: WorkingEdge;
  /** The worst of the settings' where there are any. */
  readonly verdict: Verdict;
  readonly energy: Energy;
  readonly balance?: ArrangementAssessment["balance"];
  readonly bodyShadows?: readonly object[];
  readonly method: ArrangementAssessment["method"];
  readonly maintenance: number;
  /** And what `findings-json.ts` lists beside the verdict. */
  readonly [findings: string]: unknown;
}

/** @param fields whether the values on the fine grids are given too */
export function checkAnswer(judged: JudgedArrangement, fields: boolean): CheckAnswer {
  const { scene, assessment, clashes, shifted, bodyShadows, findings } = judged;
  const overHob = pendantsOverHob(scene);
  return {
    name: assessment.name,
    letter: scene.letter,
    luminaires: scene.layers.flatMap((layer) =>
      layer.luminaires.map((placed) => luminaire(scene, layer.name, placed)),
    ),
    clashes,
    ...(shifted === undefined ? {} : { shifted }),
    ...(overHob.length === 0 ? {} : { overHob }),
    planes: assessment.planes.map((plane, index): PlaneAnswer => {
      const { points, normal, quantity, zone } = scene.planes[index];
      const contour = fields ? contourOf(judged, plane) : undefined;
      return {
        name: plane.name,
        zone,
        quantity,
        points,
        normal,
        layers: layersOf(scene, plane.layers),
        illuminance: plane.illuminance,
        statistics: plane.statistics,
        ...spread(scene.planes[index], plane.illuminance),
        fine: plane.fine && fineOf(plane.fine, contour?.points, scene),
      };
    }),
    top: scene.planes[topPlane(scene)]?.name ?? null,
    zones: assessment.zones.map(zoneAnswer),
    settings: assessment.settings?.map((setting, i) => settingAnswer(scene, setting, i)),
    layersOff: assessment.layersOff?.map((off) => ({ ...off, zones: off.zones.map(zoneAnswer) })),
    workingEdge: workingEdge(scene, assessment),
    verdict: assessment.verdict,
    energy: assessment.energy,
    balance: assessment.balance,
    bodyShadows: bodyShadows?.map((shadow) => shadowAnswer(shadow, fields)),
    ...(findings && findingsJson(findings)),
    method: assessment.method,
    maintenance: scene.maintenance,
  };
}

function zoneAnswer({ name, plane, target, statistics, verdict, checks }: ZoneAssessment): ZoneAnswer {
  return {
    name,
    plane,
    target,
    statistics,
    familiarPlace: familiarPlace(statistics.average),
    verdict,
    checks,
  };
}

function settingAnswer(
  { layers, settings }: Scene,
  setting: SettingAssessment,
  index: number,
): SettingAnswer {
  // Own keys only, whatever a layer is called.
  const dim: Record<string, number> = Object.create(null);
  const control: Record<string, number | null> = Object.create(null);
  for (const { layer, level, control: set } of settingLevels(layers, setting.dims)) {
    dim[layer] = level;
    if (set !== undefined) control[layer] = set.value;
  }
  const { name, zones, verdict, energy } = setting;
  const find = settings?.[index].find;
  return {
    name,
    dim,
    ...(Object.keys(control).length === 0 ? {} : { control }),
    find,
    zones: zones.map(zoneAnswer),
    verdict,
    energy,
  };
}

/** @param fields whether the map over the zone is given too */
export function shadowAnswer({ map, ...shadow }: BodyShadow, fields: boolean): object {
  if (!fields) return shadow;
  const { plane, lost, within } = map;
  return {
    ...shadow,
    map: {
      points: Array.from(lost, (_, i) => [...plane.points.subarray(3 * i, 3 * i + 3)]),
      lost: [...lost],
      within: Array.from(within, (flag) => flag === 1),
    },
  };
}

/** How the light is spread over a plane: percentiles by area, and over a grid the steepest change and the profile
 * along the centre line. */
function spread(
  plane: CalculationPlane,
  illuminance: Float64Array,
): Pick<PlaneAnswer, "percentiles" | "steepest" | "profile"> {
  const at = (p: number): number | null =>
    illuminance.length > 0 ? percentile(illuminance, plane.weights, p) : null;
  const steepest = steepestGradient(plane, illuminance);
  const profile = centreProfile(plane, illuminance);
  return {
    percentiles: { p5: at(0.05), p50: at(0.5), p95: at(0.95) },
    steepest: steepest && { luxPer100mm: steepest.value, at: steepest.at },
    profile: profile && {
      distance: Float64Array.from(profile.distance),
      illuminance: Float64Array.from(profile.values),
      ends: endShares(profile) ?? null,
    },
  };
}

function luminaire(scene: Scene, layer: string, placed: PlacedLuminaire): CheckAnswer["luminaires"][number] {
  const position = placed.frame.origin;
  const clearance = clearanceOf(placed, scene.island) ?? null;
  const { turn, tilt, spin } = orientationOf(placed.frame.rotation);
  return {
    layer,
    luminaire: placed.luminaire.name,
    position,
    clearance,
    turn: degrees(turn),
    tilt: degrees(tilt),
    spin: degrees(spin),
    aim: placed.aim,
  };
}

function layersOf(scene: Scene, layers: PlaneAssessment["layers"]): Readonly<Record<string, LayerAnswer>> {
  // Own keys only, whatever a layer is called.
  const named: Record<string, LayerAnswer> = Object.create(null);
  layers.forEach(({ layer, role, direct, interreflected, nearFieldBand }, i) => {
    const { dim } = scene.layers[i];
    const { watts, unknown } = layerPower(scene.layers[i]);
    named[layer] = {
      role,
      dim,
      maintenance: scene.maintenance,
      watts: unknown === 0 ? watts : null,
      direct,
      interreflected,
      nearFieldBand,
    };
  });
  return named;
}

function fineOf(figures: FineFigures, points: Float64Array | undefined, scene: Scene): FineAnswer {
  const { cell, columns, rows, average, minimum, maximum, uniformity, illuminance } = figures;
  const figuresAlone = { cell, columns, rows, average, minimum, maximum, uniformity };
  if (points === undefined) return figuresAlone;
  return { ...figuresAlone, points, layers: layersOf(scene, figures.layers), illuminance };
}
