/** What `arrange`, `boxes` and `swap` print with --json of an arrangement that was checked in full. Lux, watts. */

import type { ArrangementAssessment, Check } from "../assessment/assessment.ts";
import type { Verdict } from "../assessment/verdict.ts";
import type { Checked } from "../design/search/checked.ts";
import type { LengthUnit } from "../units/length-text.ts";
import { type ClashJson, clashesJson } from "./clash-list.ts";

export interface CheckedJson {
  readonly verdict: Verdict;
  readonly clashes: readonly ClashJson[];
  readonly average: number;
  readonly uniformity: number;
  readonly watts: number;
  readonly unknownWatts: number;
  readonly zones: readonly ZoneChecks[];
}

export interface ZoneChecks {
  readonly name: string;
  readonly verdict: Verdict;
  readonly checks: readonly Check[];
}

export function checkedJson(
  { assessment, average, uniformity, energy, clashes }: Omit<Checked, "document" | "scene">,
  unit: LengthUnit,
): CheckedJson {
  return {
    verdict: assessment.verdict,
    clashes: clashesJson(clashes, unit),
    average,
    uniformity,
    watts: energy.watts,
    unknownWatts: energy.unknownWatts,
    zones: zoneChecks(assessment),
  };
}

export const zoneChecks = ({ zones }: ArrangementAssessment): ZoneChecks[] =>
  zones.map(({ name, verdict, checks }) => ({ name, verdict, checks }));
