/** Several clashes together: counted where they are alike, as sentences, as warnings and as the contract lists them. */

import type { Clash, ClashKind } from "../advice/clashes/clash.ts";
import type { Issue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import { type LengthUnit, lengthStep } from "../units/length-text.ts";
import { CLASH_KIND, clashWords, outwards, overlapWords, remedyWords, wayOut } from "./clash-words.ts";

/** What the contract's `clashes` list: the remedy as a sentence. */
export interface ClashJson extends Omit<Clash, "remedy"> {
  readonly remedy: string;
}

export function clashesJson(clashes: readonly Clash[], unit: LengthUnit): readonly ClashJson[] {
  return clashes.map((clash) => ({ ...clash, remedy: remedyWords(clash.remedy, unit) }));
}

/** A sentence for each trouble: what stands in the same one with the same way out is counted, not repeated.
 * `R1 to R12 (12 of them): on a joist, up to 70 mm too near. Shift the row by 71 mm, away from wall 3.` */
export function clashSentences(clashes: readonly Clash[], unit: LengthUnit): readonly string[] {
  return clashGroups(clashes, unit).map(([clash, ...alike]) => {
    if (alike.length === 0) return clashWords(clash, unit);
    const group = [clash, ...alike];
    const others = clash.between.slice(1).map((name) => `, ${printable(name, 40)}`);
    const tags = shortTags(group.map(({ between }) => printable(between[0], 40)));
    const clear = Math.min(...group.map((each) => each.clear));
    const same = group.every((each) => each.clear - clear < lengthStep(unit) / 2);
    const near = overlapWords(clash.kind, `${same ? "" : "up to "}${outwards(-clear, unit)}`);
    return `${tags} (${group.length} of them)${others.join("")}: ${CLASH_KIND[clash.kind]}, ${near}. ${wayOut(clash, unit)}`;
  });
}

/** Clashes of one kind with the same others and the same way out, in the order of the first of each. */
function clashGroups(clashes: readonly Clash[], unit: LengthUnit): readonly Clash[][] {
  const groups = new Map<string, Clash[]>();
  for (const clash of clashes) {
    const key = [clash.kind, wayOut(clash, unit), ...clash.between.slice(1)].join("\n");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [clash]);
    else group.push(clash);
  }
  return [...groups.values()];
}

/** For who does not build: `on a joist: P1, P2 and R1 to R12; boxes clash: P1 with R6`. */
export function clashList(clashes: readonly Clash[]): string {
  const kinds = new Map<ClashKind, Clash[]>();
  for (const clash of clashes) kinds.set(clash.kind, [...(kinds.get(clash.kind) ?? []), clash]);
  return [...kinds]
    .map(([kind, found]) => {
      const alone = found.filter(({ between }) => between.length === 1).map(({ between }) => between[0]);
      const partners = new Map<string, string[]>();
      for (const { between } of found.filter(({ between }) => between.length > 1)) {
        const others = between.slice(1).join(" with ");
        partners.set(others, [...(partners.get(others) ?? []), between[0]]);
      }
      const together = [...partners].map(([others, tags]) => `${shortTags(tags)} with ${others}`);
      return `${CLASH_KIND[kind]}: ${[...(alone.length === 0 ? [] : [shortTags(alone)]), ...together].join(", ")}`;
    })
    .join("; ");
}

/** Each trouble as a warning. @param path of the arrangement in the document */
export function clashIssues(clashes: readonly Clash[], unit: LengthUnit, path: string): readonly Issue[] {
  const sentences = clashSentences(clashes, unit);
  return clashGroups(clashes, unit).map(([{ kind }], i) => ({
    code: `clash-${kind.replaceAll(" ", "-")}`,
    severity: "warning",
    message: sentences[i],
    where: { path },
  }));
}
