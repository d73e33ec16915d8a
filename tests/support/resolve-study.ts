/** Resolving a study with everything it may need. */

import type { Outcome } from "../../src/diagnostics/issue.ts";
import { beamLuminaire } from "../../src/luminaire/beam-luminaire.ts";
import { buildShadeLuminaire } from "../../src/luminaire/shade/build.ts";
import { resolveStudyWith } from "../../src/scene/resolve-with.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { StudyContext } from "../../src/scene/study-context.ts";
import type { StudyDocument } from "../../src/study/study-schema.ts";

/** Resolves a checked study: every reference followed, every default filled in and listed, everything in its
 * place. Every fault is reported, not the first alone. */
export function resolveStudy(study: StudyDocument, context: StudyContext): Outcome<ResolvedStudy> {
  return resolveStudyWith(study, { buildBeam: beamLuminaire, ...context }, buildShadeLuminaire);
}
