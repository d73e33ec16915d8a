/** The worked example with its light, in a browser page: every arrangement calculated in full, through the
 * library's public door for applications. */

import {
  type ArrangementAssessment,
  arrangementLight,
  type OpenStudy,
  openStudy,
  orThrow,
  type ResolvedStudy,
} from "../../src/app.ts";
import { withValueAt } from "../../src/elements/study-fields/edit-path.ts";

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
  return (await open(folder, edits)).study;
}

async function open(folder: string, edits: Readonly<Record<string, unknown>>): Promise<OpenStudy> {
  let written: unknown = await (await fetch(`${folder}boathouse.study.json`)).json();
  for (const [path, value] of Object.entries(edits)) written = withValueAt(written, path, value ?? undefined);
  const read = async (path: string): Promise<Uint8Array> =>
    new Uint8Array(await (await fetch(folder + path)).arrayBuffer());
  return orThrow(await openStudy(written, { read }));
}

export async function boathouseLight(
  folder: string,
  edits: Readonly<Record<string, unknown>> = {},
): Promise<BoathouseLight> {
  const opened = await open(folder, edits);
  const assessments: ArrangementAssessment[] = [];
  for (const scene of opened.study.scenes)
    assessments.push((await arrangementLight(opened, scene, {})).assessment);
  return { study: opened.study, assessments };
}
