/** What a search of rows rests on: an edit of anything else leaves its answer as true as it was. */

import type { RawStudy } from "./raw-study.ts";

/** Keys of a study that no row's light or verdict depends on. */
const ASIDE = new Set([
  ...["title", "note", "display", "project", "tariff", "underlay", "embedded", "arrangements", "$schema"],
]);

/** Whether two documents ask the same of a search in an option. Documents share what did not change. */
export function isSameSearch(before: RawStudy, after: RawStudy, arrangement: number): boolean {
  const keys = new Set([...Object.keys(before), ...Object.keys(after)].filter((key) => !ASIDE.has(key)));
  const value = (study: RawStudy, key: string): unknown => study[key as keyof RawStudy];
  return (
    before.arrangements[arrangement]?.layers === after.arrangements[arrangement]?.layers &&
    [...keys].every((key) => value(before, key) === value(after, key))
  );
}
