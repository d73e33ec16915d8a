/** The verdict as sentences with their marks, and one remark: what is patchy, and where it is dark. */
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import type { Verdict } from "../../assessment/verdict.ts";
import type { IlluminanceUnit } from "../../units/illuminance-text.ts";
import { capital } from "../../words/sentence.ts";
import { darkestPlace, patchyRemark, VERDICT_MARK, type ZoneClauses, zoneClauses } from "../../words/text.ts";
import type { TopPlane } from "../shared/illuminance-probe.ts";

/** Class of a verdict in the elements' styles. */
export const VERDICT_STYLE: Readonly<Record<Verdict, string>> = {
  meets: "meets",
  "falls short": "short",
  "too close to call": "close",
  "no target": "none",
  "not judged": "none",
};

export interface Sentences {
  readonly zones: readonly { readonly clauses: ZoneClauses; readonly mark: string; readonly style: string }[];
  /** Empty when there is nothing to add. */
  readonly remark: string;
}

export function sentences(
  assessment: ArrangementAssessment,
  top: TopPlane | undefined,
  unit: IlluminanceUnit,
): Sentences {
  const zones = assessment.zones.map((zone) => ({
    clauses: capitalName(zoneClauses(zone, unit)),
    mark: VERDICT_MARK[zone.verdict],
    style: VERDICT_STYLE[zone.verdict],
  }));
  const dark = top === undefined ? undefined : darkestPlace(top.plane, top.light.illuminance);
  const patchy = patchyRemark(assessment);
  const parts = [patchy === undefined ? "" : capital(patchy), dark === undefined ? "" : `Darkest ${dark}.`];
  return { zones, remark: parts.filter((part) => part !== "").join(" ") };
}

function capitalName(clauses: ZoneClauses): ZoneClauses {
  return { ...clauses, name: capital(clauses.name) };
}
