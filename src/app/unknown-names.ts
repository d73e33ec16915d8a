/**
 * Names that refer to nothing, in a study that is refused for other faults: told in the same round, in the words of a study
 * that is resolved.
 */

import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import type { Issue } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import { Ledger } from "../diagnostics/ledger.ts";
import { type NamedTarget, targetsOf } from "../scene/named-targets.ts";
import { checkReference } from "../scene/study-luminaires.ts";
import type { StudyDocument } from "../study/study-schema.ts";

/** The luminaires and targets that a document asks for and that are none. Whatever else is not as it should be is passed over.
 * @param value of any shape @param file names the study in issues */
export function unknownNames(value: unknown, file?: string): readonly Issue[] {
  const ledger = new Ledger(file);
  const study = fieldsOf(value);
  const luminaires = { luminaires: fieldsOf(study.luminaires) } as Partial<StudyDocument> as StudyDocument;
  const asked: NamedTarget[] = [];
  const ask = (target: unknown, path: string): void => {
    if (typeof target === "string") asked.push({ target, path });
  };
  listOf(fieldsOf(study.island).zones).forEach((zone, i) => {
    ask(zone.target, `/island/zones/${i}/target`);
  });
  listOf(study.planes).forEach((plane, i) => {
    ask(plane.target, `/planes/${i}/target`);
  });
  listOf(study.arrangements).forEach(({ layers, settings }, i) => {
    const path = `/arrangements/${i}`;
    listOf(layers).forEach(({ luminaire }, k) => {
      if (typeof luminaire === "string")
        checkReference(luminaire, luminaires, `${path}/layers/${k}/luminaire`, ledger);
    });
    listOf(settings).forEach(({ zones }, s) => {
      for (const [zone, target] of Object.entries(fieldsOf(zones)))
        ask(target, pathTo(`${path}/settings/${s}/zones`, zone));
    });
  });
  const own = Object.fromEntries(Object.keys(fieldsOf(study.targets)).map((id) => [id, {}]));
  targetsOf(own, PUBLISHED_TARGETS_BY_ID, asked, ledger);
  return ledger.errors;
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {};
}

function listOf(value: unknown): readonly Readonly<Record<string, unknown>>[] {
  return Array.isArray(value) ? value.map(fieldsOf) : [];
}
