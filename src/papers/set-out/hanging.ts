/** What each type of pendant hangs on, and what to bring. */

import { canopyCover, cordLength, rodSet } from "../../app/set-out/drop.ts";
import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, bullet, SMALL } from "../../drawing/paper/flow.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import { KILOGRAMS_PER_POUND, METRES_PER_INCH } from "../../units/quantities.ts";
import type { HandoverWords } from "../handover.ts";

/** How each type hangs: rod or cord and what to bring, canopy, weight. */
export function hanging(pendants: readonly SetOutBox[], words: HandoverWords): Block[] {
  return byType(pendants).map(([type, boxes]) =>
    bullet(`${type} (${shortTags(boxes.map((box) => box.tag))}): ${hangingWords(boxes, words)}`, SMALL + 0.5),
  );
}

/** `B "spot", C "strip"`: types of what does not hang, of which nothing else is to be brought. */
export function typeNames(boxes: readonly SetOutBox[]): string {
  return byType(boxes)
    .map(([type, [{ luminaire }]]) => `${type} "${printable(luminaire.name, 30)}"`)
    .join(", ");
}

function byType(boxes: readonly SetOutBox[]): readonly [type: string, boxes: readonly SetOutBox[]][] {
  const types = new Map<string, SetOutBox[]>();
  for (const box of boxes) types.set(box.type, [...(types.get(box.type) ?? []), box]);
  return [...types];
}

function hangingWords(boxes: readonly SetOutBox[], words: HandoverWords): string {
  const { luminaire, width } = boxes[0];
  const drops = boxes.map((box) => (box.heights as NonNullable<SetOutBox["heights"]>).drop);
  const same = Math.max(...drops) - Math.min(...drops) < 1e-9;
  const each = (value: (drop: number) => string): string =>
    same ? value(drops[0]) : boxes.map((box, i) => `${box.tag} ${value(drops[i])}`).join(", ");
  const parts: string[] = [`"${printable(luminaire.name, 30)}"`];
  switch (luminaire.suspension) {
    case "rod":
      parts.push(`on a rod: ${each((drop) => rodWords(drop, words))}`);
      break;
    case undefined:
      parts.push("rod or cord not stated");
      break;
    default:
      parts.push(
        `on a ${luminaire.suspension}: cut ${each((drop) => words.length(cordLength(drop, words.unit)))} or longer`,
      );
  }
  parts.push(canopyWords(luminaire, width, words), `weight ${weightText(luminaire, words.unit)}`);
  return `${parts.join("; ")}.`;
}

function rodWords(drop: number, words: HandoverWords): string {
  const { pieces, rest, exact } = rodSet(drop);
  if (pieces.length === 0) return `${words.length(drop)}, shorter than any usual piece`;
  const [unit, size] = words.unit === "ft-in" ? ["in", METRES_PER_INCH] : ["mm", 0.001];
  const printed = pieces.map((piece) => Math.round(piece / size));
  const lengths = `${printed.join(" + ")} ${unit}`;
  // The drop as it is printed less the pieces as they are: what is left must add up on paper.
  const left = words.unit === "ft-in" ? rest : Math.round(drop / size) * size - sum(printed) * size;
  return exact
    ? `${lengths} pieces reach it`
    : `${lengths} pieces leave ${words.length(left)}: an adjustable end or a cut piece`;
}

const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);

function canopyWords(luminaire: Luminaire, box: number, words: HandoverWords): string {
  const { canopy } = luminaire;
  const cover = canopyCover(luminaire, box);
  if (canopy === undefined || cover === undefined) return "canopy not stated";
  const size = `canopy ${words.length(canopy.diameter)}`;
  return cover < 0
    ? `${size}, smaller than a ${words.length(box)} box`
    : `${size}, hides a ${words.length(box)} box up to ${words.length(cover)} off`;
}

/** `0.4 kg (0.9 lb)` */
export function weightText({ weight }: Luminaire, unit: HandoverWords["unit"]): string {
  if (weight === undefined) return "not stated";
  const pounds = `${(weight / KILOGRAMS_PER_POUND).toFixed(1)} lb`;
  return unit === "ft-in" ? `${pounds} (${weight} kg)` : `${weight} kg (${pounds})`;
}
