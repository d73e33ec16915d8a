/** Reading lamps and shades on their own: `{ "lamp": {…}, "shade": {…} }`, or every such luminaire of a study. */

import type { Outcome } from "../diagnostics/issue.ts";
import { success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import { readJson } from "../diagnostics/json-text.ts";
import { isShadeLamp, type LampDocument, type ShadeDocument } from "../luminaire/shade/shade-document.ts";
import type { LengthUnit } from "../units/length-text.ts";
import { checkStudy } from "./study.ts";
import type { StudyDocument } from "./study-schema.ts";
import { readStudy } from "./study-text.ts";

export interface NamedShade {
  readonly name: string;
  readonly lamp: LampDocument;
  readonly shade: ShadeDocument;
  /** Document path of the luminaire. */
  readonly path: string;
  /** The study's; undefined of a definition that stands alone. */
  readonly unit?: LengthUnit;
}

/** @param name what a definition that stands alone is called */
export function readShades(text: string, file: string, name: string): Outcome<readonly NamedShade[]> {
  const json = readJson(text, file);
  if (!json.ok) return json;
  const value = json.value.value as { format?: unknown } | null;
  const alone = typeof value !== "object" || value === null || value.format === undefined;
  const study = alone ? wrapped(value, file, name, json.value.locate) : readStudy(text, file);
  if (!study.ok) return study;
  const unit = study.value.display?.length;
  return success(
    Object.entries(study.value.luminaires ?? {}).flatMap(([key, { lamp, shade }]) =>
      !isShadeLamp(lamp) || shade === undefined
        ? []
        : [
            {
              name: key,
              lamp,
              shade,
              path: alone ? "" : pathTo("/luminaires", key),
              ...(unit === undefined ? {} : { unit }),
            },
          ],
    ),
  );
}

/** A definition that stands alone is checked as the only luminaire of the smallest study. */
function wrapped(
  value: unknown,
  file: string,
  name: string,
  locate: (path: string) => { line: number; column: number },
): Outcome<StudyDocument> {
  const prefix = pathTo("/luminaires", name);
  const inner = (path: string) => (path.startsWith(prefix) ? path.slice(prefix.length) : "");
  const checked = checkStudy(
    {
      format: "candlespan-study",
      version: 1,
      room: { length: 1, width: 1, ceilingHeight: 1 },
      luminaires: { [name]: value },
      arrangements: [{ name: "none", layers: [] }],
    },
    file,
    (path) => locate(inner(path)),
  );
  if (checked.ok) return checked;
  return {
    ok: false,
    issues: checked.issues.map((issue) => ({
      ...issue,
      where: { ...issue.where, path: inner(issue.where.path ?? "") },
    })),
  };
}
