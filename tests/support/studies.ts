/** Studies in code, for tests: a small kitchen to change at one place. */
import type { Issue } from "../../src/diagnostics/issue.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { StudyContext } from "../../src/scene/study-context.ts";
import type { Target } from "../../src/scene/target.ts";
import { checkStudy } from "../../src/study/study.ts";
import { resolveStudy } from "./resolve-study.ts";

export type Json = Record<string, unknown>;

export const TARGETS = new Map<string, Target>(
  (["preparation", "cooking", "washing", "eating"] as const).map((id) => [
    id,
    {
      id,
      name: id,
      requirements: [{ quantity: "illuminance", statistic: "average", value: 300, nature: "maintained" }],
      source: "made up for tests",
      known: "read",
    },
  ]),
);

export const CONTEXT: StudyContext = { photometry: new Map(), publishedTargets: TARGETS };

/** The island of that kitchen, without zones. */
export const ISLAND = { centre: [2.7, 2.1], length: 2.4, width: 1.1, height: 0.92 } as const;

/** An L, legs 0.9 m wide: along x at the near side, along y at the left. The middle of its box lies 50 mm from the inner edge. */
export const L_OUTLINE: readonly [number, number][] = [
  [0, 0],
  [2.8, 0],
  [2.8, 0.9],
  [0.9, 0.9],
  [0.9, 1.7],
  [0, 1.7],
];

/** A rectangular kitchen with an island 2.4 m × 1.1 m, three domes in equal bays and six spots. */
export function kitchen(more: Json = {}): Json {
  return {
    format: "candlespan-study",
    version: 1,
    room: { length: 5.4, width: 4.2, ceilingHeight: 2.7 },
    island: ISLAND,
    luminaires: {
      dome: {
        beam: { flux: 800, angle: 90 },
        opening: { diameter: 0.26 },
        body: { profile: "dome", diameter: 0.3, height: 0.22 },
      },
      spot: { beam: { flux: 650, angle: 36 }, watts: 7 },
    },
    arrangements: [
      {
        name: "three domes",
        layers: [
          { name: "pendants", luminaire: "dome", row: { count: 3, clearance: 0.85 } },
          { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.7 } },
        ],
      },
    ],
    ...more,
  };
}

/** The kitchen with its pendants' row replaced. */
export function withRow(row: Json, more: Json = {}): Json {
  return kitchen({
    arrangements: [{ name: "a", layers: [{ name: "pendants", luminaire: "dome", row }] }],
    ...more,
  });
}

export function resolved(study: Json, context: StudyContext = CONTEXT): ResolvedStudy {
  const checked = checkStudy(study);
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues, null, 1));
  const outcome = resolveStudy(checked.value, context);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
  return outcome.value;
}

export function refusal(study: Json, context: StudyContext = CONTEXT): readonly Issue[] {
  const checked = checkStudy(study);
  if (!checked.ok) return checked.issues;
  const outcome = resolveStudy(checked.value, context);
  if (outcome.ok) throw new Error("the study was accepted");
  return outcome.issues;
}
