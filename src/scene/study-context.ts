/** What resolving a study needs from outside it: the photometric files it names and the published targets. */

import type { Observer } from "../diagnostics/cancelled.ts";
import type { Outcome } from "../diagnostics/issue.ts";
import type { beamLuminaire } from "../luminaire/beam-luminaire.ts";
import type { Photometry } from "../photometry/photometry.ts";
import type { LastKitchen } from "./kitchen.ts";
import type { Target } from "./target.ts";

export interface StudyContext {
  /** The photometry of a luminaire by its name in the study, already read with its `lampSet` (and, if the
   * reader did it, its `flux`); undefined when it was not read. */
  readonly photometry:
    | ReadonlyMap<string, Outcome<Photometry>>
    | ((luminaire: string) => Outcome<Photometry> | undefined);
  readonly publishedTargets: ReadonlyMap<string, Target>;
  /** Follows and stops the tracing of shades, the one long part. */
  readonly observer?: Observer;
  /** Builds luminaires from flux and beam; needed by a study that names any, so that a page without need not load it. */
  readonly buildBeam?: typeof beamLuminaire;
  /** Remembers the kitchen, which stays the same while luminaires move. */
  readonly kitchens?: LastKitchen;
  /** Named in issues. */
  readonly file?: string;
}
