/**
 * What a page and its workers say to each other: one typed map from a name to its request, its response and
 * its progress. Host-free: browsers and Node spawn workers differently but speak this.
 *
 * The study document is the only state. A request carries the whole document (a few kilobytes), so no answer
 * can depend on a message that was lost; what is dear to compute is cached in the worker by what it depends on.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import type { GuidelineCard } from "../advice/guidelines/guideline-card.ts";
import type { ArrangementAssessment } from "../assessment/assessment.ts";
import type { Verdict } from "../assessment/verdict.ts";
import type { LeftOut } from "../design/search/constraints.ts";
import type { LearntParameter, VerifiedZone } from "../design/verify/verify.ts";
import type { Issue } from "../diagnostics/issue.ts";
import type { SurfaceLight } from "../engine/surfaces/surface-light.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { DefaultUsed } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import type { Target } from "../scene/target.ts";
import type { ArrangementDocument } from "../study/study.ts";
import type { FindingsSection } from "../words/findings-sections.ts";

/** A file the study names, by its path in the study. */
export interface StudyFile {
  readonly path: string;
  readonly content: Uint8Array;
}

export interface LightRequest {
  /** The study document, as JSON. */
  readonly document: unknown;
  /** Index of the arrangement. */
  readonly arrangement: number;
  /** `first`: direct light on the island's planes as if nothing stood in the way, with what is loaded at once.
   * `quick`: direct light with its shadows, to follow a moving hand. `full`: with interreflected light, on every
   * plane, the whole study checked. `judged`: the same light, its bands from what each input may be off. */
  readonly quality: "first" | "quick" | "full" | "judged";
  /** Whether people stand in the light, whatever the study says. */
  readonly people?: boolean;
  /** For `quick`: the interreflected light of the last full answer, which stands in until the next. */
  readonly interreflected?: InterreflectedLight;
}

/** Interreflected light (lx) of each layer on each plane, at full output, initial. */
export type InterreflectedLight = readonly {
  readonly plane: string;
  readonly layer: string;
  readonly interreflected: Float64Array;
}[];

export interface PeopleAnswer {
  /** Of everyone in their usual posture. */
  readonly shadows: readonly BodyShadow[];
  /** Where each person sees the image of a luminaire in the top (m, in the room). */
  readonly images: readonly { readonly person: string; readonly spot: Vec3; readonly luminance: number }[];
}

export interface RoomQuestion extends Omit<LightRequest, "quality"> {
  /** `sketch`: what a second or two allow, to look at while the rest is computed. */
  readonly quality: "sketch" | "full";
}

export interface RoomAnswer {
  readonly scene: Scene;
  readonly surfaces: SurfaceLight;
  /** What that light rests on: equal keys, equal light, whatever it is dimmed to. */
  readonly key: string;
  /** Whether people stood in that light. */
  readonly people: boolean;
}

/** The light of one arrangement with everything a drawing of it needs. */
export interface LightAnswer {
  readonly title: string;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** To stand in while the hand moves; empty but in full answers. */
  readonly interreflected: InterreflectedLight;
  readonly targets: ReadonlyMap<string, Target>;
  readonly options: CalculationOptions;
  readonly defaults: readonly DefaultUsed[];
  readonly warnings: readonly Issue[];
}

/** What a search of rows is asked for; all but document and arrangement may be left out. */
export interface SearchQuestion {
  readonly document: unknown;
  /** Index of the arrangement searched from, and the layer whose pendants are sought (default: the first of them). */
  readonly arrangement: number;
  readonly layer?: string;
  /** The shortlist, by name in the study; all that hang as pendants, and those that hang nowhere, by default. */
  readonly luminaires?: readonly string[];
  readonly counts?: readonly number[];
  /** Lowest points above the top (m). */
  readonly clearances?: readonly number[];
  /** Also rows of two kinds in turn. */
  readonly pairs?: boolean;
  /** Identifiers of guideline cards that must agree. */
  readonly rules?: readonly string[];
  /** People must see each other's faces; no head may reach a pendant; no lamp be seen that should be shielded. */
  readonly faces?: boolean;
  readonly heads?: boolean;
  readonly shielding?: boolean;
  /** How many proposals, 4 by default. */
  readonly wanted?: number;
}

export interface ProposalAnswer {
  /** In metres, to be added to the study's arrangements. */
  readonly arrangement: ArrangementDocument;
  readonly reasons: readonly string[];
  readonly verdict: Verdict;
  /** Of the whole top (lx; ratio), and of all layers (W). */
  readonly average: number;
  readonly uniformity: number;
  readonly watts: number;
  readonly zones: readonly { readonly name: string; readonly verdict: Verdict }[];
  /** What skipping one would lose, in words. */
  readonly skipOne?: string;
  /** Dim of each layer with which every target is still met, and the power then (W). */
  readonly dimmed?: { readonly dims: readonly number[]; readonly watts: number };
}

export interface SearchAnswer {
  readonly candidates: number;
  readonly promising: number;
  readonly checked: number;
  readonly proposals: readonly ProposalAnswer[];
  readonly turnedDown: readonly string[];
  readonly leftOut: readonly LeftOut[];
}

export interface VerifyQuestion {
  readonly document: unknown;
  readonly arrangement: number;
  /** Comma-separated text, see `design/verify/readings.ts`. */
  readonly readings: string;
  /** 95 % band of the meter, relative; or one good for ratios alone. */
  readonly meter: number | "phone";
  /** What age and dirt have left of the light by then, 0…1; 1 is new and clean. */
  readonly maintenance?: number;
}

export interface VerifyAnswer {
  readonly agree: number;
  /** In the order given (lx), with what the meter may show at 95 %. */
  readonly compared: readonly {
    readonly line: number;
    readonly read: number;
    readonly predicted: number;
    readonly band: readonly [lo: number, hi: number];
    readonly agrees: boolean;
  }[];
  /** What is wrong, and what stays open, in words. */
  readonly wrong: readonly string[];
  readonly open: readonly string[];
  readonly learnt: readonly LearntParameter[];
  readonly zones: readonly VerifiedZone[];
}

/** What one photometric file holds, in words for one line on screen. */
export interface FileReading {
  readonly path: string;
  readonly ok: boolean;
  readonly line: string;
  readonly issues: readonly Issue[];
}

export interface Progress {
  /** In words. */
  readonly stage: string;
  /** 0…1 */
  readonly fraction: number;
}

/** The map. Every request may be cancelled; only those with a `progress` report it. */
export interface Messages {
  /** Hands over the files of the study, all of them: those handed over before are forgotten, so that no study ever
   * reads another's. Later documents refer to them by path. */
  files: { request: { readonly files: readonly StudyFile[] }; response: null };
  /** Says what photometric files hold; keeps none of them. */
  describe: { request: { readonly files: readonly StudyFile[] }; response: readonly FileReading[] };
  /** Checks the text of a study and lifts it to the present version. Nothing of it is kept. */
  read: {
    request: { readonly text: string; readonly file: string };
    response: { readonly document: unknown };
  };
  /** The plan of one arrangement with its isolux lines as an SVG sheet. */
  plan: { request: Omit<LightRequest, "quality">; response: string; progress: Progress };
  /** What people take from the light and see in a polished top. */
  people: { request: Omit<LightRequest, "quality">; response: PeopleAnswer; progress: Progress };
  /** The published rules held against one arrangement, with the light each would give. */
  rules: {
    request: Omit<LightRequest, "quality">;
    response: readonly GuidelineCard[];
    progress: Progress;
  };
  /** What there is to say beside the verdict, in headed sections: eyes and heads, surroundings, look, load, years. */
  beside: {
    request: Omit<LightRequest, "quality">;
    response: readonly FindingsSection[];
    progress: Progress;
  };
  /** The arrangement's light on every surface of the room, for a picture of it. */
  room: { request: RoomQuestion; response: RoomAnswer; progress: Progress };
  /** The best few rows of pendants that differ in kind, each checked in full. */
  search: { request: SearchQuestion; response: SearchAnswer; progress: Progress };
  /** Site readings against the prediction. */
  verify: { request: VerifyQuestion; response: VerifyAnswer; progress: Progress };
  /** Light of one arrangement. */
  light: { request: LightRequest; response: LightAnswer };
}

export type MessageName = keyof Messages;
export type RequestOf<N extends MessageName> = Messages[N]["request"];
export type ResponseOf<N extends MessageName> = Messages[N]["response"];

/** Page to worker. */
export type Call =
  | { readonly kind: "call"; readonly id: number; readonly name: MessageName; readonly request: unknown }
  | { readonly kind: "cancel"; readonly id: number }
  /** Shared memory by which a running calculation hears that it is cancelled: slot `id % length` holds `id`. */
  | { readonly kind: "stop-flags"; readonly flags: Int32Array };

/** Worker to page. */
export type Reply =
  | {
      readonly kind: "response";
      readonly id: number;
      readonly response: unknown;
      readonly warnings: readonly Issue[];
    }
  | { readonly kind: "progress"; readonly id: number; readonly progress: Progress }
  | { readonly kind: "issues"; readonly id: number; readonly issues: readonly Issue[] }
  | { readonly kind: "cancelled"; readonly id: number }
  | { readonly kind: "fault"; readonly id: number; readonly message: string };
