/** What there is to say beside the verdict, as text: in a few lines, or in full. */

import type { Findings } from "../../assessment/findings.ts";
import type { GuidelineCard } from "../../assessment/guideline-card.ts";
import { cardSummary } from "../../assessment/guidelines/cards.ts";
import type { PendantRow } from "../../assessment/pendant-row.ts";
import { CEILING_LEAST, WALLS_LEAST } from "../../assessment/surround.ts";
import { printable } from "../../diagnostics/printable.ts";
import { formatIlluminance, formatIlluminanceValue } from "../../units/illuminance-text.ts";
import { formatLength } from "../../units/length-text.ts";
import { personSentences, sharedConcerns, type Units } from "./person-words.ts";
import { table, wrapped } from "./table.ts";

const WIDTH = 96;
/** Long names of studies stay readable. */
const LONGEST = 500;

/** At most a line each on eyes and heads, rules, and what needs looking after. */
export function findingsBrief({ people, cards, load, row }: Findings, units: Units): string[] {
  const lines: string[] = [];
  const say = (words: string) => lines.push(...wrapped(printable(words, LONGEST), WIDTH, 2, 2));
  const concerns = sharedConcerns(people, units);
  for (const { people: names, words } of concerns) say(`For ${list(names)}: ${words}.`);
  if (concerns.length === 0 && people.length > 0)
    say(
      `For ${list(people.map(({ person }) => person))}: head clear, faces in view, nothing bright near the line of sight.`,
    );
  const { apply, agree } = cardSummary(cards);
  const heights = row === undefined ? "" : `${heightsWords(row, units)} `;
  if (apply > 0) say(`${heights}Rules of thumb: ${agree} of ${apply} agree.`);
  for (const remark of load.remarks) say(remark);
  return lines;
}

/** `Rims 850 mm above the top, 1770 mm above the floor.` */
function heightsWords({ count, clearance, aboveFloor }: PendantRow, units: Units): string {
  const say = (metres: number) => formatLength(metres, units.length);
  return `${count === 1 ? "Rim" : "Rims"} ${say(clearance)} above the top, ${say(aboveFloor)} above the floor.`;
}

/** The row in numbers. */
function rowWords(row: PendantRow, units: Units): string {
  const say = (metres: number) => formatLength(metres, units.length);
  const { count, rim, pitch, gap, end } = row;
  const apart =
    pitch === undefined || gap === undefined
      ? ""
      : `, ${say(pitch)} centre to centre, ${say(gap)} free between rims`;
  return `${count} ${count === 1 ? "pendant" : "pendants"} ${say(rim)} wide${apart}, ${say(end)} free at the ends. ${heightsWords(row, units)}`;
}

/** What the rules of thumb quarrel about among themselves, over all arrangements; undefined when they do not. */
export function quarrelsWords(all: readonly Findings[]): string | undefined {
  const subjects = [...new Set(all.flatMap(({ cards }) => cardSummary(cards).quarrels))];
  return subjects.length === 0
    ? undefined
    : `Rules of thumb contradict one another here on ${list(subjects)}; --full shows each with the light it would give.`;
}

/** Everything, by heading. */
export function findingsFull(findings: Findings, units: Units): string[] {
  const lines: string[] = [];
  const say = (words: string, indent = 4) =>
    lines.push(...wrapped(printable(words, LONGEST), WIDTH, indent, 2));
  if (findings.row !== undefined) say(rowWords(findings.row, units), 2);
  lines.push(...around(findings, units));
  for (const found of findings.people) {
    lines.push(`  ${printable(found.person, 40)}, ${found.posture}`);
    for (const sentence of personSentences(found, units)) say(sentence);
  }
  const { age } = findings;
  if (age !== undefined && age.zones.length > 0)
    say(
      `At ${age.age}, ${age.person} is in the band ${age.band.words}, asked ×${age.band.factor} (IES, from memory): ${age.zones
        .map(({ zone, asked, found, reached }) => {
          const light = (lux: number) => formatIlluminance(lux, units.illuminance);
          return `${zone} ${light(asked)}, ${reached ? "reached" : `has ${light(found)}`}`;
        })
        .join(
          "; ",
        )}.${age.band.glareStep > 0 ? " Glare limits go one step lower (our own, no source)." : ""}`,
      2,
    );
  lines.push(...look(findings));
  lines.push(...rules(findings.cards, units));
  lines.push(...sizes(findings, units));
  lines.push(...load(findings, units));
  return lines;
}

/** Walls, ceiling and what lies beside a task. */
function around({ surround: { walls, ceiling, dim } }: Findings, units: Units): string[] {
  const light = (lux: number) => formatIlluminance(lux, units.illuminance);
  const words: string[] = [];
  if (walls !== undefined && ceiling !== undefined)
    words.push(
      `Around: walls ${light(walls)} (more than ${light(WALLS_LEAST)} is asked), ceiling ${light(ceiling)} (more than ${light(CEILING_LEAST)}; EN 12464-1:2011, written for work places).`,
    );
  for (const { zone, beside, asked, found } of dim)
    words.push(
      `${zone} has ${light(found)} beside ${beside}, whose surround would be asked ${light(asked)} (EN 12464-1, from memory).`,
    );
  return words.flatMap((each) => wrapped(printable(each, LONGEST), WIDTH, 2, 2));
}

function look({ view, cohesion }: Findings): string[] {
  const lines: string[] = [];
  if (view !== undefined)
    lines.push(
      ...wrapped(
        `Look (our own construction, no source): for ${view.viewpoint.name}, the pendants take ${(100 * view.covered).toFixed(1)} % of the view between counter and ceiling, ${(100 * view.weight).toFixed(1)} % weighed by opacity: ${view.words}.`,
        WIDTH,
        2,
        2,
      ),
    );
  if (cohesion !== undefined) {
    const sentence = cohesion.sentence.charAt(0).toUpperCase() + cohesion.sentence.slice(1);
    lines.push(...wrapped(printable(sentence, LONGEST), WIDTH, 4, 2));
  }
  return lines;
}

const MARK: Readonly<Record<GuidelineCard["outcome"], string>> = {
  within: "✓",
  below: "↓",
  above: "↑",
  "does not apply": "–",
};

/** Each rule that applies: mark, sentence, what it finds and asks, the light that would give, who says so. */
function rules(cards: readonly GuidelineCard[], units: Units): string[] {
  const applying = cards.filter(({ outcome }) => outcome !== "does not apply");
  if (applying.length === 0) return [];
  const lines = [
    ...wrapped(
      "Rules of thumb (✓ agrees, ↓ below, ↑ above what it allows). They inform; no verdict rests on them. Light on the whole top if followed, by superposition of what was calculated.",
      WIDTH,
      2,
      2,
    ),
  ];
  for (const card of applying) {
    const { average, uniformity } = card.light ?? {};
    const light =
      average === undefined || uniformity === undefined
        ? ""
        : ` ${formatIlluminance(average, units.illuminance)}, U₀ ${uniformity.toFixed(2)}.`;
    const asks = card.outcome === "within" ? "" : ` Here ${foundWords(card, units)}. ${card.asks}`;
    const against =
      card.contradicts.length === 0 ? "" : ` Contradicts ${card.contradicts.length} of the others.`;
    lines.push(
      ...wrapped(
        `${MARK[card.outcome]} ${card.rule}${asks}${light}${against} [${sourceOf(card)}]`,
        WIDTH,
        4,
        2,
      ),
    );
  }
  return lines;
}

function foundWords({ measure: { kind, found = 0 } }: GuidelineCard, units: Units): string {
  return kind === "length"
    ? formatLength(found, units.length)
    : kind === "count"
      ? `${found}`
      : found.toFixed(2);
}

function sourceOf({ known, source }: GuidelineCard): string {
  return known === "published" ? `published: ${source}` : source;
}

/** Widths beside counts, gap over light. */
function sizes({ sizes: all }: Findings, units: Units): string[] {
  if (all === undefined) return [];
  const cell = (count: number, width: number): string => {
    const found = all.cells.find((each) => each.count === count && each.width === width);
    if (found === undefined) return "–";
    const light = formatIlluminanceValue(found.average, units.illuminance);
    return `${found.asDrawn ? "*" : ""}${light} / ${found.uniformity.toFixed(2)} / ${found.agree}`;
  };
  const gap = (count: number, width: number): string => {
    const found = all.cells.find((each) => each.count === count && each.width === width);
    return found?.gap === undefined ? "–" : formatLength(found.gap, units.length);
  };
  const rows = [
    ["wide", ...all.counts.map((count) => `${count}`)],
    ...all.widths.flatMap((width) => [
      [formatLength(width, units.length), ...all.counts.map((count) => cell(count, width))],
      ["  gap", ...all.counts.map((count) => gap(count, width))],
    ]),
  ];
  return [
    ...wrapped(
      `Number and size in equal bays at this height: average ${units.illuminance} / U₀ / rules that agree, * as drawn. Ends are half a gap; the same light is taken to leave every size.`,
      WIDTH,
      2,
      2,
    ),
    ...table(rows, 4),
  ];
}

function load({ load: report, ageing }: Findings, units: Units): string[] {
  const { layers, circuits, kilowattHoursPerYear, weightUnknown, remarks } = report;
  const watts = (value: number) => `${Number(value.toPrecision(3))} W`;
  const rows = layers.map((layer) => [
    printable(layer.layer, 24),
    layer.circuit === undefined ? "no circuit" : `circuit ${printable(layer.circuit, 12)}`,
    `${watts(layer.fittedWatts)} fitted`,
    `${watts(layer.drawnWatts)} drawn`,
    layer.markedWatts === layer.fittedWatts ? "" : `${watts(layer.markedWatts)} marked`,
    layer.kilowattHoursPerYear === undefined
      ? ""
      : `${Number(layer.kilowattHoursPerYear.toPrecision(3))} kWh a year`,
  ]);
  const lines = [
    "  Load (information; local codes and a licensed electrician decide)",
    ...table(rows, 4, [0, 1]),
    ...circuits.map(
      ({ circuit, layers: on, fittedWatts, markedWatts }) =>
        `    circuit ${printable(circuit, 12)}: ${watts(fittedWatts)} fitted, ${watts(markedWatts)} marked, ${printable(list(on), 60)}`,
    ),
  ];
  const say = (words: string) => lines.push(...wrapped(printable(words, LONGEST), WIDTH, 4, 2));
  say(
    kilowattHoursPerYear === undefined
      ? "Energy a year is not told: no layer states its hours of use a day."
      : `${Number(kilowattHoursPerYear.toPrecision(3))} kWh a year from the hours stated.`,
  );
  for (const remark of remarks) say(remark);
  if (weightUnknown.length > 0) say(`Weight not given: ${list(weightUnknown)}.`);
  if (ageing.length > 0) {
    const light = (lux: number) => formatIlluminance(lux, units.illuminance);
    say(
      `Over the years, average on the top: ${ageing.map(({ years, illuminance }) => `${years === 0 ? "new and clean" : `${years} y`} ${light(illuminance)}`).join(", ")} (L80 at 25 000 h, 3 h a day, cleaned every year: assumed).`,
    );
  }
  return lines;
}

function list(items: readonly string[]): string {
  return items.length < 2
    ? (items[0] ?? "")
    : `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}
