/** The front of the report: in short, what was asked, what was found and how sure it is. */

import { settingsComparison } from "../app/settings-comparison.ts";
import type { ArrangementAssessment, Check } from "../assessment/assessment.ts";
import { averageOf } from "../assessment/layer-light.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import { uncertaintyAdvice } from "../assessment/uncertainty/advice.ts";
import { printable } from "../diagnostics/printable.ts";
import { asSentence } from "../diagnostics/sentence.ts";
import { type Block, gap, heading, paragraph } from "../drawing/paper/flow.ts";
import { moved } from "../drawing/paper/paper.ts";
import { topPlane } from "../scene/top-plane.ts";
import { powerDensity, powerFigure } from "../units/power-text.ts";
import { uncertainOpenings, verdictWords, zoneSentence } from "../words/arrangement-sentences.ts";
import { clashSentences } from "../words/clash-list.ts";
import { publishedRangeWords } from "../words/published-range.ts";
import { settingCellText, settingTableRows } from "../words/settings-text.ts";
import { evennessText, rangeWords, VERDICT_MARK, verdictMark } from "../words/zone-text.ts";
import { chosenOption, type Handover, type HandoverOption, type HandoverWords } from "./handover.ts";
import { lightKey, optionPlan } from "./option-plan.ts";
import { SIZE, TABLE, table } from "./report-style.ts";
import { workingEdgeBlocks } from "./working-edge-figure.ts";

export function summary(handover: Handover, words: HandoverWords): Block[] {
  const { scene, assessment, clashes } = chosenOption(handover);
  return [
    heading("1  In short", 12),
    paragraph(
      `Handed over: "${printable(scene.name, 60)}", ${verdictWords(assessment, clashes)}. Maintained values, in the dark, without daylight${assessment.method.people ? ", with the people of the study standing in the light" : ", nobody standing in the light"}.`,
      { size: SIZE, strong: true },
    ),
    ...assessment.zones.map((zone) =>
      paragraph(printable(asSentence(zoneSentence(zone, words.light)), 500), {
        marker: verdictMark(zone.verdict, clashes),
        size: SIZE,
        depicts: "verdict",
      }),
    ),
    ...(clashes.length === 0
      ? []
      : [
          paragraph("!: the light is as asked, but it cannot be built as it is placed (HOLD).", {
            size: SIZE,
          }),
        ]),
    ...clashSentences(clashes, words.unit).map((clash) => paragraph(`HOLD ${clash}`, { size: SIZE })),
    ...(handover.options.length > 1
      ? [
          table(
            [
              { title: "option", share: 2.2 },
              { title: "verdict", share: 1.6 },
              { title: `whole top: average, ${words.light}`, share: 1.4, align: "end" },
              { title: "minimum", share: 1, align: "end" },
              { title: "evenness min/avg", share: 1.2, align: "end" },
              { title: "power, W", share: 0.9, align: "end" },
            ],
            handover.options.map(({ scene: each, assessment: light, clashes: found }, i) => {
              const top = light.planes[topPlane(each)]?.statistics;
              return [
                `${each.letter}  ${printable(each.name, 60)}${i === handover.chosen ? " (chosen)" : ""}`,
                verdictWords(light, found),
                top === undefined ? "–" : words.figure(top.average),
                top === undefined ? "–" : words.figure(top.minimum),
                top === undefined ? "–" : evennessText(top.uniformity),
                watts(light),
              ];
            }),
          ),
        ]
      : []),
    ...settingsBlocks(handover, words),
  ];
}

/** Options beside one another before the table goes on below. */
const ABREAST = 4;

/** Settings of the dimmers in rows, options in columns; nothing where none has any. */
function settingsBlocks({ options }: Handover, words: HandoverWords): Block[] {
  const blocks: Block[] = [];
  for (let from = 0; from < options.length; from += ABREAST) {
    const abreast = options.slice(from, from + ABREAST);
    const rows = settingTableRows(
      settingsComparison(abreast),
      abreast.map(({ clashes }) => clashes),
      words.light,
    );
    if (rows.length === 0) continue;
    blocks.push({
      kind: "table",
      size: TABLE,
      depicts: "setting row",
      columns: [
        { title: "setting of the dimmers", share: 1.6 },
        ...abreast.map(({ scene }) => ({
          title: `${scene.letter}  ${printable(scene.name, 60)}`,
          share: 1.6,
        })),
      ],
      rows: rows.map(({ kind, name, cells }) => [
        `${kind === "setting" ? "" : "\u2003"}${printable(name, 50)}`,
        ...cells.map((cell) => printable(settingCellText(cell), 60)),
      ]),
    });
  }
  return blocks;
}

export function watts({ energy }: ArrangementAssessment): string {
  return powerFigure(energy.watts, energy.unknownWatts);
}

export function asked(handover: Handover, words: HandoverWords): Block[] {
  const scene = chosenOption(handover).scene;
  const judged = [...scene.zones, ...scene.planes.filter(({ target }) => target !== undefined)];
  const inSettings = (scene.settings ?? []).flatMap((setting) =>
    judged.flatMap(({ name, target }) => {
      const then = setting.targets.get(name);
      return then === undefined || then === (target ?? null)
        ? []
        : [{ name: `${printable(setting.name, 30)}: ${printable(name, 40)}`, target: then ?? undefined }];
    }),
  );
  const rows = [...judged, ...inSettings].map((zone) => {
    const target =
      zone.target === undefined
        ? undefined
        : (handover.targets.get(zone.target) ?? PUBLISHED_TARGETS_BY_ID.get(zone.target));
    const requirements = target?.requirements.map((r) =>
      r.quantity === "illuminance"
        ? `${r.statistic} ${words.lux(r.value)} ${r.nature}`
        : `evenness ${r.value.toFixed(2)}`,
    );
    return [
      printable(zone.name, 80),
      requirements?.join(", ") ?? "nothing",
      target === undefined ? "–" : printable(`${target.name}. ${target.source}`, 200),
      target?.known ?? "–",
    ];
  });
  return [
    heading("2  What was asked", 12),
    ...(rows.length === 0
      ? [paragraph("No zones were given: the whole top is one, and nothing is asked of it.", { size: SIZE })]
      : [
          table(
            [
              { title: "zone, plane; in a setting", share: 1.1 },
              { title: "target", share: 1.8 },
              { title: "source", share: 3.2 },
              { title: "how known", share: 0.9 },
            ],
            rows,
          ),
        ]),
    paragraph(
      `Published figures for a worktop disagree, ${publishedRangeWords("worktop", words.light)}; the target is the designer's choice among them. "secondary": quoted by another text; "from memory": not looked up; confirm either before a contract rests on it.`,
      { size: SIZE },
    ),
  ];
}

export function results(
  handover: Handover,
  option: HandoverOption,
  index: number,
  width: number,
  words: HandoverWords,
): Block[] {
  const { scene, assessment, clashes } = option;
  const plan = optionPlan(handover, option, width, 120);
  const key = lightKey(handover, width);
  // A table goes on overleaf with its head alone, which then says whose it is.
  const own = handover.options.length > 1 ? ` of ${scene.letter}` : "";
  return [
    ...(index === 0 ? [heading("3  What was found", 12)] : []),
    heading(`${scene.letter}  ${printable(scene.name, 60)}: ${verdictWords(assessment, clashes)}`, 10),
    { kind: "figure", height: plan.height + 4, draw: (x, y) => moved(plan.marks, [x, y]) },
    ...(index === 0
      ? [
          {
            kind: "figure",
            height: key.height + 6,
            draw: (x: number, y: number) => [...key.draw(x, y)],
          } as Block,
          paragraph(
            "On the plans: dashed, a zone; hatched, less light than its target; a circle, a pendant; a cross, a recessed light over the top, those beside it are not drawn; HOLD and a ring, cannot be built as it is placed; dotted, the base under an overhang.",
            { size: TABLE },
          ),
        ]
      : []),
    table(
      [
        { title: `zone${own}`, share: 1.2 },
        { title: "figure", share: 1.5 },
        { title: "value", share: 0.9, align: "end" },
        { title: "95 % band", share: 1.3, align: "end" },
        { title: "target", share: 0.9, align: "end" },
        { title: "verdict", share: 1.5 },
        { title: "what the uncertainty hangs on", share: 3 },
      ],
      assessment.zones.flatMap((zone) =>
        zone.checks.length === 0
          ? [
              [
                printable(zone.name, 30),
                "average",
                words.lux(zone.statistics.average),
                "–",
                "–",
                "– no target",
                "–",
              ],
            ]
          : zone.checks.map((check) => checkRow(zone.name, check, words)),
      ),
    ),
    table(
      [
        { title: `plane${own}, ${words.light}`, share: 1.6 },
        { title: "average", share: 0.8, align: "end" },
        { title: "minimum", share: 0.9, align: "end" },
        { title: "maximum", share: 0.9, align: "end" },
        { title: "min/avg", share: 0.7, align: "end" },
        { title: "min/max", share: 0.7, align: "end" },
        { title: "points", share: 0.7, align: "end" },
        { title: "by layer: direct + interreflected", share: 3.4 },
      ],
      assessment.planes.flatMap((plane, i) => {
        if (scene.planes[i].role === "fine") return [];
        const s = plane.statistics;
        const fine = (value: number, finer: number | undefined): string =>
          `${words.figure(value)}${finer === undefined ? "" : ` (${words.figure(finer)})`}`;
        const layers = plane.layers.map((layer) => {
          const part = averageOf(plane.layers, scene.planes[i].weights, (each) => each === layer);
          return `${printable(layer.layer, 24)} ${words.figure(part.direct)} + ${words.figure(part.interreflected)}`;
        });
        return [
          [
            printable(plane.name, 40),
            words.figure(s.average),
            fine(s.minimum, plane.fine?.minimum),
            fine(s.maximum, plane.fine?.maximum),
            evennessText(s.uniformity),
            s.diversity.toFixed(2),
            `${s.points}`,
            layers.join("; "),
          ],
        ];
      }),
    ),
    paragraph(
      `Figures in brackets are of the fine grid, for minima and isolux lines; verdicts rest on the verification grid. Power ${watts(assessment)} W as dimmed, ${powerDensity(assessment.energy.wattsPerSquareMetre, words.unit).join(" ")} of floor.`,
      { size: TABLE },
    ),
    ...openingBlocks(option, words),
    ...workingEdgeBlocks(option, words),
    gap(6),
  ];
}

function openingBlocks({ scene, assessment }: HandoverOption, words: HandoverWords): Block[] {
  const said = uncertainOpenings(scene, assessment, words.light);
  return said === undefined ? [] : [paragraph(printable(said, 800), { size: SIZE })];
}

function checkRow(zone: string, check: Check, words: HandoverWords): string[] {
  const light = check.quantity === "illuminance";
  const value = (x: number): string => (light ? words.figure(x) : x.toFixed(2));
  const chance =
    check.probability === undefined
      ? ""
      : ` (reached with probability ${check.probability > 0.995 ? "over 0.99" : check.probability < 0.005 ? "under 0.01" : check.probability.toFixed(2)})`;
  return [
    printable(zone, 30),
    light ? `${check.statistic} ${check.nature}, ${words.light}` : "evenness, min/avg",
    value(check.value),
    rangeWords(check.band, value) ?? "–",
    value(check.target),
    `${VERDICT_MARK[check.verdict]} ${check.verdict}${chance}`,
    check.drivers.length === 0 ? "–" : printable(uncertaintyAdvice(check.drivers), 400),
  ];
}
