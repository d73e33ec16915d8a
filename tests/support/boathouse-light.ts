/** The worked example with its light, in a browser page: every arrangement calculated in full, through the
 * library's public door alone. */

import { withValueAt } from "../../src/elements/study-fields/edit-path.ts";
import {
  type ArrangementAssessment,
  assess,
  checkStudy,
  LightEngine,
  orThrow,
  PUBLISHED_TARGETS_BY_ID,
  photometryPaths,
  type ResolvedStudy,
  readPhotometry,
  resolveStudy,
  verdictMethod,
} from "../../src/index.ts";
import { fineGrid } from "../../src/scene/calculation-grid.ts";

export interface BoathouseLight {
  readonly study: ResolvedStudy;
  readonly assessments: readonly ArrangementAssessment[];
}

/** The worked example resolved, without its light. `edits` replaces values of the document by JSON pointer before it
 * is read. */
export async function boathouseStudy(
  folder: string,
  edits: Readonly<Record<string, unknown>> = {},
): Promise<ResolvedStudy> {
  let written: unknown = await (await fetch(`${folder}boathouse.study.json`)).json();
  for (const [path, value] of Object.entries(edits)) written = withValueAt(written, path, value ?? undefined);
  const document = orThrow(checkStudy(written));
  const read = await Promise.all(
    photometryPaths(document).map(async ({ luminaire, path }) => {
      const bytes = new Uint8Array(await (await fetch(folder + path)).arrayBuffer());
      return [luminaire, readPhotometry(bytes, { file: path })] as const;
    }),
  );
  return orThrow(
    resolveStudy(document, { photometry: new Map(read), publishedTargets: PUBLISHED_TARGETS_BY_ID }),
  );
}

export async function boathouseLight(
  folder: string,
  edits: Readonly<Record<string, unknown>> = {},
): Promise<BoathouseLight> {
  const study = await boathouseStudy(folder, edits);
  const engine = new LightEngine();
  const calculate: LightEngine["calculate"] = (...asked) => engine.calculate(...asked);
  const assessments = study.scenes.map((scene) => {
    const top = scene.planes[0];
    const fine = fineGrid(top);
    const planes = fine === undefined ? scene.planes : [...scene.planes, fine];
    const result = calculate({ ...scene, planes }, study.options);
    const own = { ...result, planes: result.planes.slice(0, scene.planes.length) };
    const field = result.planes[scene.planes.length];
    const fines = new Map(fine === undefined ? [] : [[top.name, { plane: fine, field }]]);
    return assess(study, scene, own, verdictMethod(scene, own, calculate), fines);
  });
  return { study, assessments };
}
