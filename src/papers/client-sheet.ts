/**
 * The client's comparison: every option in the same view at one scale of length and one of light, with a plain
 * sentence, a familiar place, lights to buy and watts. No figure without words.
 */

import { familiarPlace, seenSteps } from "../advice/illuminance-examples.ts";
import { topPlane } from "../assessment/assess.ts";
import type { ZoneAssessment } from "../assessment/assessment.ts";
import type { Verdict } from "../assessment/verdict.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, flow, flowHeight, heading, paragraph } from "../drawing/paper/flow.ts";
import { moved } from "../drawing/paper/paper.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import { asSentence } from "../words/sentence.ts";
import { darkestPlace, patchyRemark, verdictMark } from "../words/text.ts";
import { type Handover, type HandoverOption, handoverWords } from "./handover.ts";
import { lightKey, optionPlan } from "./option-plan.ts";
import { type Page, page, pageField } from "./page.ts";

/** Tallest a top is drawn (points): three options share a page. */
const TOP = 130;

export function clientSheets(handover: Handover): Page[] {
  const sheet = pageField(handover, false);
  const { field } = sheet;
  const blocks: Block[] = [
    paragraph(
      "Each plan shows the island's top from above in the evening, every light at its planned level: the same colour is the same light, hatching is less than was asked for, lines carry their level. Predictions with a band, not a guarantee, for the dark; finishes and people change what is seen.",
      { size: 9 },
    ),
    key(handover, field.width),
    ...handover.options.flatMap((option, i) => optionBlocks(handover, option, i, field.width)),
    ...differences(handover),
  ];
  const head = {
    title: handover.options.length > 1 ? "The options side by side" : "The light on the island",
    units: handover.illuminance === "lx" ? "light in lux" : "light in foot-candles",
  };
  const summary = handover.options
    .map((option) => `${option.scene.letter}: ${sentences(handover, option).join(" ")}`)
    .join(" ");
  return flow(blocks, () => field).map((marks) =>
    page(handover, sheet, head, { name: "client", marks, summary }),
  );
}

function key(handover: Handover, width: number): Block {
  const figure = lightKey(handover, width);
  return { kind: "figure", height: figure.height + 4, draw: (x, y) => [...figure.draw(x, y + 2)] };
}

/** The plan on the left, the words beside it. */
function optionBlocks(handover: Handover, option: HandoverOption, index: number, width: number): Block[] {
  const { scene, assessment } = option;
  const left = width * 0.58;
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

/** The verdict without the trade's words: too little light and too uneven light are different complaints. */
function plainVerdict({ assessment, clashes }: HandoverOption): string {
  if (clashes.length > 0 && assessment.verdict === "meets")
    return "gives the light that was asked for, but cannot be built as it is placed";
  if (assessment.verdict === "meets") return "gives the light that was asked for";
  if (assessment.verdict === "no target") return "nothing was asked of it";
  const open = assessment.zones
    .flatMap((zone) => zone.checks)
    .filter(({ verdict }) => verdict === assessment.verdict);
  const what = open.every(({ quantity }) => quantity === "uniformity")
    ? "bright enough, but less even than was asked for"
    : "less light than was asked for";
  return assessment.verdict === "falls short"
    ? `${what}, in at least one place`
    : "may or may not give the light that was asked for: too close to promise";
}

/** Plain sentences on one option: each zone as a place people know, patchiness, what it takes. */
export function sentences(handover: Handover, { scene, assessment }: HandoverOption): string[] {
  const words = handoverWords(handover);
  const zones = assessment.zones.map((zone) => zoneWords(zone, words.lux));
  const lines = [...zones];
  const top = topPlane(scene);
  const dark = top < 0 ? undefined : darkestPlace(scene.planes[top], assessment.planes[top].illuminance);
  const patchy = patchyRemark(assessment);
  if (patchy !== undefined) lines.push(asSentence(patchy));
  else if (dark !== undefined)
    lines.push(`The darkest spot is ${dark}: ${words.lux(assessment.planes[top].statistics.minimum)}.`);
  const pendants = ceilingBoxes(scene).filter(({ kind }) => kind === "pendant").length;
  const all = scene.layers.reduce((sum, { luminaires }) => sum + luminaires.length, 0);
  const unsettled = scene.layers.some(({ luminaires }) =>
    luminaires.some(({ luminaire }) => luminaire.unsettledFlux !== undefined),
  );
  if (unsettled)
    lines.push(
      "HOLD: how much light one of its luminaires gives is not settled; the figures may be far off.",
    );
  const { watts, unknownWatts } = assessment.energy;
  lines.push(
    `Takes ${count(pendants, "pendant")} and ${count(all - pendants, "other light")}, ${all} holes in the ceiling at most, ${unknownWatts > 0 ? "at least " : ""}${watts.toFixed(0)} W when all is on.`,
  );
  return lines;
}

function zoneWords(zone: ZoneAssessment, lux: (value: number) => string): string {
  const { average, uniformity } = zone.statistics;
  const even = uniformity >= 0.7 ? "evenly lit" : uniformity >= 0.4 ? "brighter in places" : "patchy";
  const light = zone.checks.find((check) => check.quantity === "illuminance");
  const asked = light === undefined ? "" : `; ${lux(light.target)} was asked for${ANSWER[light.verdict]}`;
  const uneven = zone.checks.some(
    ({ quantity, verdict }) => quantity === "uniformity" && verdict === "falls short",
  );
  const name = printable(zone.name, 40);
  return asSentence(
    `${name}: about ${lux(average)}, as bright as ${familiarPlace(average)}, ${even}${asked}${uneven ? ", but less evenly than was asked for" : ""}`,
  );
}

const ANSWER: Readonly<Record<Verdict, string>> = {
  meets: ", and it has it",
  "falls short": ", and it falls short",
  "too close to call": ", too close to promise",
  "no target": "",
  "not judged": "",
};

/** How the options differ where the eye would see it: steps of 1.5 times. */
function differences(handover: Handover): Block[] {
  const { options, chosen } = handover;
  if (options.length < 2) return [];
  const base = options[chosen];
  const rows = base.assessment.zones.flatMap((zone) => {
    const others = options.map(
      (option) => option.assessment.zones.find((each) => each.name === zone.name)?.statistics.average,
    );
    const words = handoverWords(handover);
    return [
      [
        printable(zone.name, 30),
        ...others.map((average, i) => {
          if (average === undefined) return "–";
          if (i === chosen) return words.lux(average);
          const steps = seenSteps(zone.statistics.average, average);
          const size =
            Math.abs(steps) < 0.5
              ? "about the same"
              : `${Math.abs(steps) < 1.5 ? "plainly" : "much"} ${steps > 0 ? "brighter" : "darker"}`;
          return `${words.lux(average)}, ${size}`;
        }),
      ],
    ];
  });
  return [
    heading(`Compared with ${options[chosen].scene.letter}, as an eye would see it`, 11),
    {
      kind: "table",
      size: 8,
      columns: [
        { title: "place", share: 1 },
        ...options.map((option) => ({
          title: `${option.scene.letter}  ${printable(option.scene.name, 24)}`,
          share: 1.6,
        })),
      ],
      rows: [
        ...rows,
        [
          "power",
          ...options.map(
            ({ assessment: { energy } }) =>
              `${energy.unknownWatts > 0 ? "at least " : ""}${energy.watts.toFixed(0)} W`,
          ),
        ],
      ],
    },
  ];
}

function count(n: number, noun: string): string {
  return `${n === 0 ? "no" : n} ${noun}${n === 1 ? "" : "s"}`;
}
