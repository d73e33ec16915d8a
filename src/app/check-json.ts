/** What `check --json` says to a program: the contract's object, plain numbers in metres, degrees, lux, watts. */

import { PUBLISHED_TARGETS } from "../assessment/targets-published.ts";
import { formatIssue, formatLocation } from "../diagnostics/issue.ts";
import type { Method } from "../engine/result.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { checkAnswer } from "./check-answer.ts";
import type { JudgedArrangement } from "./judged-arrangement.ts";

export interface CheckJsonOptions {
  readonly version: string;
  /** Whether the values on the fine grids are listed too. */
  readonly fine: boolean;
  /** The method in words, which the answer itself leaves out. */
  methodText(method: Method): string;
}

export function checkJson(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  { version, fine, methodText }: CheckJsonOptions,
): unknown {
  return {
    candlespan: version,
    study: study.title,
    warnings: study.warnings.map((issue) => ({
      code: issue.code,
      message: formatIssue({ ...issue, where: {} }),
      where: formatLocation(issue.where),
    })),
    defaults: study.defaults.map(({ path, value, why }) => ({ path, value, why })),
    arrangements: arrangements.map((judged) => {
      const { method, ...answer } = checkAnswer(judged, fine);
      return plain({ ...answer, method: { ...method, description: methodText(method) } });
    }),
  };
}

/** What `check --targets --json` prints: every published target. */
export function targetsJson(): unknown {
  return PUBLISHED_TARGETS;
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
