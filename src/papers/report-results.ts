/** The front of the report: in short, what was asked, what was found and how sure it is. */

import type { Clash } from "../advice/clashes/clash.ts";
import { finelyTold } from "../app/refined-planes.ts";
import { settingsComparison } from "../app/settings-comparison.ts";
import type { ArrangementAssessment, Check, PlaneAssessment } from "../assessment/assessment.ts";
import { averageOf } from "../assessment/layer-light.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import { uncertaintyAdvice } from "../assessment/uncertainty/what-would-settle.ts";
import { printable } from "../diagnostics/printable.ts";
import { asSentence } from "../diagnostics/sentence.ts";
import { type Block, gap, heading, paragraph } from "../drawing/paper/flow.ts";
import { moved } from "../drawing/paper/paper.ts";
import { column, endColumn, table as tableBlock } from "../drawing/paper/table.ts";
import { topPlane } from "../scene/top-plane.ts";
import { powerDensity, powerFigure } from "../units/power-text.ts";
import { uncertainOpenings, verdictWords, zoneSentence } from "../words/arrangement-sentences.ts";
import { clashSentences } from "../words/clash-list.ts";
import { overHobSentence } from "../words/hob-text.ts";
import { publishedRangeWords } from "../words/published-range.ts";
import { settingCellText, settingTableRows } from "../words/settings-text.ts";
import { evennessText, extremeText, rangeWords, sourcedTargetText, verdictMark } from "../words/zone-text.ts";
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
    // The verdict is theirs where there are any.
    ...(assessment.settings ?? []).map(({ name, verdict }) =>
      paragraph(`Set to ${printable(name, 60)}: ${verdict}.`, {
        marker: verdictMark(verdict, clashes),
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
            handover.options.map(({ scene: each, assessment: light, clashes: found }, i) => {
              const top = light.planes[topPlane(each)]?.statistics;
              const name = `${each.letter}  ${printable(each.name, 60)}${i === handover.chosen ? " (chosen)" : ""}`;
              return { name, light, found, top };
            }),
            [
              column("option", 2.2, ({ name }) => name),
              column("verdict", 1.6, ({ light, found }) => verdictWords(light, found)),
              endColumn(`whole top: average, ${words.light}`, 1.4, ({ top }) =>
                top === undefined ? "–" : words.figure(top.average),
              ),
              endColumn("minimum", 1, ({ top }) => (top === undefined ? "–" : words.figure(top.minimum))),
              endColumn("evenness min/avg", 1.2, ({ top }) =>
                top === undefined ? "–" : evennessText(top.uniformity),
              ),
              endColumn("power, W", 0.9, ({ light }) => watts(light)),
            ],
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
    const columns = abreast.map(({ scene }, i) =>
      column(`${scene.letter}  ${printable(scene.name, 60)}`, 1.6, ({ cells }: (typeof rows)[number]) =>
        printable(settingCellText(cells[i]), 60),
      ),
    );
    blocks.push(
      tableBlock(
        rows,
        [
          column(
            "setting of the dimmers",
            1.6,
            ({ kind, name }) => `${kind === "setting" ? "" : "\u2003"}${printable(name, 50)}`,
          ),
          ...columns,
        ],
        { size: TABLE, depicts: "setting row" },
      ),
    );
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
    const requirements = target?.requirements.map((r) => {
      const asks = sourcedTargetText({ ...r, target: r.value }, words.light);
      return r.quantity === "illuminance" ? `${r.statistic} ${asks} ${r.nature}` : asks;
    });
    return { name: zone.name, requirements, target };
  });
  return [
    heading("2  What was asked", 12),
    ...(rows.length === 0
      ? [paragraph("No zones were given: the whole top is one, and nothing is asked of it.", { size: SIZE })]
      : [
          table(rows, [
            column("zone, plane; in a setting", 1.1, ({ name }) => printable(name, 80)),
            column("target", 1.8, ({ requirements }) => requirements?.join(", ") ?? "nothing"),
            column("source", 3.2, ({ target }) =>
              target === undefined ? "–" : printable(`${target.name}. ${target.source}`, 200),
            ),
            column("how known", 0.9, ({ target }) => target?.known ?? "–"),
          ]),
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
  const told = finelyTold(scene);
  const overHob = overHobSentence(scene);
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
            "On the plans: dashed, a zone; hatched, less light than its target; a circle, a pendant, of a long one its box; a cross, a recessed light, those farther off are not drawn; HOLD and a ring, cannot be built as it is placed; dotted, the base under an overhang.",
            { size: TABLE },
          ),
        ]
      : []),
    table(
      assessment.zones.flatMap(
        ({ name, statistics, checks }): { zone: string; average: number; check?: Check }[] =>
          (checks.length === 0 ? [undefined] : checks).map((check) => ({
            zone: name,
            average: statistics.average,
            check,
          })),
      ),
      [
        column(`zone${own}`, 1.2, ({ zone }) => printable(zone, 30)),
        column("figure", 1.5, ({ check }) => figureName(check, words)),
        endColumn("value", 0.9, ({ check, average }) =>
          check === undefined ? words.lux(average) : figure(check, words)(check.value),
        ),
        endColumn(
          "95 % band",
          1.3,
          ({ check }) => (check && rangeWords(check.band, figure(check, words))) ?? "–",
        ),
        endColumn("target", 0.9, ({ check }) =>
          check === undefined ? "–" : figure(check, words)(check.target),
        ),
        column("verdict", 1.5, ({ check }) => verdictCell(check, clashes)),
        column("what the uncertainty hangs on", 3, ({ check }) =>
          check === undefined || check.drivers.length === 0
            ? "–"
            : printable(uncertaintyAdvice(check.drivers), 400),
        ),
      ],
    ),
    table(
      assessment.planes.flatMap((plane, i) =>
        scene.planes[i].role === "fine"
          ? []
          : [{ ...plane, weights: scene.planes[i].weights, isFinelyTold: told.has(i) }],
      ),
      [
        column(`plane${own}, ${words.light}`, 1.6, ({ name }) => printable(name, 40)),
        endColumn("average", 0.8, ({ statistics }) => words.figure(statistics.average)),
        endColumn("minimum", 0.9, (plane) => withFine(plane, "minimum", words)),
        endColumn("maximum", 0.9, (plane) => withFine(plane, "maximum", words)),
        endColumn("min/avg", 0.7, ({ statistics }) => evennessText(statistics.uniformity)),
        endColumn("min/max", 0.7, ({ statistics }) => statistics.diversity.toFixed(2)),
        endColumn("points", 0.7, ({ statistics }) => `${statistics.points}`),
        column("by layer: direct + interreflected", 3.4, ({ layers, weights }) =>
          layers
            .map((layer) => {
              const part = averageOf(layers, weights, (each) => each === layer);
              return `${printable(layer.layer, 24)} ${words.figure(part.direct)} + ${words.figure(part.interreflected)}`;
            })
            .join("; "),
        ),
      ],
    ),
    paragraph(
      `Verdicts rest on the verification grid. In brackets are minimum and maximum of it and the fine grid of the isolux lines together, where they differ. Power ${watts(assessment)} W as dimmed, ${powerDensity(assessment.energy.wattsPerSquareMetre, words.unit).join(" ")} of floor.`,
      { size: TABLE },
    ),
    ...(overHob === undefined ? [] : [paragraph(overHob, { size: SIZE })]),
    ...openingBlocks(option, words),
    ...workingEdgeBlocks(option, words),
    gap(6),
  ];
}

function openingBlocks({ scene, assessment }: HandoverOption, words: HandoverWords): Block[] {
  const said = uncertainOpenings(scene, assessment, words.light);
  return said === undefined ? [] : [paragraph(printable(said, 800), { size: SIZE })];
}

const figure =
  ({ quantity }: Check, words: HandoverWords) =>
  (value: number): string =>
    quantity === "illuminance" ? words.figure(value) : value.toFixed(2);

function figureName(check: Check | undefined, words: HandoverWords): string {
  if (check === undefined) return "average";
  return check.quantity === "illuminance"
    ? `${check.statistic} ${check.nature}, ${words.light}`
    : "evenness, min/avg";
}

function verdictCell(check: Check | undefined, clashes: readonly Clash[]): string {
  if (check === undefined) return "– no target";
  const { verdict, probability } = check;
  const marked = `${verdictMark(verdict, clashes)} ${verdict}`;
  if (probability === undefined) return marked;
  const chance =
    probability > 0.995 ? "over 0.99" : probability < 0.005 ? "under 0.01" : probability.toFixed(2);
  return `${marked} (reached with probability ${chance})`;
}

/** The least or greatest of a plane, that of both grids together in brackets where the fine one is told. */
function withFine(
  { isFinelyTold, ...plane }: PlaneAssessment & { readonly isFinelyTold: boolean },
  figure: "minimum" | "maximum",
  words: HandoverWords,
): string {
  return extremeText(isFinelyTold ? plane : { statistics: plane.statistics }, figure, words.figure);
}
