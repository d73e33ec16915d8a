/** What `npm run evidence` measured last, as `fixtures-data/accuracy.json` keeps it. */
import { readFileSync } from "node:fs";
import type { CaseName } from "./accuracy-cases.ts";

/** Trace (lx), its standard error (lx), engine (lx). */
export type Compared = readonly [trace: number, error: number, engine: number];

/** One family of random kitchens beside the path trace. */
export interface RecordedKitchens {
  readonly family: "bare" | "bodies" | "people";
  readonly date: string;
  readonly seed: number;
  readonly kitchens: number;
  /** Mean interreflected light of zones. */
  readonly zones: readonly Compared[];
  /** Total light at points. */
  readonly points: readonly Compared[];
}

interface Coverage {
  readonly inside: number;
  readonly halfWidth: number;
  readonly meets: number;
  /** None where nothing was said to meet. */
  readonly right: number | null;
}

export interface RecordedCoverage {
  readonly date: string;
  readonly seed: number;
  readonly kitchens: number;
  /** Of each kitchen. */
  readonly draws: number;
  readonly classes: readonly {
    readonly name: string;
    readonly average: Coverage;
    readonly minimum: Coverage;
    readonly uniformity: Coverage;
  }[];
}

export interface AccuracyRecord {
  readonly date: string;
  readonly cases: Readonly<Record<CaseName, { readonly error: number; readonly where: string }>>;
  readonly kitchens: readonly RecordedKitchens[];
  readonly coverage: RecordedCoverage;
}

export const RECORD = new URL("../../fixtures-data/accuracy.json", import.meta.url);

export function accuracyRecord(): AccuracyRecord {
  return JSON.parse(readFileSync(RECORD, "utf8"));
}

/** Deviation of the engine, relative; and whether it is within `bound` and two standard errors. */
export function deviationOf([trace, error, engine]: Compared, bound: number) {
  const deviation = engine / trace - 1;
  return { deviation, error: error / trace, within: Math.abs(deviation) <= bound + (2 * error) / trace };
}

/** Of all: share within, worst deviation, worst beyond two standard errors, and the quantile 0.95 of |deviation|. */
export function spreadOf(all: readonly Compared[], bound: number) {
  const each = all.map((one) => deviationOf(one, bound));
  const sizes = each.map(({ deviation }) => Math.abs(deviation)).sort((a, b) => a - b);
  return {
    count: all.length,
    within: each.filter(({ within }) => within).length,
    worst: each.reduce((most, { deviation }) => (Math.abs(deviation) > Math.abs(most) ? deviation : most), 0),
    beyondNoise: Math.max(0, ...each.map(({ deviation, error }) => Math.abs(deviation) - 2 * error)),
    ninetyFive: sizes[Math.min(sizes.length - 1, Math.ceil(0.95 * sizes.length) - 1)],
    medianError: [...each.map(({ error }) => error)].sort((a, b) => a - b)[each.length >> 1],
  };
}
