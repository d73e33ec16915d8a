/** What cannot hang or be built as it is placed, and the way out, in a sentence. */

import type { Clash, ClashKind, Remedy } from "../advice/clashes/clash.ts";
import { printable } from "../diagnostics/printable.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import { formatLength, type LengthUnit, lengthStep } from "../units/length-text.ts";

export const CLASH_KIND: Readonly<Record<ClashKind, string>> = {
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

/** `P1, R6: boxes clash, 76 mm too near. Move one of them by 77 mm or more.` */
export function clashWords(clash: Clash, unit: LengthUnit): string {
  const names = clash.between.map((name) => printable(name, 40));
  return `${clash.kind === "opening" ? shortTags(names) : names.join(", ")}: ${clashReason(clash, unit)}`;
}

/** Without the names: `Boxes clash, 76 mm too near. Move …` */
export function clashReason(clash: Clash, unit: LengthUnit): string {
  const { kind, clear } = clash;
  return `${CLASH_KIND[kind]}, ${overlapWords(kind, outwards(-clear, unit))}. ${wayOut(clash, unit)}`;
}

/** How far two are in one another's way; an opening sticks out of its own body. */
export function overlapWords(kind: ClashKind, by: string): string {
  return kind === "opening" ? `by ${by}` : `${by} too near`;
}

/** The remedy; of a single box in the way of what stays, without its name, so that boxes that share it are told once. */
export function wayOut({ kind, between, remedy }: Clash, unit: LengthUnit): string {
  const isAlone =
    remedy.kind === "shift together" && remedy.boxes.length === 1 && remedy.boxes[0] === between[0];
  return isAlone && (kind === "box and body" || kind === "keep-out")
    ? `Shift by ${joistShift(remedy, unit)}.`
    : remedyWords(remedy, unit);
}

/** One sentence a screen can put beside the verdict; undefined where nothing clashes. */
export function clashHeadline(clashes: readonly Clash[], unit: LengthUnit): string | undefined {
  if (clashes.length === 0) return undefined;
  const more = clashes.length === 1 ? "" : ` And ${clashes.length - 1} more.`;
  return `Cannot be built as placed: ${clashWords(clashes[0], unit)}${more}`;
}

const COUNT = ["none", "one", "two", "three", "four", "five"];

export function remedyWords(remedy: Remedy, unit: LengthUnit): string {
  switch (remedy.kind) {
    case "space row": {
      const space = `Space the row ${outwards(remedy.pitch, unit)} or more from middle to middle`;
      return remedy.fit === undefined
        ? `${space}.`
        : `${space}: ${COUNT[remedy.fit] ?? remedy.fit} ${remedy.fit === 1 ? "fits" : "fit"} along the top.`;
    }
    case "move apart":
      return `Move one of them by ${outwards(remedy.by, unit)} or more.`;
    case "move away":
      return `Move it by ${outwards(remedy.by, unit)} or more.`;
    case "shift together":
      return `Shift ${allOf(remedy.boxes)} by ${joistShift(remedy, unit)}.`;
    case "move box":
      return remedy.boxes.length === 1
        ? `Move it by ${joistShift(remedy, unit)}.`
        : `No common shift frees ${allOf(remedy.boxes)}: move each that is on a joist by ${joistShift(remedy, unit)}, or space them otherwise.`;
    case "lower":
      return `Hang it ${outwards(remedy.by, unit)} lower or more.`;
    case "raise":
      return `Hang it ${outwards(remedy.by, unit)} higher or more.`;
    case "exchange sides":
      return "Exchange its long and short side: the opening is longer the other way.";
    case "enlarge body":
      return `Make the body ${outwards(Math.max(remedy.length, remedy.width), unit)} by ${outwards(Math.min(remedy.length, remedy.width), unit)} at least, its long side along that of the opening.`;
  }
}

/** `all of P1 to P3`; `P1`. */
function allOf(tags: readonly string[]): string {
  const short = shortTags(tags.map((tag) => printable(tag, 40)));
  return tags.length === 1 ? short : `all of ${short}`;
}

function joistShift({ by, from }: { readonly by: number; readonly from: string }, unit: LengthUnit): string {
  return `${outwards(Math.abs(by), unit)}, ${by < 0 ? "towards" : "away from"} ${from}`;
}

/** A length (m) rounded up to the unit's step: what is moved by the printed figure is clear. */
export function outwards(metres: number, unit: LengthUnit): string {
  const step = lengthStep(unit);
  return formatLength(Math.ceil(metres / step - 1e-6) * step, unit);
}
