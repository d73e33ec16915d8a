/** What `check --json` says to a program: the contract's object, plain numbers in metres, degrees, lux, watts. */

import type { Clash } from "../advice/clashes/clash.ts";
import { PUBLISHED_TARGETS, type PublishedTarget } from "../assessment/targets-published.ts";
import { formatIssue, formatLocation, type Issue } from "../diagnostics/issue.ts";
import type { Method } from "../engine/result.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import type { LengthUnit } from "../units/length-text.ts";
import { checkAnswer } from "./check-answer.ts";
import type { JudgedArrangement } from "./judged-arrangement.ts";

export interface CheckJsonOptions {
  readonly version: string;
  /** Whether the values on the fine grids are listed too. */
  readonly fine: boolean;
  /** The method in words, which the answer itself leaves out. */
  methodText(method: Method): string;
  /** The clashes with their remedies in words, and each as a warning. */
  clashesJson(clashes: readonly Clash[], unit: LengthUnit): unknown;
  clashIssues(clashes: readonly Clash[], unit: LengthUnit, path: string): readonly Issue[];
}

export function checkJson(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  { version, fine, methodText, clashesJson, clashIssues }: CheckJsonOptions,
): unknown {
  const unit = study.display.length;
  const clashWarnings = arrangements.flatMap(({ scene, clashes }) =>
    clashIssues(clashes, unit, arrangementPath(study, scene)),
  );
  return {
    candlespan: version,
    study: study.title,
    warnings: [...study.warnings, ...clashWarnings].map((issue) => ({
      code: issue.code,
      message: formatIssue({ ...issue, where: {} }),
      where: formatLocation(issue.where),
    })),
    defaults: study.defaults.map(({ path, value, why }) => ({ path, value, why })),
    arrangements: arrangements.map((judged) => {
      const { method, clashes, ...answer } = checkAnswer(judged, fine);
      return plain({
        ...answer,
        clashes: clashesJson(clashes, unit),
        method: { ...method, description: methodText(method) },
      });
    }),
  };
}

/** Path of an arrangement in its study's document. */
export function arrangementPath({ scenes }: ResolvedStudy, scene: Scene): string {
  return `/arrangements/${scenes.findIndex(({ name }) => name === scene.name)}`;
}

/** What `check --targets --json` prints: every published target. */
export function targetsJson(): readonly PublishedTarget[] {
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
