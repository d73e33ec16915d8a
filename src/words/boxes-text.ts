/** What `boxes` says: positions good for every pendant of the shortlist, how far each box may be off, the ceiling as built. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { BoxesFindings } from "../app/boxes.ts";
import { canopyCover } from "../app/set-out/drop.ts";
import type { AsBuilt } from "../design/boxes/as-built.ts";
import type { HeightMargin, ToleranceRing } from "../design/boxes/tolerance-ring.ts";
import { offsetOf, stationOf } from "../design/search/candidate.ts";
import { grainOf } from "../design/search/search-space.ts";
import { printable } from "../diagnostics/printable.ts";
import { VERSION } from "../diagnostics/version.ts";
import { boxWidth } from "../scene/box-places.ts";
import { boxTags, shortTags } from "../scene/ceiling-boxes.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { formatIlluminance } from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import { ratioUnder } from "../units/ratio-text.ts";
import { verdictWords, zoneSentence } from "./arrangement-sentences.ts";
import { checkedJson, zoneChecks } from "./checked-json.ts";
import { clashesJson, clashSentences } from "./clash-list.ts";
import { CLASH_KIND } from "./clash-words.ts";
import { table, textLines } from "./table.ts";
import { evennessText, verdictMark } from "./zone-text.ts";

export interface BoxesTextInput extends BoxesFindings {
  readonly study: Pick<ResolvedStudy, "title" | "display">;
}

export function boxesText(input: BoxesTextInput): string {
  const { study, kinds, error, evenness, sets, checked, step, island } = input;
  const say = (metres: number) => formatLength(metres, study.display.length);
  const robust = sets.filter((each) => each.robust).length;
  const names = kinds.map(({ luminaire }) => printable(luminaire.name, 30)).join(", ");
  const lines = [
    printable(study.title),
    "",
    ...textLines(
      `${sets.length} ${sets.length === 1 ? "set" : "sets"} of box positions tried with ${names}, each box up to ${say(error)} off: ${robust} of them promise to meet every target with any of the pendants${evenness > 0 ? `, with an evenness of at least ${evenness} over the whole top (--evenness)` : ""}.`,
    ),
    ...(checked.length > 0 && checked.every(({ assessment }) => assessment.verdict === "no target")
      ? textLines("Nothing is asked of this study's light: no zone has a target, so nothing can fall short.")
      : []),
  ];
  const shown = sets.slice(0, 4);
  if (shown.length > 0) {
    lines.push(
      "",
      ...table(
        [
          ["boxes", "from the left end", "centre to centre", "off the centreline", "evenness at worst", ""],
          ...shown.map(({ boxes, worstUniformity, robust: good, kinds: each }) => [
            String(boxes.count),
            say(island.length / 2 + stationOf(boxes, 0) * step + (boxes.shift?.[0] ?? 0)),
            boxes.count === 1 ? "–" : say(boxes.pitch * step),
            say(offsetOf(boxes, step)[1]),
            evennessText(worstUniformity),
            good
              ? "good for all"
              : `${each.some(({ shortage, uniformity }) => shortage === 0 && uniformity >= evenness) ? "not for all" : "for none"}${worstUniformity < evenness ? ": patchy" : ""}`,
          ]),
        ],
        2,
        [5],
      ),
    );
  }
  if (checked.length > 0) {
    lines.push("", "The first of them, checked in full with each pendant, every box in its place");
    checked.forEach(({ assessment, uniformity, average, document, clashes }) => {
      const { verdict, zones } = assessment;
      const height = document.layers[input.layer]?.row?.clearance;
      lines.push(
        ...textLines(
          `${uniformity < evenness && verdict === "meets" ? "!" : verdictMark(verdict, clashes)} ${printable(document.name, 60)}${height === undefined ? "" : `, ${say(height)} above the top`}: ${formatIlluminance(average, study.display.illuminance)}, evenness ${uniformity < evenness ? `${ratioUnder(uniformity, evenness)} of the ${evenness} asked (--evenness)` : evennessText(uniformity)}, ${verdict}.`,
          2,
        ),
        ...clashSentences(clashes, study.display.length).flatMap((clash) => textLines(`HOLD ${clash}`, 4)),
        ...zones
          .filter((zone) => zone.verdict !== "meets" && zone.verdict !== "no target")
          .flatMap((zone) => textLines(printable(zoneSentence(zone, study.display.illuminance), 300), 4)),
      );
    });
  }
  lines.push("", `How far a box may be off: ${printable(input.scene.name, 60)}`);
  lines.push(...input.rings.flatMap((ring) => textLines(ringSentence(ring, input), 2)));
  lines.push(
    "",
    ...textLines(
      "Boxes, their support and their wiring are for licensed people and local codes; finished faces, not studs, are measured from.",
    ),
  );
  return `${lines.join("\n").trimEnd()}\n`;
}

/** `P2 may be up to 140 mm off; beyond, towards the room's +x, the verdict falls short. It may hang 60 mm lower and 200 mm higher or more. Its canopy hides 9 mm.` */
export function ringSentence(
  { index, radius, beyond, obstacle, planned, lower, higher }: ToleranceRing,
  { study, scene, layer }: Pick<BoxesTextInput, "study" | "scene" | "layer">,
): string {
  const unit = study.display.length;
  const say = (metres: number) => formatLength(metres, unit);
  // What is promised is rounded to what it holds.
  const within = (metres: number) => say(Math.floor(metres / grainOf(unit) + 1e-6) * grainOf(unit));
  const cover = canopyCover(scene.layers[layer].luminaires[index].luminaire, boxWidth(scene.room));
  const hidden =
    cover === undefined
      ? "Its canopy is not known."
      : cover > 0
        ? `Its canopy hides a box up to ${within(cover)} off.`
        : `Its canopy does not cover a ${say(boxWidth(scene.room))} box.`;
  const met = ({ between, kind }: Clash): string =>
    `${shortTags(between.map((name) => printable(name, 40)))}: ${CLASH_KIND[kind]}`;
  const tag = tagsOf(scene, layer)(index);
  if (planned !== undefined) return `${tag} is on HOLD and is to be moved first (${met(planned)}). ${hidden}`;
  const free =
    obstacle !== undefined && obstacle.distance < radius
      ? `${obstacle.distance < 0.001 ? "must be in its place" : `may be up to ${within(obstacle.distance)} off`}; beyond, ${met(obstacle.clash)}`
      : beyond === undefined
        ? `may be ${within(radius)} off or more with the same verdict`
        : radius < 0.001
          ? `must be in its place: any way off, the verdict is ${beyond.verdict}`
          : `may be up to ${within(radius)} off; beyond, the verdict is ${beyond.verdict}`;
  const height = (way: string, { distance, beyond: then }: HeightMargin): string => {
    const far = then === undefined ? `${within(distance)} ${way} or more` : `${within(distance)} ${way}`;
    return then === undefined || then === beyond?.verdict ? far : `${far} (beyond, ${then})`;
  };
  return `${tag} ${free}. It may hang ${height("lower", lower)} and ${height("higher", higher)}. ${hidden}`;
}

/** Tags of a layer's pendants, as every paper names them. */
const tagsOf =
  (scene: Scene, layer: number) =>
  (index: number): string =>
    boxTags(scene)([layer, index]);

export function asBuiltText(
  study: Pick<ResolvedStudy, "title" | "display">,
  { planned, built, clashes, overhangs, worse, remedies, scene, layer }: AsBuilt,
): string {
  const unit = study.display.illuminance;
  const lines = [
    `${printable(study.title)}: ${printable(scene.name, 60)}, as built`,
    "",
    `Planned: ${verdictWords(planned, clashes.planned)}. As built: ${verdictWords(built, clashes.built)}.`,
    ...built.zones.flatMap((zone) => textLines(printable(zoneSentence(zone, unit), 300), 2)),
    "",
  ];
  const tag = tagsOf(scene, layer);
  const { length } = study.display;
  for (const clash of clashSentences(clashes.added, length)) lines.push(...textLines(`HOLD ${clash}`, 2));
  for (const { index, by } of overhangs)
    lines.push(
      ...textLines(`${tag(index)} reaches ${formatLength(by, length)} beyond the edge of the top.`, 2),
    );
  const kept = clashes.built.length - clashes.added.length;
  if (kept > 0)
    lines.push(
      ...textLines(
        `${kept} ${kept === 1 ? "clash is" : "clashes are"} the plan's own: \`check\` names ${kept === 1 ? "it" : "them"}.`,
        2,
      ),
    );
  const remedy = remedies.find(({ restores }) => restores);
  if (!worse)
    lines.push(
      clashes.added.length > 0 || overhangs.length > 0
        ? "The verdict on the light stands; what is named above is to be put right."
        : "Nothing the boxes' places have made worse.",
    );
  else if (remedy === undefined) lines.push("None of what was tried gives back the planned verdict:");
  else lines.push(...textLines(`The cheapest that gives it back: ${remedy.words}`));
  for (const { words, assessment, restores } of remedies)
    if (!restores) lines.push(...textLines(`Not enough: ${words} (${assessment.verdict})`, 2));
  return `${lines.join("\n").trimEnd()}\n`;
}

export function boxesJson(input: BoxesTextInput) {
  const { study, island, kinds, step, error, evenness, sets, checked, rings, scene, layer } = input;
  return {
    candlespan: VERSION,
    study: study.title,
    error,
    evenness,
    shortlist: kinds.map(({ luminaire }) => luminaire.name),
    sets: sets.slice(0, 20).map(({ boxes, robust, worstShortage, worstUniformity, kinds: own }) => ({
      along: Array.from(
        { length: boxes.count },
        (_, i) => island.length / 2 + stationOf(boxes, i) * step + (boxes.shift?.[0] ?? 0),
      ),
      across: island.width / 2 + offsetOf(boxes, step)[1],
      robust,
      worstShortage,
      worstUniformity,
      kinds: own.map(({ kind, ...figures }) => ({ luminaire: kinds[kind].luminaire.name, ...figures })),
    })),
    checked: checked.map((each) => ({
      name: each.document.name,
      ...checkedJson(each, study.display.length),
      arrangement: each.document,
    })),
    rings: rings.map((ring) => {
      const cover = canopyCover(scene.layers[layer].luminaires[ring.index].luminaire, boxWidth(scene.room));
      const { obstacle, planned, ...light } = ring;
      const free = obstacle === undefined ? {} : { clear: obstacle.distance };
      return {
        ...light,
        ...free,
        ...(planned === undefined ? {} : { planned: clashesJson([planned], study.display.length)[0] }),
        ...(cover === undefined ? {} : { canopyCover: cover }),
      };
    }),
  };
}

/** What `boxes --as-built --json` prints. */
export function asBuiltJson(
  { title, display }: Pick<ResolvedStudy, "title" | "display">,
  { planned, built, clashes, remedies }: AsBuilt,
) {
  return {
    candlespan: VERSION,
    study: title,
    planned: planned.verdict,
    built: built.verdict,
    clashes: clashesJson(clashes.built, display.length),
    zones: zoneChecks(built),
    remedies: remedies.map(({ words, restores, assessment }) => ({
      words,
      restores,
      verdict: assessment.verdict,
    })),
  };
}
