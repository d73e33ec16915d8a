/**
 * The client's comparison: what is recommended and why; every option in the same view at one scale of length and one of
 * light, in plain words; then heights, figures and pictures side by side.
 */

import { printable } from "../diagnostics/printable.ts";
import { type Block, flow, flowHeight, heading, paragraph } from "../drawing/paper/flow.ts";
import { moved } from "../drawing/paper/paper.ts";
import { verdictMark } from "../words/zone-text.ts";
import { comparison, ELEVATIONS, recommendation } from "./client-comparison.ts";
import { plainVerdict, sentences } from "./client-sentences.ts";
import type { Handover, HandoverOption } from "./handover.ts";
import { lightKey, optionPlan } from "./option-plan.ts";
import { type Page, page, pageField } from "./page.ts";

/** Tallest a top is drawn (points): three options share a page. */
const TOP = 130;
/** Of the page's width: what is said takes more paper than what is drawn. */
const PLAN_SHARE = 0.4;

export function clientSheets(handover: Handover): Page[] {
  const sheet = pageField(handover, false);
  const { field } = sheet;
  const options: Block[] = [
    paragraph(
      "Each plan shows the island's top from above in the evening, every light at its planned level: the same colour is the same light, hatching is less than was asked for, lines carry their level. Predictions with a band, not a guarantee, for the dark; finishes and people change what is seen.",
      { size: 9 },
    ),
    ...recommendation(handover),
    key(handover, field.width),
    ...handover.options.flatMap((option, i) => optionBlocks(handover, option, i, field.width)),
  ];
  // What compares the options stays together: on the last page of them, or on one of its own.
  const own = flow(options, () => field).length;
  const pages =
    ELEVATIONS.map((tallest) =>
      flow([...options, ...comparison(handover, field.width, tallest)], () => field),
    ).find(({ length }) => length === own) ??
    flow([...options, { kind: "break" }, ...comparison(handover, field.width, ELEVATIONS[0])], () => field);
  const head = {
    title: handover.options.length > 1 ? "The options side by side" : "The light on the island",
    units: handover.illuminance === "lx" ? "light in lux" : "light in foot-candles",
  };
  const summary = handover.options
    .map((option) => `${option.scene.letter}: ${sentences(handover, option).join(" ")}`)
    .join(" ");
  return pages.map((marks) => page(handover, sheet, head, { name: "client", marks, summary }));
}

function key(handover: Handover, width: number): Block {
  const figure = lightKey(handover, width);
  return { kind: "figure", height: figure.height + 4, draw: (x, y) => [...figure.draw(x, y + 2)] };
}

/** The plan on the left, the words beside it. */
function optionBlocks(handover: Handover, option: HandoverOption, index: number, width: number): Block[] {
  const { scene, assessment } = option;
  const left = width * PLAN_SHARE;
  const plan = optionPlan(handover, option, left, TOP);
  const chosen = index === handover.chosen && handover.options.length > 1 ? "   (to be built)" : "";
  const words: Block[] = [
    paragraph(plainVerdict(option), {
      marker: verdictMark(assessment.verdict, option.clashes),
      size: 9.5,
      strong: true,
    }),
    ...sentences(handover, option).map((each) => paragraph(each, { size: 8.5, depicts: "client sentence" })),
  ];
  const right = width - left - 8;
  const height = Math.max(plan.height, flowHeight(words, right)) + 6;
  return [
    heading(
      `${handover.options.length > 1 ? `${scene.letter}  ` : ""}${printable(scene.name, 60)}${chosen}`,
      12,
    ),
    {
      kind: "figure",
      height,
      draw: (x, y) => [
        ...moved(plan.marks, [x, y]),
        ...flow(words, () => ({ x: x + left + 8, y, width: right, height }))[0],
      ],
    },
  ];
}
