/** The luminaires a search tries when nobody named them. */

import type { StudyDocument } from "../../study/study-schema.ts";

type Listed = Pick<StudyDocument, "luminaires" | "arrangements">;

/** Names of all luminaires that hang as pendants somewhere in the study, and of those that hang nowhere and could hang. */
export function pendantShortlist({ luminaires = {}, arrangements }: Listed): string[] {
  const elsewhere = new Set<string>();
  const hung = new Set<string>();
  for (const { layers } of arrangements)
    for (const { luminaire, role, row } of layers) {
      const isPendant = role === undefined ? row !== undefined : role === "pendant";
      (isPendant ? hung : elsewhere).add(luminaire);
    }
  return Object.keys(luminaires).filter(
    (name) => hung.has(name) || (!elsewhere.has(name) && couldHang(luminaires[name])),
  );
}

/** What is let into a hole, or is light of no size, is no pendant of which nobody said so. */
function couldHang({ cutOut, beam, body }: NonNullable<StudyDocument["luminaires"]>[string]): boolean {
  return cutOut === undefined && (beam === undefined || body !== undefined);
}

/** Whether a luminaire stands in for one that is still to be chosen: flux and beam, of no maker and no order number. */
export function standsIn({
  beam,
  maker,
  order,
}: Pick<NonNullable<StudyDocument["luminaires"]>[string], "beam" | "maker" | "order">): boolean {
  return beam !== undefined && maker === undefined && order === undefined;
}
