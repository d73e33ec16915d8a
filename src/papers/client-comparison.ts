/** Options beside one another: which is recommended and why, heights at one scale, figures, pictures. */

import { costReport } from "../advice/cost.ts";
import { seenSteps } from "../advice/illuminance-examples.ts";
import { evennessOf, isMet, ranked, shortfallPercent } from "../app/ranking.ts";
import { type SetOutBox, setOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { text } from "../drawing/drawing.ts";
import { type Block, heading, paragraph } from "../drawing/paper/flow.ts";
import { moved, type PaperMark } from "../drawing/paper/paper.ts";
import { paperRows } from "../drawing/paper/paper-text.ts";
import { column, table } from "../drawing/paper/table.ts";
import { plainElevation } from "../drawing/plain-elevation.ts";
import { elevationSpan } from "../drawing/set-out-elevation.ts";
import { sideView } from "../drawing/side-view.ts";
import { powerFigure } from "../units/power-text.ts";
import { hardlyEvener } from "../words/evenness-apart.ts";
import { evennessText } from "../words/zone-text.ts";
import { type Handover, type HandoverOption, type HandoverWords, handoverWords } from "./handover.ts";
import { priceTitle, scheduleRows } from "./schedule-sheet.ts";

/** Between figures that stand side by side (points). */
export const GAP = 14;
/** Tallest elevation (points), the first that needs no page of its own. */
export const ELEVATIONS = [150, 115, 85] as const;
/** Most options side by side. */
const ABREAST = 3;

/** What is recommended, with its reason; nothing where there is no choice. */
export function recommendation(handover: Handover): Block[] {
  const { options, chosen } = handover;
  if (options.length < 2) return [];
  const [best, second] = ranked(options);
  const index = options.indexOf(best);
  const name = (option: HandoverOption): string =>
    `${option.scene.letter}, ${printable(option.scene.name, 60)}`;
  const lines = [`Recommended: ${name(best)}, because ${reason(best, second)}.${settled(best)}`];
  if (index !== chosen) lines.push(`To be built all the same: ${name(options[chosen])}.`);
  return [paragraph(lines.join(" "), { size: 9.5, strong: true, depicts: "client sentence" })];
}

/** By the order of options everywhere: verdict first, then how far a target is missed, then what can be built, then evenness. */
function reason(best: HandoverOption, second: HandoverOption): string {
  const [own, next] = [best, second].map(({ scene, assessment }) => evennessOf(scene, assessment));
  const near = hardlyEvener(own, next, second.scene.letter);
  const evener =
    near === undefined
      ? `it is the most even (darkest over average ${evennessText(own)}, the next ${evennessText(next)})`
      : `it is ${near} (evenness: darkest over average)`;
  const verdict = best.assessment.verdict;
  const aloneBuilt =
    best.clashes.length === 0 && second.clashes.length > 0
      ? "it alone can be built as it is placed"
      : undefined;
  if (isMet(verdict))
    return isMet(second.assessment.verdict)
      ? `of those that give the light that was asked for ${aloneBuilt ?? evener}`
      : "it alone gives the light that was asked for everywhere";
  const sure = "none surely gives the light that was asked for everywhere";
  const missed = shortfallPercent;
  if (verdict !== second.assessment.verdict || missed(best) < missed(second))
    return `although ${sure}, this one comes closest${missed(best) > 0 ? ` (short by up to ${missed(best)} %, the next by up to ${missed(second)} %)` : ""}`;
  return `although ${sure}, ${aloneBuilt ?? evener}`;
}

function settled({ clashes }: HandoverOption): string {
  return clashes.length === 0
    ? ""
    : ` HOLD: ${clashes.length === 1 ? "one clash is" : `${clashes.length} clashes are`} to be settled first.`;
}

/** @param tallest elevation (points) */
export function comparison(handover: Handover, width: number, tallest: number): Block[] {
  const words = handoverWords(handover);
  return [
    heading("Heights, at one scale", 11),
    ...heights(handover, words, width, tallest),
    ...differences(handover, words),
    ...pictures(handover, width),
  ];
}

export function abreast(options: readonly HandoverOption[]): (readonly HandoverOption[])[] {
  const rows: HandoverOption[][] = [];
  options.forEach((option, i) => {
    if (i % ABREAST === 0) rows.push([]);
    rows[rows.length - 1].push(option);
  });
  return rows;
}

/** Elevations of all options at one scale, each with its height above top and floor. */
function heights(handover: Handover, words: HandoverWords, width: number, tallest: number): Block[] {
  const { options } = handover;
  const spans = options.map(({ scene }) => elevationSpan(scene, "along"));
  const columns = Math.min(ABREAST, options.length);
  const each = (width - GAP * (columns - 1)) / columns;
  const perMetre = Math.min(
    each / Math.max(...spans.map(([wide]) => wide)),
    tallest / Math.max(...spans.map(([, tall]) => tall)),
  );
  return abreast(options).map((row): Block => {
    const tall = Math.max(...row.map((option) => spans[options.indexOf(option)][1])) * perMetre;
    const captions = row.map((option) => {
      const { boxes } = setOut(option.scene, handover.unit, words.length);
      const letter = options.length > 1 ? `${option.scene.letter}  ` : "";
      const elevation = plainElevation(option.scene, boxes, perMetre);
      return { elevation, rows: paperRows(`${letter}${heightsOf(boxes, words)}`, each, 8) };
    });
    const most = Math.max(...captions.map(({ rows }) => rows.length));
    const under = tall + Math.max(...captions.map(({ elevation }) => elevation.below));
    return {
      kind: "figure",
      height: under + 6 + most * 10.5 + 8,
      draw: (x, y) =>
        row.flatMap((option, i): PaperMark[] => {
          const left = x + i * (each + GAP);
          const { from } = sideView(option.scene, "along");
          return [
            ...moved(captions[i].elevation.marks, [left - from * perMetre, y + tall]),
            ...captions[i].rows.map((words_, k) =>
              text([left, y + under + 14 + 10.5 * k], words_, "client sentence", { ink: "ink", size: 8 }),
            ),
          ];
        }),
    };
  });
}

/** `Lower edge 850 mm above the top, 1770 mm above the floor.` */
function heightsOf(boxes: readonly SetOutBox[], words: HandoverWords): string {
  const hung = boxes.flatMap(({ heights: own }) => (own === undefined ? [] : [own]));
  if (hung.length === 0) return "Nothing hangs.";
  const range = (values: readonly number[]): string => {
    const [least, greatest] = [Math.min(...values), Math.max(...values)];
    return least === greatest ? words.length(least) : `${words.length(least)} to ${words.length(greatest)}`;
  };
  const over = hung.filter(({ overTop }) => overTop);
  const floor = `${range(hung.map(({ bottom }) => bottom))} above the floor`;
  return over.length === 0
    ? `Lower edge ${floor}.`
    : `Lower edge ${range(over.map(({ gap }) => gap))} above the top, ${floor}.`;
}

/** How the options differ where the eye would see it: steps of 1.5 times; what they take. */
function differences(handover: Handover, words: HandoverWords): Block[] {
  const { options, chosen } = handover;
  if (options.length < 2) return [];
  const rows: { place: string; cell(option: HandoverOption, i: number): string }[] = [
    ...options[chosen].assessment.zones.map(({ name, statistics }) => ({
      place: printable(name, 30),
      cell: ({ assessment }: HandoverOption, i: number) => {
        const average = assessment.zones.find((zone) => zone.name === name)?.statistics.average;
        if (average === undefined) return "–";
        const light = words.lux(average);
        return i === chosen ? light : `${light}, ${seen(statistics.average, average)}`;
      },
    })),
    {
      place: "evenness of the top",
      cell: ({ scene, assessment }) => evennessText(evennessOf(scene, assessment)),
    },
    {
      place: "power",
      cell: ({ assessment: { energy } }) => `${powerFigure(energy.watts, energy.unknownWatts, "at least")} W`,
    },
    {
      place: priceTitle("luminaires, price", currencyOf(handover)),
      cell: (_, i) => price(handover, i),
    },
  ];
  return [
    heading(`Compared with ${options[chosen].scene.letter}, as an eye would see it`, 11),
    table(
      rows,
      [
        column("place", 1, ({ place }) => place),
        ...options.map((option, i) =>
          column<(typeof rows)[number]>(
            `${option.scene.letter}  ${printable(option.scene.name, 60)}`,
            1.6,
            ({ cell }) => cell(option, i),
          ),
        ),
      ],
      { size: 8, depicts: "client row" },
    ),
  ];
}

function seen(from: number, to: number): string {
  const steps = seenSteps(from, to);
  if (Math.abs(steps) < 0.5) return "about the same";
  return `${Math.abs(steps) < 1.5 ? "plainly" : "much"} ${steps > 0 ? "brighter" : "darker"}`;
}

/** The currency of the prices, or that there are prices without one. */
function currencyOf(handover: Handover): string | undefined {
  const { options } = handover;
  const isPriced = options.some((_, i) => price(handover, i) !== NO_PRICE);
  return costReport(options[0].scene).currency ?? (isPriced ? "currency not stated" : undefined);
}

const NO_PRICE = "not stated";

/** What the study's own prices add up to. */
function price({ options }: Handover, chosen: number): string {
  const rows = scheduleRows({ options, chosen });
  const priced = rows.filter(({ luminaire }) => luminaire.price !== undefined);
  if (priced.length === 0) return NO_PRICE;
  const sum = priced.reduce((total, { luminaire, count }) => total + count * (luminaire.price ?? 0), 0);
  return `${priced.length < rows.length ? "at least " : ""}${Number(sum.toFixed(2))}`;
}

/** The room in the light of each option that has a picture, side by side. */
function pictures({ options }: Handover, width: number): Block[] {
  const pictured = options.filter(({ picture }) => picture !== undefined);
  const earlier = options.filter(({ isPictureEarlier = false }) => isPictureEarlier);
  const missing = earlier.map(({ scene }) =>
    paragraph(
      `${scene.letter}  ${printable(scene.name, 40)}: its picture was made before the last change and is left out. Look at Room once more, then make this sheet anew.`,
      { size: 8 },
    ),
  );
  if (pictured.length === 0)
    return missing.length === 0 ? [] : [heading("The room in this light", 11), ...missing];
  const columns = Math.min(ABREAST, pictured.length);
  const each = (width - GAP * (columns - 1)) / columns;
  return [
    heading("The room in this light", 11),
    ...abreast(pictured).map((row): Block => {
      const tall = Math.max(
        ...row.map(({ picture }) => (picture === undefined ? 0 : (each * picture.height) / picture.width)),
      );
      return {
        kind: "figure",
        height: tall + 18,
        draw: (x, y) =>
          row.flatMap(({ picture, scene }, i): PaperMark[] => {
            if (picture === undefined) return [];
            const left = x + i * (each + GAP);
            return [
              {
                kind: "picture",
                at: [left, y],
                width: each,
                height: (each * picture.height) / picture.width,
                picture,
                depicts: "room picture",
              },
              text(
                [left, y + tall + 11],
                `${scene.letter}  ${printable(scene.name, 40)}`,
                "client sentence",
                {
                  ink: "ink",
                  size: 8,
                },
              ),
            ];
          }),
      };
    }),
    ...missing,
    paragraph(
      "Pictures show the computed light at one exposure for all options; a screen or a print is never as bright as the room.",
      { size: 8 },
    ),
  ];
}
