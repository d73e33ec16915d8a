/**
 * What there is to say beside the verdict, as headed sections of sentences and small tables: for text, for a report, for a
 * page. Rules of thumb are not among them: they are cards. Names come from studies; whoever shows them makes them safe.
 */

import type { AgedPerson } from "../advice/age.ts";
import { isCostStated } from "../advice/cost.ts";
import type { Findings } from "../advice/findings.ts";
import type { PendantRow } from "../advice/pendant-row.ts";
import { CEILING_LEAST, type SurroundReading, WALLS_LEAST } from "../advice/surround.ts";
import { printable } from "../diagnostics/printable.ts";
import { capital, listed } from "../diagnostics/sentence.ts";
import { costGapWords, costWords, moneyWords } from "./cost-words.ts";
import { personSentences } from "./person-words.ts";
import type { Wording } from "./wording.ts";
import { evennessText } from "./zone-text.ts";

export interface FindingsSection {
  readonly heading: string;
  readonly sentences: readonly string[];
  /** Rows of cells, the first row the head; columns in `left` read to the left. */
  readonly table?: { readonly rows: readonly (readonly string[])[]; readonly left: readonly number[] };
}

/** Sections in the order a designer asks: the row, what is around, each person, age, look, number and size, load, years. */
export function findingsSections(findings: Findings, words: Wording): FindingsSection[] {
  return [
    row(findings, words),
    around(findings, words),
    ...findings.people.map((found) => ({
      heading: `${found.person}, ${found.posture}`,
      sentences: personSentences(found, words),
    })),
    age(findings, words),
    look(findings, words),
    sizes(findings, words),
    load(findings),
    cost(findings),
    years(findings, words),
  ].filter(({ sentences, table }: FindingsSection) => sentences.length > 0 || table !== undefined);
}

/** `Lower edges 850 mm above the top, 1770 mm above the floor.` */
export function heightsWords({ count, clearance, aboveFloor, highest }: PendantRow, words: Wording): string {
  const range = (low: number, high: number) =>
    words.length(low) === words.length(high)
      ? words.length(low)
      : `${words.length(low)} to ${words.length(high)}`;
  return `${count === 1 ? "Lower edge" : "Lower edges"} ${range(clearance, highest.clearance)} above the top, ${range(aboveFloor, highest.aboveFloor)} above the floor.`;
}

function row({ row: hung }: Findings, words: Wording): FindingsSection {
  if (hung === undefined) return { heading: "Pendants", sentences: [] };
  const { count, rim, pitch, gap, ends, apart } = hung;
  const between =
    pitch === undefined || gap === undefined
      ? ""
      : `, ${words.length(pitch)} centre to centre, ${words.length(gap)} free between them`;
  return {
    heading: "Pendants",
    sentences: [
      `${count} ${count === 1 ? "pendant" : "pendants"} ${words.length(rim)} wide${between}, ${endsWords(ends, words)}. ${heightsWords(hung, words)}`,
      ...(apart === 0
        ? []
        : [
            `${apart} more ${apart === 1 ? "hangs" : "hang"} over the top in no line with ${count === 1 ? "it" : "them"}: rules of thumb about the number, the spacing and the ends speak of this row alone.`,
          ]),
    ],
  };
}

/** `320 mm free at the ends`, `470 mm free at the left end, 320 mm at the right`; what reaches beyond the top is not free. */
function endsWords(ends: PendantRow["ends"], words: Wording): string {
  const [left, right] = ends.map(
    (end) => `${words.length(Math.abs(end))}${end < 0 ? " beyond" : " free at"}`,
  );
  const beyond = ends.some((end) => end < 0);
  if (left === right) return beyond ? `${left} both ends of the top` : `${left} the ends`;
  return `${left} the left end${beyond ? " of the top" : ""}, ${right} the right`;
}

/** `front of wall units` or `aisle floor, far side`. */
export function readingName({ kind, of }: Pick<SurroundReading, "kind" | "of">): string {
  return kind === "front" ? `front of ${of}` : `aisle floor, ${of} side`;
}

const askedWords = (found: number, least: number, words: Wording): string =>
  `${found > least ? "" : "falls short: "}more than ${words.light(least)} is asked`;

/** Walls, ceiling and what lies beside a task; wall units' fronts and the aisles' floor. */
function around(
  { surround: { walls, ceiling, dim, readings = [] } }: Findings,
  words: Wording,
): FindingsSection {
  return {
    heading: "Around the task",
    sentences: [
      ...(walls === undefined || ceiling === undefined
        ? []
        : [
            `Walls have ${words.light(walls)} (${askedWords(walls, WALLS_LEAST, words)}), the ceiling ${words.light(ceiling)} (${askedWords(ceiling, CEILING_LEAST, words)}; EN 12464-1:2011, written for work places).`,
          ]),
      ...dim.map(
        ({ zone, beside, asked, found }) =>
          `${zone} has ${words.light(found)} beside ${beside}, whose surround would be asked ${words.light(asked)} (EN 12464-1; confirm it in its text).`,
      ),
    ],
    ...(readings.length === 0
      ? {}
      : {
          table: {
            left: [0],
            rows: [
              [`maintained, ${words.illuminanceUnit}`, "average", "minimum", "maximum"],
              ...readings.map((reading) => [
                readingName(reading),
                ...[reading.average, reading.minimum, reading.maximum].map(words.lightFigure),
              ]),
            ],
          },
        }),
  };
}

/** `Grandmother at 82 and Ann at 68`: everyone in the band. */
export function agedPeople(people: readonly AgedPerson[]): string {
  return listed(people.map(({ person, age }) => `${printable(person, 60)} at ${age}`));
}

function age({ age: remark }: Findings, words: Wording): FindingsSection {
  const heading = "Age";
  if (remark === undefined || remark.zones.length === 0) return { heading, sentences: [] };
  const { band, others } = remark;
  const all = [remark, ...others];
  const zones = remark.zones.map(({ zone, people, asked, found, reached, isClose }) => {
    const whose =
      people.length < all.length ? ` for ${listed(people.map((each) => printable(each.person, 60)))}` : "";
    return `${zone} ${words.light(asked)}${whose}, ${isClose ? `has ${words.light(found)}, too close to call` : reached ? "reached" : `has ${words.light(found)}`}`;
  });
  return {
    heading,
    sentences: [
      `${agedPeople(all)} ${others.length === 0 ? "is" : "are"} in the band ${band.words}, asked ×${band.factor} (IES; confirm it in its text): ${zones.join("; ")}.${band.glareStep > 0 ? " Glare limits go one step lower (our own, no source)." : ""}`,
    ],
  };
}

function look({ view, cohesion }: Findings, words: Wording): FindingsSection {
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  return {
    heading: "Look (our own construction, no source)",
    sentences: [
      ...(view === undefined
        ? []
        : [
            `For ${view.viewpoint.name}${view.viewpoint.away === undefined ? "" : `, ${words.length(view.viewpoint.away)} away`}, the pendants take ${percent(view.covered)} of the view between counter and ceiling, ${percent(view.weight)} weighed by opacity: ${view.words}.`,
          ]),
      ...(cohesion === undefined ? [] : [capital(cohesion.sentence)]),
    ],
  };
}

/** Widths beside counts: light over gap. */
function sizes({ sizes: all }: Findings, words: Wording): FindingsSection {
  const heading = "Number and size";
  if (all === undefined) return { heading, sentences: [] };
  const found = (count: number, width: number) =>
    all.cells.find((each) => each.count === count && each.width === width);
  const cell = (count: number, width: number): string => {
    const each = found(count, width);
    if (each === undefined) return "–";
    const light = words.lightFigure(each.average);
    return `${each.asDrawn ? "*" : ""}${light} ${evennessText(each.uniformity)} ${each.agree}`;
  };
  const gap = (count: number, width: number): string => {
    const free = found(count, width)?.gap;
    return free === undefined ? "–" : words.length(free);
  };
  return {
    heading,
    sentences: [
      `In equal bays at this height, by width and count: average ${words.illuminanceUnit}, U₀, rules that agree, and the gap${all.cells.some(({ asDrawn }) => asDrawn) ? "; * as drawn" : ""}. Ends are half a gap; the same light is taken to leave every size.`,
    ],
    table: {
      left: [0],
      rows: [
        ["wide; how many", ...all.counts.map((count) => `${count}`)],
        ...all.widths.flatMap((width) => [
          [words.length(width), ...all.counts.map((count) => cell(count, width))],
          ["  gap", ...all.counts.map((count) => gap(count, width))],
        ]),
      ],
    },
  };
}

function load({ load: report }: Findings): FindingsSection {
  const { layers, circuits, kilowattHoursPerYear, weightUnknown, remarks } = report;
  const watts = (value: number) => `${Number(value.toPrecision(3))} W`;
  const isMarkedAt = (circuit: string) => layers.some((each) => each.circuit === circuit && each.isMarked);
  const energy = (value: number) => `${Number(value.toPrecision(3))} kWh`;
  return {
    heading: "Load (information; local codes and a licensed electrician decide)",
    table: {
      left: [0, 1],
      rows: [
        ["layer", "circuit", "fitted", "drawn", "marked", "a year"],
        ...layers.map((layer) => [
          layer.layer,
          layer.circuit ?? "–",
          watts(layer.fittedWatts),
          watts(layer.drawnWatts),
          layer.isMarked ? watts(layer.markedWatts) : "–",
          layer.kilowattHoursPerYear === undefined ? "–" : energy(layer.kilowattHoursPerYear),
        ]),
      ],
    },
    sentences: [
      ...circuits
        .filter(({ layers: on }) => on.length > 1)
        .map(
          ({ circuit, layers: on, fittedWatts, markedWatts }) =>
            `Circuit ${circuit} feeds ${listed(on)}: ${watts(fittedWatts)} fitted${isMarkedAt(circuit) ? `, ${watts(markedWatts)} marked` : ""}.`,
        ),
      kilowattHoursPerYear === undefined
        ? "Energy a year is not told: no layer states its hours of use a day."
        : `${energy(kilowattHoursPerYear)} a year from the hours stated.`,
      ...remarks,
      ...(weightUnknown.length > 0 ? [`Weight not given: ${listed(weightUnknown)}.`] : []),
    ],
  };
}

function cost({ cost: report }: Findings): FindingsSection {
  const { layers, currency, years } = report;
  const missing = costGapWords(report);
  if (!isCostStated(report)) return { heading: "Cost", sentences: [] };
  const money = (value: number | undefined): string => moneyWords(value, currency);
  return {
    heading: `Cost over ${years} years (today's prices, levels as dimmed)`,
    table: {
      left: [0],
      rows: [
        ["layer", "price", "lamps", "energy", "together"],
        ...layers.map(({ layer, price, lamps, energy, total }) => [
          layer,
          ...[price, lamps, energy, total].map(money),
        ]),
      ],
    },
    sentences: [costWords(report), ...(missing === undefined ? [] : [missing])],
  };
}

function years({ ageing, load: { layers } }: Findings, words: Wording): FindingsSection {
  const stated = layers.filter(({ hoursPerDay }) => hoursPerDay !== undefined);
  const hours =
    stated.length === 0
      ? "3 h a day, "
      : stated.length < layers.length
        ? "3 h a day where no hours are stated, "
        : "";
  const own = stated.map(({ layer, hoursPerDay }) => `${layer} ${hoursPerDay} h a day`);
  const rows = ageing.map(
    ({ years: after, illuminance }) =>
      `${after === 0 ? "new and clean" : `${after} y`} ${words.light(illuminance)}`,
  );
  return {
    heading: "Over the years",
    sentences:
      rows.length === 0
        ? []
        : [
            `Average on the top: ${rows.join(", ")} (${own.length === 0 ? "" : `${listed(own)}; `}L80 at 25 000 h, ${hours}cleaned every year: assumed).`,
          ],
  };
}
