/**
 * The client's comparison: what is recommended and why; every option in the same view at one scale of length and one of
 * light, in plain words; then heights, figures and pictures side by side.
 */

import { printable } from "../diagnostics/printable.ts";
import { text } from "../drawing/drawing.ts";
import { type Block, flow, flowHeight, heading, paragraph } from "../drawing/paper/flow.ts";
import { moved, type PaperMark } from "../drawing/paper/paper.ts";
import { paperRows } from "../drawing/paper/paper-text.ts";
import { verdictMark } from "../words/zone-text.ts";
import { abreast, comparison, ELEVATIONS, GAP, recommendation } from "./client-comparison.ts";
import { plainVerdict, sentences, unseenSentence } from "./client-sentences.ts";
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
  // What nobody's eyes are there to be told is the same of all.
  const [unseen, ...others] = handover.options.map(unseenSentence);
  const shared = others.length > 0 && others.every((each) => each === unseen) ? unseen : undefined;
  const options: Block[] = [
    paragraph(
      "Each plan shows the island's top from above in the evening, every light at its planned level: the same colour is the same light, hatching is less than was asked for, lines carry their level. Predictions with a band, not a guarantee, for the dark; finishes and people change what is seen.",
      { size: 9 },
    ),
    ...recommendation(handover),
    key(handover, field.width),
    ...(handover.options.length > 1
      ? [
          ...plansAbreast(handover, field.width),
          ...handover.options.flatMap((option, i) => [
            heading(optionTitle(handover, option, i), 12),
            ...optionWords(handover, option, shared),
          ]),
          ...(shared === undefined
            ? []
            : [paragraph(`All options: ${shared}`, { size: 8.5, depicts: "client sentence" })]),
        ]
      : handover.options.flatMap((option, i) => optionBlocks(handover, option, i, field.width))),
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

/** `B  three narrow cones   (to be built)` */
function optionTitle(handover: Handover, { scene }: HandoverOption, index: number): string {
  const chosen = index === handover.chosen && handover.options.length > 1 ? "   (to be built)" : "";
  const letter = handover.options.length > 1 ? `${scene.letter}  ` : "";
  return `${letter}${printable(scene.name, 60)}${chosen}`;
}

/** The plans of all options side by side, each under its letter. */
function plansAbreast(handover: Handover, width: number): Block[] {
  return abreast(handover.options).map((row): Block => {
    const each = (width - GAP * (row.length - 1)) / row.length;
    const plans = row.map((option) => optionPlan(handover, option, each, TOP));
    const names = row.map(({ scene }) =>
      paperRows(`${scene.letter}  ${printable(scene.name, 60)}`, each, 9.5, true),
    );
    const head = 12.5 * Math.max(...names.map(({ length }) => length)) + 4;
    return {
      kind: "figure",
      height: head + Math.max(...plans.map(({ height }) => height)) + 6,
      draw: (x, y) =>
        plans.flatMap(({ marks }, i): PaperMark[] => {
          const left = x + i * (each + GAP);
          return [
            ...names[i].map((name, k) =>
              text([left, y + 10 + 12.5 * k], name, "client sentence", {
                ink: "ink",
                size: 9.5,
                strong: true,
              }),
            ),
            ...moved(marks, [left, y + head]),
          ];
        }),
    };
  });
}

/** @param shared said once of all options */
function optionWords(handover: Handover, option: HandoverOption, shared?: string): Block[] {
  return [
    paragraph(plainVerdict(option), {
      marker: verdictMark(option.assessment.verdict, option.clashes),
      size: 9.5,
      strong: true,
    }),
    ...sentences(handover, option)
      .filter((each) => each !== shared)
      .map((each) => paragraph(each, { size: 8.5, depicts: "client sentence" })),
  ];
}

/** The plan on the left, the words beside it. */
function optionBlocks(handover: Handover, option: HandoverOption, index: number, width: number): Block[] {
  const left = width * PLAN_SHARE;
  const plan = optionPlan(handover, option, left, TOP);
  const words = optionWords(handover, option);
  const right = width - left - 8;
  const height = Math.max(plan.height, flowHeight(words, right)) + 6;
  return [
    heading(optionTitle(handover, option, index), 12),
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
