/** The worked example with its light, in a browser page: every arrangement calculated in full. */
import type { ArrangementAssessment } from "../../src/assessment/assessment.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import { Files, lightOfStudy } from "../../src/workers/light-of-study.ts";

export interface BoathouseLight {
  readonly study: ResolvedStudy;
  readonly assessments: readonly ArrangementAssessment[];
}

export async function boathouseLight(folder: string): Promise<BoathouseLight> {
  const document = await (await fetch(`${folder}boathouse.study.json`)).json();
  const files = new Files();
  for (const { photometry } of Object.values(
    document.luminaires as Record<string, { photometry?: string }>,
  )) {
    if (photometry === undefined) continue;
    files.put(photometry, new Uint8Array(await (await fetch(folder + photometry)).arrayBuffer()));
  }
  const answers = document.arrangements.map((_: unknown, arrangement: number) => {
    const outcome = lightOfStudy({ document, arrangement, quality: "full" }, files, {});
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    return outcome.value;
  });
  const study: ResolvedStudy = {
    title: answers[0].title,
    display: document.display,
    scenes: answers.map((a: { scene: unknown }) => a.scene),
    luminaires: new Map(),
    targets: answers[0].targets,
    options: answers[0].options,
    defaults: answers[0].defaults,
    warnings: answers[0].warnings,
  };
  return { study, assessments: answers.map((a: { assessment: unknown }) => a.assessment) };
}
