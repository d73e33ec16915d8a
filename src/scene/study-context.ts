/** What resolving a study needs from outside it: the photometric files it names and the published targets. */

import type { Outcome } from "../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Photometry } from "../photometry/photometry.ts";
import type { LuminaireDocument } from "./study-schema.ts";
import type { Target } from "./target.ts";

export interface StudyContext {
  /** The photometry of a luminaire by its name in the study, already read with its `lampSet`; undefined when it
   * was not read. */
  readonly photometry:
    | ReadonlyMap<string, Outcome<Photometry>>
    | ((luminaire: string) => Outcome<Photometry> | undefined);
  readonly publishedTargets: ReadonlyMap<string, Target>;
  /** Builds a luminaire from `lamp` and `shade`; without it such a luminaire is an error. */
  readonly shadeLuminaire?: (name: string, document: LuminaireDocument) => Outcome<Luminaire>;
  /** Named in issues. */
  readonly file?: string;
}
