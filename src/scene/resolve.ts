/** Resolving a study with everything it may need. */

import type { Outcome } from "../diagnostics/issue.ts";
import { beamLuminaire } from "../luminaire/beam-luminaire.ts";
import { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { resolveStudyWith } from "./resolve-with.ts";
import type { ResolvedStudy } from "./resolved-study.ts";
import type { StudyContext } from "./study-context.ts";

/** Resolves a checked study: every reference followed, every default filled in and listed, everything in its
 * place. Every fault is reported, not the first alone. */
export function resolveStudy(study: StudyDocument, context: StudyContext): Outcome<ResolvedStudy> {
  return resolveStudyWith(study, { buildBeam: beamLuminaire, ...context }, buildShadeLuminaire);
}
