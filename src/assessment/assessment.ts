/**
 * The judgement of one arrangement: what `check` prints and the viewer shows.
 */

import type { EnergyBalance, Method } from "../engine/result.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { Evidence } from "../luminaire/evidence.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import type { LayerRole } from "../scene/scene.ts";
import type { InputKind } from "./uncertainty/field-uncertainty.ts";
import type { Verdict } from "./verdict.ts";

/** Area-weighted figures of an illuminance field (lx). */
export interface Statistics {
  readonly average: number;
  readonly minimum: number;
  readonly maximum: number;
  /** U₀ = minimum / average */
  readonly uniformity: number;
  /** U_d = minimum / maximum */
  readonly diversity: number;
  /** Standard deviation / average. */
  readonly variation: number;
  readonly points: number;
}

/** What an uncertainty comes from. */
export interface Driver {
  /** In words: `flux of dome`, `reflectance of walls`; the remainder is `rest`. */
  readonly input: string;
  readonly kind: InputKind | "rest";
  /** The luminaire, layer or part of the room it belongs to; absent where it is common to all. */
  readonly of?: string;
  /** How the light of the luminaire is known, where it is about that. */
  readonly evidence?: Evidence;
  /** Share of the variance of the deciding quantity, 0…1. */
  readonly share: number;
}

export interface Check {
  readonly quantity: "illuminance" | "uniformity";
  readonly statistic: string;
  readonly value: number;
  readonly target: number;
  readonly nature: "maintained" | "initial";
  /** What the source asks in foot-candles, where it states them. */
  readonly footcandles?: number;
  /** 95 % interval of the value; absent where it was not judged. */
  readonly band?: readonly [lo: number, hi: number];
  /** The same on the fine grid, where it lies outside that interval: how even the light is depends on where it is asked. */
  readonly fine?: number;
  readonly verdict: Verdict;
  /** Probability with which a verdict is given, 0.5…1: under it the case is too close to call; absent where it was not judged. */
  readonly confidence?: number;
  /** Probability of reaching the target; absent of a draft and where it was not judged. */
  readonly probability?: number;
  readonly drivers: readonly Driver[];
  readonly source: string;
}

export interface ZoneAssessment {
  readonly name: string;
  /** Name of the plane that judges it. */
  readonly plane: string;
  /** What is asked of it, in words; undefined without a target. */
  readonly target?: string;
  readonly statistics: Statistics;
  readonly checks: readonly Check[];
  readonly verdict: Verdict;
  /** Where a meter is held to check it; absent of a plane without points. */
  readonly middle?: MeterPoint;
}

/** The calculated point of a plane nearest to its middle, and the light there (lx), maintained and dimmed. */
export interface MeterPoint {
  readonly at: Vec3;
  /** In the scene's order; all of them together are the light at the point. */
  readonly layers: readonly number[];
}

/** Illuminance after dimming and maintenance, by layer and in total, at the points of one plane (lx). */
export interface PlaneAssessment {
  readonly name: string;
  readonly layers: readonly {
    readonly layer: string;
    readonly role: LayerRole;
    readonly direct: Float64Array;
    readonly interreflected: Float64Array;
    /** Half-width of the uncertainty of where on an uncertain opening the light leaves (lx); absent without one. */
    readonly nearFieldBand?: Float64Array;
  }[];
  readonly illuminance: Float64Array;
  readonly statistics: Statistics;
  /** Figures of a finer grid over the same place, for minima and contours; no verdict rests on them. */
  readonly fine?: FineFigures;
}

/** Figures on a grid of fine cells (lx), maintained and dimmed. */
export interface FineFigures {
  /** Sides of a cell (m). */
  readonly cell: readonly [along: number, across: number];
  readonly columns: number;
  readonly rows: number;
  readonly grid?: PlaneGrid;
  readonly average: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly uniformity: number;
  readonly layers: PlaneAssessment["layers"];
  readonly illuminance: Float64Array;
  /** Light on the grid's margin, see `app/isolux-field.ts`: contours reach the edge without extrapolation. */
  readonly margin?: Pick<PlaneAssessment, "layers" | "illuminance">;
}

/** Electrical power as dimmed. */
export interface Energy {
  readonly watts: number;
  readonly wattsPerSquareMetre: number;
  /** Luminaires that do not state theirs: with any of them the figures are lower bounds. */
  readonly unknownWatts: number;
}

/** The judgement of one setting: its levels, and the zones as they are lit then. */
export interface SettingAssessment {
  readonly name: string;
  /** Fraction of luminous flux by layer, in the scene's order. */
  readonly dims: readonly number[];
  readonly zones: readonly ZoneAssessment[];
  /** Of the whole top then; absent without one. */
  readonly top?: Statistics;
  readonly verdict: Verdict;
  readonly energy: Energy;
}

/** What is left when one layer fails or is off, the others at their own levels. */
export interface LayerOffAssessment {
  /** Name of the layer that is off, and of those that still give light. */
  readonly layer: string;
  readonly left: readonly string[];
  readonly zones: readonly ZoneAssessment[];
  readonly verdict: Verdict;
}

export interface ArrangementAssessment {
  readonly name: string;
  readonly planes: readonly PlaneAssessment[];
  /** The setting it is lit and judged in; absent at the layers' own levels. */
  readonly setting?: string;
  readonly zones: readonly ZoneAssessment[];
  /** Of each setting but the one it is lit in, in the study's order; absent without any. */
  readonly settings?: readonly SettingAssessment[];
  /** For each layer that gives light, where there are several and it was asked for; no verdict rests on it. */
  readonly layersOff?: readonly LayerOffAssessment[];
  /** At the layers' own levels the worst of the settings' where there are any; else of the zones'. */
  readonly verdict: Verdict;
  readonly energy: Energy;
  readonly balance?: EnergyBalance;
  readonly method: Method;
}
