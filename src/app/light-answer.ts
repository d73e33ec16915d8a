/** The light of one arrangement for a screen: what is asked of it, and what is answered. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { ArrangementAssessment, Statistics } from "../assessment/assessment.ts";
import type { Issue } from "../diagnostics/issue.ts";
import type { DefaultUsed } from "../diagnostics/ledger.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";
import type { Target } from "../scene/target.ts";
import type { PlaneContour } from "./judged-arrangement.ts";
import type { ArrangementRequest } from "./open-document.ts";

export interface LightRequest extends ArrangementRequest {
  /** `first`: direct light on the island's planes as if nothing stood in the way, with what is loaded at once.
   * `quick`: direct light with its shadows, to follow a moving hand. `full`: with interreflected light, on every
   * plane, the whole study checked. `judged`: the same light, its bands from what each input may be off. */
  readonly quality: "first" | "quick" | "full" | "judged";
  /** The setting whose light it is; without one, and where the arrangement lacks it, the layers' own levels. */
  readonly setting?: string;
  /** For `quick`: the interreflected light of the last full answer, which stands in until the next. */
  readonly interreflected?: InterreflectedLight;
}

/** Interreflected light (lx) of each layer on each plane, at full output, initial. */
export type InterreflectedLight = readonly {
  readonly plane: string;
  readonly layer: string;
  readonly interreflected: Float64Array;
}[];

/** The light of one arrangement with everything a drawing of it needs. */
export interface LightAnswer {
  readonly title: string;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** Of the top and what is part of it, calculated to the very edge. */
  readonly contours: readonly PlaneContour[];
  /** What cannot hang or be built as it is placed; not looked for while something moves. */
  readonly clashes: readonly Clash[];
  /** The whole top once boxes are shifted as the ways out of clashes say, of resting light alone. */
  readonly shifted?: Statistics;
  /** To stand in while the hand moves; empty but in full answers. */
  readonly interreflected: InterreflectedLight;
  readonly targets: ReadonlyMap<string, Target>;
  readonly options: CalculationOptions;
  readonly defaults: readonly DefaultUsed[];
  readonly warnings: readonly Issue[];
}

/** The part of it that is calculated. */
export type Light = Pick<
  LightAnswer,
  "scene" | "assessment" | "contours" | "clashes" | "shifted" | "interreflected"
> & {
  /** Warnings of what cannot be meant; not looked for while something moves. */
  readonly odd: readonly Issue[];
};
