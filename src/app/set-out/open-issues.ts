/**
 * What must not be built before somebody has said more: facts nobody gave, what clashes, luminaires heavier
 * than a box carries. Each flag names the boxes it holds.
 */

import { BOX_WIDTH } from "../../advice/clashes/ceiling-clashes.ts";
import type { Clash } from "../../advice/clashes/clash.ts";
import { BOX_LIMIT } from "../../advice/load.ts";
import { printable } from "../../diagnostics/printable.ts";
import { unsettledFluxWords } from "../../luminaire/unsettled-flux.ts";
import { implausibleWords } from "../../photometry/implausible.ts";
import type { DefaultUsed } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import type { SetOut, SetOutBox } from "./set-out.ts";
import { canopyCover } from "./suspension.ts";

export interface Hold {
  /** Tags of the boxes held; empty when it concerns all. */
  readonly tags: readonly string[];
  readonly words: string;
}

/** How lengths and clashes are written. */
export interface HoldWords {
  length(metres: number): string;
  /** Reason and way out, without the names. */
  clash(clash: Clash): string;
}

export function holds(
  { scene, clashes }: { readonly scene: Scene; readonly clashes: readonly Clash[] },
  { boxes }: SetOut,
  defaults: readonly DefaultUsed[],
  { length, clash: clashWords }: HoldWords,
): Hold[] {
  const pendants = boxes.filter((box) => box.kind === "pendant");
  const found: Hold[] = [];
  const hold = (boxes: readonly SetOutBox[], words: string): void => {
    if (boxes.length > 0) found.push({ tags: boxes.map((box) => box.tag), words });
  };
  const assumed = (path: string): boolean => defaults.some((each) => each.path === path);
  if (assumed("/island/centre"))
    hold(pendants, "The island's place was not given; the middle of the room stands in for it.");
  if (assumed("/island/height"))
    hold(pendants, "The height of the island's top was not given; a usual one stands in for it.");
  hold(
    pendants.filter((box) => assumed(`/luminaires/${box.luminaire.name}/body/height`)),
    "Height of the luminaire's body not given: the drop rests on a typical one.",
  );
  hold(
    pendants.filter(
      (box) => box.luminaire.body === undefined && box.luminaire.emission.opening.shape === "point",
    ),
    "The luminaire has no size: the drop is measured to its photometric centre.",
  );
  for (const { tag, luminaire } of boxes)
    if (luminaire.unsettledFlux !== undefined)
      found.push({
        tags: [tag],
        words: `"${printable(luminaire.name, 40)}": ${unsettledFluxWords(luminaire.unsettledFlux)}`,
      });
  for (const { tag, luminaire } of boxes)
    for (const value of luminaire.implausible ?? []) {
      const { message, received } = implausibleWords(value);
      found.push({ tags: [tag], words: `"${printable(luminaire.name, 40)}", ${received}: ${message}` });
    }
  for (const clash of clashes) {
    const tags = clash.between.filter((name) => boxes.some(({ tag }) => tag === name));
    const others = clash.between.filter((name) => !tags.includes(name));
    // Two boxes in one another's way are named as a pair: several pairs may share the words.
    const pair = tags.length > 1 ? `${tags.join(" with ")}: ` : "";
    const against = others.length === 0 ? "" : ` (${others.map((name) => printable(name, 40)).join(", ")})`;
    const reason = clashWords(clash);
    found.push({ tags, words: `${pair}${reason.charAt(0).toUpperCase()}${reason.slice(1)}${against}` });
  }
  hold(
    pendants.filter((box) => (box.luminaire.weight ?? 0) > BOX_LIMIT),
    `Heavier than 22.7 kg (50 lb): needs a support of its own, not the box alone.`,
  );
  hold(
    pendants.filter(
      (box) => box.luminaire.canopy !== undefined && canopyCover(box.luminaire.canopy.diameter) < 0,
    ),
    `The canopy is smaller than a ${length(BOX_WIDTH)} box: a smaller box or a wider canopy.`,
  );
  const unstated: [string, (box: SetOutBox) => boolean][] = [
    ["weight", ({ luminaire }) => luminaire.weight === undefined],
    ["canopy", ({ luminaire }) => luminaire.canopy === undefined],
    ["rod or cord", ({ luminaire }) => luminaire.suspension === undefined],
  ];
  const missing = new Map<string, string[]>();
  for (const box of boxes) {
    // What sits in the ceiling hangs on nothing.
    const asked = box.kind === "pendant" ? unstated : unstated.slice(0, 1);
    const words = asked.filter(([, isMissing]) => isMissing(box)).map(([what]) => what);
    if (words.length === 0) continue;
    const key = words.join(", ");
    missing.set(key, [...(missing.get(key) ?? []), box.tag]);
  }
  for (const [what, tags] of missing)
    found.push({ tags, words: `Not stated: ${what}. Confirm before rough-in.` });
  const dark = boxes.filter((box) => box.luminaire.watts === undefined);
  if (dark.length > 0)
    found.push({
      tags: dark.map((box) => box.tag),
      words: "Power not stated: the load of the circuit is a least one.",
    });
  const unwired = scene.layers.filter((layer) => layer.circuit === undefined && layer.luminaires.length > 0);
  if (unwired.length > 0)
    found.push({
      tags: [],
      words: `No circuit named for ${unwired.map((layer) => printable(layer.name, 30)).join(", ")}.`,
    });
  const undimmed = scene.layers.filter(
    (layer) => layer.dimmer === undefined && layer.switches === undefined && layer.luminaires.length > 0,
  );
  if (undimmed.length > 0)
    found.push({
      tags: [],
      words: `No dimmer or switch stated for ${undimmed.map((layer) => printable(layer.name, 30)).join(", ")}.`,
    });
  return grouped(found);
}

/** What several boxes share is said once. */
function grouped(found: readonly Hold[]): Hold[] {
  const byWords = new Map<string, Set<string>>();
  for (const { tags, words } of found) {
    const issue = byWords.get(words);
    if (issue === undefined) byWords.set(words, new Set(tags));
    else for (const tag of tags) issue.add(tag);
  }
  return [...byWords].map(([words, tags]) => ({ tags: [...tags], words }));
}
