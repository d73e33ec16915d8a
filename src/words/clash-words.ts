/** What cannot hang or be built as it is placed, and the way out, in sentences. */

import type { Clash, ClashKind, Remedy } from "../advice/clashes/clash.ts";
import type { Issue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { formatLength, type LengthUnit, lengthStep } from "../units/length-text.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";

const KIND: Readonly<Record<ClashKind, string>> = {
  boxes: "boxes clash",
  "box and body": "over or at a tall body",
  bodies: "bodies stand in one another",
  ceiling: "the body reaches above the ceiling",
  door: "in the swing of a door",
  head: "a head strikes it",
  joist: "on a joist",
  "keep-out": "in or within half a box of a keep-out",
  opening: "the luminous opening sticks out of the body",
};

/** What the contract's `clashes` list: the remedy as a sentence. */
export interface ClashJson extends Omit<Clash, "remedy"> {
  readonly remedy: string;
}

export function clashesJson(clashes: readonly Clash[], unit: LengthUnit): readonly ClashJson[] {
  return clashes.map((clash) => ({ ...clash, remedy: remedyWords(clash.remedy, unit) }));
}

/** `P1, R6: boxes clash, 76 mm too near. Move one of them by 77 mm or more.` */
export function clashWords(clash: Clash, unit: LengthUnit): string {
  return `${clash.between.map((name) => printable(name, 40)).join(", ")}: ${clashReason(clash, unit)}`;
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
    const near = `${same ? "" : "up to "}${outwards(-clear, unit)} too near`;
    return `${tags} (${group.length} of them)${others.join("")}: ${KIND[clash.kind]}, ${near}. ${remedyWords(clash.remedy, unit)}`;
  });
}

/** Clashes of one kind with the same others and the same way out, in the order of the first of each. */
function clashGroups(clashes: readonly Clash[], unit: LengthUnit): readonly Clash[][] {
  const groups = new Map<string, Clash[]>();
  for (const clash of clashes) {
    const key = [clash.kind, remedyWords(clash.remedy, unit), ...clash.between.slice(1)].join("\n");
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
      const together = found
        .filter(({ between }) => between.length > 1)
        .map(({ between }) => between.join(" with "));
      return `${KIND[kind]}: ${[...(alone.length === 0 ? [] : [shortTags(alone)]), ...together].join(", ")}`;
    })
    .join("; ");
}

/** Without the names: `Boxes clash, 76 mm too near. Move …` */
export function clashReason({ kind, clear, remedy }: Clash, unit: LengthUnit): string {
  return `${KIND[kind]}, ${outwards(-clear, unit)} too near. ${remedyWords(remedy, unit)}`;
}

/** One sentence a screen can put beside the verdict; undefined where nothing clashes. */
export function clashHeadline(clashes: readonly Clash[], unit: LengthUnit): string | undefined {
  if (clashes.length === 0) return undefined;
  const more = clashes.length === 1 ? "" : ` And ${clashes.length - 1} more.`;
  return `Cannot be built as placed: ${clashWords(clashes[0], unit)}${more}`;
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

export function remedyWords(remedy: Remedy, unit: LengthUnit): string {
  switch (remedy.kind) {
    case "move apart":
      return `Move one of them by ${outwards(remedy.by, unit)} or more.`;
    case "move away":
      return `Move it by ${outwards(remedy.by, unit)} or more.`;
    case "shift row":
      return `Shift the row by ${outwards(Math.abs(remedy.by), unit)}, ${remedy.by < 0 ? "towards" : "away from"} ${remedy.from}.`;
    case "move box":
      return `No shift frees the whole row: move this one by ${outwards(Math.abs(remedy.by), unit)}, ${remedy.by < 0 ? "towards" : "away from"} ${remedy.from}, or space the row otherwise.`;
    case "lower":
      return `Hang it ${outwards(remedy.by, unit)} lower or more.`;
    case "raise":
      return `Hang it ${outwards(remedy.by, unit)} higher or more.`;
    case "exchange sides":
      return "Exchange length and width of the body: length runs along C0–C180.";
    case "enlarge body":
      return `Make the body ${outwards(remedy.length, unit)} long (along C0–C180) and ${outwards(remedy.width, unit)} wide at least.`;
  }
}

/** A length (m) rounded up to the unit's step: what is moved by the printed figure is clear. */
function outwards(metres: number, unit: LengthUnit): string {
  const step = lengthStep(unit);
  return formatLength(Math.ceil(metres / step - 1e-6) * step, unit);
}
