/** What `check --json` says to a program: the object of app/check-answer.ts with clashes, method and warnings in words. */

import { checkAnswer } from "../app/check-answer.ts";
import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import { formatIssue, formatLocation, type Issue } from "../diagnostics/issue.ts";
import { VERSION } from "../diagnostics/version.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { clashesJson, clashIssues } from "./clash-list.ts";
import { methodText } from "./method-text.ts";

/** @param fine whether the values on the fine grids are listed too */
export function checkJson(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  fine: boolean,
): unknown {
  return {
    candlespan: VERSION,
    study: study.title,
    warnings: [...study.warnings, ...clashWarnings(study, arrangements)].map((issue) => ({
      code: issue.code,
      message: formatIssue({ ...issue, where: {} }),
      where: formatLocation(issue.where),
    })),
    defaults: study.defaults.map(({ path, value, why }) => ({ path, value, why })),
    arrangements: arrangements.map((judged) => {
      const { method, clashes, ...answer } = checkAnswer(judged, fine);
      return plain({
        ...answer,
        clashes: clashesJson(clashes, study.display.length),
        method: { ...method, description: methodText(method) },
      });
    }),
  };
}

/** What cannot hang or be built in each arrangement, at its path in the study's document. */
export function clashWarnings(
  { scenes, display }: ResolvedStudy,
  arrangements: readonly Pick<JudgedArrangement, "scene" | "clashes">[],
): readonly Issue[] {
  return arrangements.flatMap(({ scene, clashes }) => {
    const index = scenes.findIndex(({ name }) => name === scene.name);
    return clashIssues(clashes, display.length, `/arrangements/${index}`);
  });
}

/** Typed arrays as JSON writes them: `points` in threes. */
function plain(value: unknown, key = ""): unknown {
  if (value instanceof Float64Array) return key === "points" ? triples(value) : Array.from(value);
  if (Array.isArray(value)) return value.map((each) => plain(each));
  if (typeof value !== "object" || value === null) return value;
  // Own keys only, whatever a layer is called.
  const copy: Record<string, unknown> = Object.create(null);
  for (const [name, each] of Object.entries(value)) copy[name] = plain(each, name);
  return copy;
}

function triples(flat: Float64Array): number[][] {
  return Array.from({ length: flat.length / 3 }, (_, i) => [flat[3 * i], flat[3 * i + 1], flat[3 * i + 2]]);
}
