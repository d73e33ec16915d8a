/**
 * The calculation report: what was asked, what was found and how sure it is, what went in, what was assumed, how it
 * was computed and from which sources. Whoever doubts a figure finds here what it rests on.
 */

import { guidelineCards } from "../advice/guidelines/cards.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, bullet, flowPages, heading, paragraph } from "../drawing/paper/flow.ts";
import { column } from "../drawing/paper/table.ts";
import type { FindingsSection } from "../words/findings-sections.ts";
import { chosenOption, type Handover, type HandoverWords, handoverWords } from "./handover.ts";
import { type Page, page, pageField } from "./page.ts";
import { assumed, method } from "./report-basis.ts";
import { inputs } from "./report-inputs.ts";
import { asked, results, summary } from "./report-results.ts";
import { SIZE, table } from "./report-style.ts";
import { relianceBlocks } from "./schedule-sheet.ts";

export function reportSheets(handover: Handover): Page[] {
  const words = handoverWords(handover);
  const sheet = pageField(handover, false);
  const { field } = sheet;
  const blocks: Block[] = [
    ...summary(handover, words),
    ...asked(handover, words),
    ...handover.options.flatMap((option, i) => results(handover, option, i, field.width, words)),
    heading("4  What the light of the chosen option relies on", 12),
    ...relianceBlocks(handover, words),
    ...inputs(handover, words),
    ...assumed(handover),
    ...method(handover, words),
    ...beside(handover),
    ...rules(handover, words),
    ...cautions(),
  ];
  const units = `${handover.unit === "mm" ? "mm" : "ft-in"}, ${handover.illuminance}`;
  return flowPages(blocks, field).map((marks) =>
    page(
      handover,
      sheet,
      { title: "Calculation report", units },
      {
        name: "report",
        marks,
        summary:
          "Calculation report: targets, results with their bands, inputs, defaults, methods, sources, cautions.",
      },
    ),
  );
}

/** People, surround, look, load and years of the chosen option. */
function beside(handover: Handover): Block[] {
  const { findings = [] } = chosenOption(handover);
  if (findings.length === 0) return [];
  return [
    heading("8  Beside the verdict, of the chosen option", 12),
    ...findings.flatMap(({ heading: words, sentences, table: figures }): Block[] => [
      heading(printable(words, 80), 9),
      ...sentences.map((sentence) => paragraph(printable(sentence, 600), { size: SIZE })),
      ...(figures === undefined ? [] : [findingsTable(figures)]),
    ]),
  ];
}

function findingsTable({ rows, left }: NonNullable<FindingsSection["table"]>): Block {
  const [head = [], ...body] = rows.map((row) => row.map((cell) => printable(cell, 120)));
  return table(
    body,
    head.map((title, i) => ({
      title,
      share: i === 0 ? 1.6 : 1,
      ...(left.includes(i) ? {} : { align: "end" as const }),
      cell: (row) => row[i],
    })),
  );
}

function rules(handover: Handover, words: HandoverWords): Block[] {
  const cards = guidelineCards(chosenOption(handover).scene, { length: words.unit }).filter(
    (card) => card.outcome !== "does not apply",
  );
  if (cards.length === 0) return [];
  return [
    heading("9  Rules of thumb held against the chosen option", 12),
    paragraph("They inform and contradict one another; no verdict rests on them.", { size: SIZE }),
    table(cards, [
      column("rule", 3.6, ({ rule }) => printable(rule, 200)),
      column("here", 1, ({ outcome }) => outcome),
      column("would ask for", 2.2, ({ asks }) => printable(asks, 140)),
      column("heard from", 2, ({ source }) => printable(source, 120)),
    ]),
  ];
}

function cautions(): Block[] {
  return [
    heading("10  Cautions", 12),
    ...[
      "The figures are predictions with a band, not a guarantee. A reading within 20 % of a calculation has long counted as a good result; a hand meter adds 3 to 10 % of its own (both read in published articles).",
      "Electrical work, boxes, supports, weight, heat above a hob and hanging glass: licensed people and local codes decide. Nothing here is a design of the wiring.",
      "Typical finishes and shade values are to be replaced by the real ones before a promise rests on them.",
      "Night only: no daylight is counted. A person at the top takes light from it; ask for a calculation with people where that matters.",
      "Check with a meter at night, lamps warm, layers one by one, at the points of the verification grid.",
    ].map((words) => bullet(words, SIZE)),
  ];
}
