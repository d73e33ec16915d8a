/**
 * The client's comparison: every option in the same view at one scale of length and one of light, with a plain
 * sentence, a familiar place, lights to buy and watts. No figure without words.
 */

import { topPlane } from "../../../assessment/assess.ts";
import type { ZoneAssessment } from "../../../assessment/assessment.ts";
import { familiarPlace, seenSteps } from "../../../assessment/familiar-places.ts";
import type { Verdict } from "../../../assessment/verdict.ts";
import { printable } from "../../../diagnostics/printable.ts";
import { text } from "../../drawing/drawing.ts";
import { suspended } from "../../drawing/elevation.ts";
import { type Block, flow, heading, paragraph } from "../../drawing/paper/flow.ts";
import { sheetFrame } from "../../drawing/paper/frame.ts";
import { moved, type Sheet } from "../../drawing/paper/paper.ts";
import { darkestPlace, patchyRemark, VERDICT_MARK } from "../../text.ts";
import { type Handover, type HandoverOption, handoverWords, optionLetter } from "./handover.ts";
import { lightKey, optionPlan } from "./option-plan.ts";

/** Tallest a top is drawn (points). */
const TOP = 132;

export function clientSheets(handover: Handover): Sheet[] {
  const facts = {
    project: handover.project,
    title: handover.options.length > 1 ? "The options side by side" : "The light on the island",
    revision: handover.revision,
    date: handover.date,
    units: handover.illuminance === "lx" ? "light in lux" : "light in foot-candles",
    fingerprint: handover.fingerprint,
  };
  const { field } = sheetFrame(handover.paper, false, { ...facts, number: "1" });
  const blocks: Block[] = [
    paragraph(
      "Each plan shows the island's top from above, in the evening, with every light on at its planned level. The same colour means the same light on every plan; dark hatching marks where a place gets less than was asked for it. The lines carry their level.",
      { size: 9 },
    ),
    key(handover, field.width),
    ...handover.options.flatMap((option, i) => optionBlocks(handover, option, i, field.width)),
    ...differences(handover),
    paragraph(
      "These are predictions with a band, not a guarantee, for the dark and without daylight. What a place looks like also depends on finishes and on where people stand.",
      { size: 8 },
    ),
  ];
  const pages = flow(blocks, () => field);
  return pages.map((marks, i): Sheet => {
    const frame = sheetFrame(handover.paper, false, { ...facts, number: `${i + 1} of ${pages.length}` });
    return {
      name: "client",
      title: `${handover.project}: the options side by side`,
      width: frame.width,
      height: frame.height,
      marks: [...frame.marks, ...marks],
      summary: handover.options
        .map((option, k) => `${optionLetter(k)}: ${sentences(handover, option).join(" ")}`)
        .join(" "),
    };
  });
}

function key(handover: Handover, width: number): Block {
  const figure = lightKey(handover, width);
  return { kind: "figure", height: figure.height + 4, draw: (x, y) => [...figure.draw(x, y + 2)] };
}

function optionBlocks(handover: Handover, option: HandoverOption, index: number, width: number): Block[] {
  const { scene, assessment } = option;
  const plan = optionPlan(handover, option, width, TOP);
  const chosen = index === handover.chosen && handover.options.length > 1 ? "   (to be built)" : "";
  const mark = `${VERDICT_MARK[assessment.verdict]} ${PLAIN[assessment.verdict]}`;
  return [
    heading(
      `${handover.options.length > 1 ? `${optionLetter(index)}  ` : ""}${printable(scene.name, 60)}${chosen}`,
      12,
    ),
    {
      kind: "figure",
      height: plan.height + 12,
      draw: (x, y) => [
        text([x, y + 8], mark, "verdict", { ink: "ink", size: 9, strong: true }),
        ...moved(plan.marks, [x, y + 10]),
      ],
    },
    ...sentences(handover, option).map((words) => paragraph(words, { size: 9, depicts: "client sentence" })),
  ];
}

const PLAIN: Readonly<Record<Verdict, string>> = {
  meets: "gives the light that was asked for",
  "falls short": "gives less light than was asked for somewhere",
  "too close to call": "may or may not give the light that was asked for",
  "no target": "nothing was asked of it",
};

/** Plain sentences on one option: each zone as a place people know, patchiness, what it takes. */
export function sentences(handover: Handover, { scene, assessment }: HandoverOption): string[] {
  const words = handoverWords(handover);
  const zones = assessment.zones.map((zone) => zoneWords(zone, words.lux));
  const lines = [zones.join(" ")];
  const top = topPlane(scene);
  const dark = top < 0 ? undefined : darkestPlace(scene.planes[top], assessment.planes[top].illuminance);
  const patchy = patchyRemark(assessment);
  if (patchy !== undefined) lines.push(sentence(patchy));
  else if (dark !== undefined)
    lines.push(`The darkest spot is ${dark}: ${words.lux(assessment.planes[top].statistics.minimum)}.`);
  const pendants = suspended(scene).length;
  const all = scene.layers.reduce((sum, { luminaires }) => sum + luminaires.length, 0);
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
  const asked =
    light === undefined
      ? ""
      : light.verdict === "meets"
        ? `; ${lux(light.target)} was asked for, and it has it`
        : light.verdict === "falls short"
          ? `; ${lux(light.target)} was asked for, and it falls short`
          : `; ${lux(light.target)} was asked for, too close to promise`;
  return sentence(
    `${printable(zone.name, 40)}: about ${lux(average)}, as bright as ${familiarPlace(average)}, ${even}${asked}`,
  );
}

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
    heading(`Compared with ${optionLetter(chosen)}, as an eye would see it`, 11),
    {
      kind: "table",
      size: 8,
      columns: [
        { title: "place", share: 1 },
        ...options.map((option, i) => ({
          title: `${optionLetter(i)}  ${printable(option.scene.name, 24)}`,
          share: 1.6,
        })),
      ],
      rows: [
        ...rows,
        ["power", ...options.map(({ assessment }) => `${assessment.energy.watts.toFixed(0)} W`)],
      ],
    },
  ];
}

function count(n: number, noun: string): string {
  return `${n === 0 ? "no" : n} ${noun}${n === 1 ? "" : "s"}`;
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1).replace(/\.$/, "")}.`;
}
