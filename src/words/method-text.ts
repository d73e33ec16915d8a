/** By what method light was calculated, in words. */

import { printable } from "../diagnostics/printable.ts";
import { asSentence } from "../diagnostics/sentence.ts";
import type { Method } from "../engine/result.ts";

const INTERREFLECTION: Readonly<Record<Method["interreflection"], string | undefined>> = {
  none: undefined,
  calculated: "interreflected light by radiosity between graded patches and final gather",
  "too many surfaces": "without interreflected light: more surfaces than it is calculated for",
  "of an earlier arrangement": "interreflected light of the arrangement before",
};

/** Clauses without a capital and a full stop. */
export function methodText({
  quality,
  unobstructed,
  interreflection,
  pointsTooNear = 0,
  unaccounted,
}: Method): string {
  const clauses = [
    `direct light from luminous openings by weighted nodes${unobstructed === true ? ", nothing in the way" : ""}`,
    INTERREFLECTION[interreflection],
    pointsTooNear === 0 ? undefined : nearText(pointsTooNear),
    unaccounted === undefined ? undefined : unaccountedText(unaccounted),
    quality === "quick" ? "a quick calculation, its bands wider" : undefined,
  ];
  return clauses.filter((clause) => clause !== undefined).join("; ");
}

/** A sentence of each method with the arrangements that it is of; of all alike without their names, which are untrusted text. */
export function methodSentences(
  arrangements: readonly {
    readonly name: string;
    readonly method: Method & { readonly people?: boolean };
  }[],
): string[] {
  const namesOf = new Map<string, string[]>();
  for (const { name, method } of arrangements) {
    const words = `${asSentence(methodText(method))}${method.people === true ? " People stand in the light." : ""}`;
    namesOf.set(words, [...(namesOf.get(words) ?? []), `"${printable(name, 60)}"`]);
  }
  return [...namesOf].map(([words, names]) => (namesOf.size === 1 ? words : `${names.join(", ")}: ${words}`));
}

function nearText(points: number): string {
  const lie = points === 1 ? "one point lies" : `${points} points lie`;
  return `${lie} too near an opening for the bound to hold`;
}

function unaccountedText(share: number): string {
  const percent = (100 * share).toFixed(share < 0.1 ? 1 : 0);
  return `${percent} % of the light is unaccounted for, so interreflected light is not within its bound`;
}
