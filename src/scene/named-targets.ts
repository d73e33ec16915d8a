/** The targets a study asks for: its own, and the published ones its zones name. */

import { pathTo } from "../diagnostics/json-path.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import type { TargetDocument } from "../study/study-schema.ts";
import type { Requirement, Target } from "./target.ts";

/** A target by its name, and the place in the study that names it. */
export interface NamedTarget {
  readonly target: string;
  readonly path: string;
}

export function targetsOf(
  own: Readonly<Record<string, TargetDocument>> | undefined,
  published: ReadonlyMap<string, Target>,
  asked: readonly NamedTarget[],
  ledger: Ledger,
): Map<string, Target> {
  const targets = new Map<string, Target>();
  for (const [id, document] of Object.entries(own ?? {})) {
    const target = ownTarget(id, document);
    if (target.requirements.length === 0)
      ledger.warn(
        "target-empty",
        pathTo("/targets", id),
        "The target asks for nothing: no illuminance, minimum or uniformity.",
      );
    targets.set(id, target);
  }
  for (const { target, path } of asked) {
    if (targets.has(target)) continue;
    const publishedTarget = published.get(target);
    if (publishedTarget !== undefined) {
      targets.set(target, publishedTarget);
      continue;
    }
    const ids = [...Object.keys(own ?? {}), ...published.keys()];
    ledger.unknown(
      "target",
      path,
      target,
      ids,
      `a name in "targets", or a published one: ${[...published.keys()].join(", ")}`,
    );
  }
  return targets;
}

function ownTarget(id: string, document: TargetDocument): Target {
  const nature = document.nature ?? "maintained";
  const requirements: Requirement[] = [];
  if (document.illuminance !== undefined)
    requirements.push({ quantity: "illuminance", statistic: "average", value: document.illuminance, nature });
  if (document.minimum !== undefined)
    requirements.push({ quantity: "illuminance", statistic: "minimum", value: document.minimum, nature });
  if (document.uniformity !== undefined)
    requirements.push({
      quantity: "uniformity",
      statistic: "minimum / average",
      value: document.uniformity,
      nature,
    });
  return {
    id,
    name: document.name ?? id,
    requirements,
    source: document.source ?? "the designer's own",
    known: "stated in the study",
  };
}
