/** Arrangements side by side in plain text: figures of the whole top, cost, settings and verdict, and the planes asked for beside it. */

import { COST_YEARS, type CostFigures, costReport, isCostStated } from "../advice/cost.ts";
import { seenSteps } from "../advice/illuminance-examples.ts";
import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import { settingsComparison } from "../app/settings-comparison.ts";
import type { PlaneAssessment } from "../assessment/assessment.ts";
import { averageOf } from "../assessment/layer-light.ts";
import { printable } from "../diagnostics/printable.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { LayerRole } from "../scene/scene.ts";
import { formatIlluminanceValue, type IlluminanceUnit } from "../units/illuminance-text.ts";
import { powerDensity, powerFigure } from "../units/power-text.ts";
import { verdictWords } from "./arrangement-sentences.ts";
import { moneyWords } from "./cost-words.ts";
import { readingName } from "./findings-sections.ts";
import { settingCellText, settingTableRows } from "./settings-text.ts";
import { table, textLines } from "./table.ts";
import { evennessText, extremeText } from "./zone-text.ts";

/** Arrangements beside one another before the table goes on below. */
const ABREAST = 4;

const BRACKETS =
  "Minimum and maximum are the verification grid's, which decides; in brackets those of it and the fine grid (cells of at most 25 mm) together, where they differ.";

export interface Ranked {
  readonly judged: JudgedArrangement;
  /** The plane of the whole top, else the first zone's. */
  readonly top: number;
}

/** Arrangements in their order side by side, in tables of a few, each with an empty line after it. */
export function comparison(study: ResolvedStudy, inOrder: readonly Ranked[]): string[] {
  const lines: string[] = [];
  for (let from = 0; from < inOrder.length; from += ABREAST)
    lines.push(...abreast(study, inOrder.slice(from, from + ABREAST), from === 0), "");
  const hasBoth = inOrder.some(({ judged, top }) => judged.assessment.planes[top]?.fine !== undefined);
  if (hasBoth) lines.push(...textLines(BRACKETS), "");
  return lines;
}

function abreast(study: ResolvedStudy, ranked: readonly Ranked[], first: boolean): string[] {
  const unit = study.display.illuminance;
  const light = (lux: number | undefined): string =>
    lux === undefined ? "–" : formatIlluminanceValue(lux, unit);
  const tops = ranked.map(({ judged, top }) => judged.assessment.planes[top]);
  const row = (name: string, cell: (top: PlaneAssessment | undefined, i: number) => string): string[] => [
    name,
    ...tops.map(cell),
  ];
  const extreme = (top: PlaneAssessment | undefined, which: "minimum" | "maximum"): string =>
    top === undefined ? "–" : extremeText(top, which, light);
  const part = (top: PlaneAssessment | undefined, i: number, roles: readonly LayerRole[] | undefined) => {
    const { judged, top: index } = ranked[i];
    return top === undefined
      ? undefined
      : averageOf(
          top.layers,
          judged.scene.planes[index].weights,
          (layer) => roles === undefined || roles.includes(layer.role),
        );
  };
  const groups: readonly (readonly [string, readonly LayerRole[] | undefined])[] = [
    ["pendants", ["pendant"]],
    ["recessed", ["recessed"]],
    ["other", ["accent", "other"]],
    ["all", undefined],
  ];
  const rows: string[][] = [
    row(first ? "whole top, best first" : "whole top, continued", (_, i) =>
      printable(ranked[i].judged.scene.name, 22),
    ),
    ...(ranked.some(({ judged }) => judged.assessment.setting !== undefined)
      ? [row("lit as in setting", (_, i) => printable(ranked[i].judged.assessment.setting ?? "–", 22))]
      : []),
    row("evenness U₀ (minimum / average)", (top) =>
      top === undefined ? "–" : evennessText(top.statistics.uniformity),
    ),
    row(`average, ${unit}`, (top) => light(top?.statistics.average)),
    ...(tops.length < 2
      ? []
      : [row("plainly seen steps (1.5× each)", (top, i) => (i === 0 ? "–" : stepsWords(tops[0], top)))]),
    row("minimum (of both grids)", (top) => extreme(top, "minimum")),
    row("maximum (of both grids)", (top) => extreme(top, "maximum")),
  ];
  for (const [name, roles] of groups) {
    const parts = tops.map((top, i) => part(top, i, roles));
    const present =
      roles === undefined ||
      ranked.some(({ judged }) =>
        judged.scene.layers.some((layer) => roles.includes(layer.role) && layer.luminaires.length > 0),
      );
    if (!present) continue;
    rows.push([
      `${name}: direct + interreflected`,
      ...parts.map((p) =>
        p === undefined ? "–" : `${light(p.direct)} + ${light(p.interreflected)} = ${light(p.both)}`,
      ),
    ]);
  }
  if (ranked.some(({ judged }) => judged.findings?.view !== undefined))
    rows.push(
      row("view taken by pendants (our measure)", (_, i) => {
        const view = ranked[i].judged.findings?.view;
        return view === undefined ? "–" : `${(100 * view.weight).toFixed(1)} % ${view.words}`;
      }),
    );
  const settings = settingTableRows(
    settingsComparison(ranked.map(({ judged }) => judged)),
    ranked.map(({ judged }) => judged.clashes),
    unit,
  ).filter(({ kind }) => kind === "setting");
  rows.push(
    row(`power, W (${powerDensity(0, study.display.length)[1]} of floor)`, (_, i) => {
      const { watts, wattsPerSquareMetre, unknownWatts } = ranked[i].judged.assessment.energy;
      return `${powerFigure(watts, unknownWatts)} (${powerDensity(wattsPerSquareMetre, study.display.length)[0]})`;
    }),
    ...costRows(ranked),
    ...settings.map(({ name, cells }) =>
      row(`setting ${printable(name, 24)}`, (_, i) => settingCellText(cells[i])),
    ),
    row("verdict", (_, i) => {
      const { assessment, clashes } = ranked[i].judged;
      return verdictWords(assessment, clashes);
    }),
  );
  return table(rows.filter(([, ...cells]) => cells.some((cell) => cell !== "–")));
}

/** Price, lamps and energy of each option, where the study says anything of them. */
function costRows(ranked: readonly Ranked[]): string[][] {
  const reports = ranked.map(({ judged }) => costReport(judged.scene));
  if (!reports.some(isCostStated)) return [];
  const rowOf = (name: string, figure: keyof CostFigures): string[] => [
    name,
    ...reports.map((report) => moneyWords(report[figure], report.currency)),
  ];
  return [
    rowOf("price", "price"),
    rowOf(`lamps over ${COST_YEARS} years`, "lamps"),
    rowOf(`energy over ${COST_YEARS} years`, "energy"),
    rowOf("together", "total"),
  ];
}

/** How many plainly seen steps one top has more or less light than the first. */
function stepsWords(first: PlaneAssessment | undefined, top: PlaneAssessment | undefined): string {
  const [a, b] = [first?.statistics.average ?? 0, top?.statistics.average ?? 0];
  if (!(a > 0 && b > 0)) return "–";
  const steps = seenSteps(a, b).toFixed(1);
  return Number(steps) === 0 ? "the same" : `${steps.startsWith("-") ? "−" : "+"}${steps.replace("-", "")}`;
}

/** Planes the study asks for beside the top and the zones: average and least light of each. */
export function otherPlanes(study: ResolvedStudy, ranked: readonly Ranked[]): string[] {
  const unit = study.display.illuminance;
  const [first] = ranked;
  const rows = first.judged.scene.planes.flatMap((plane, index) => {
    if (index === first.top || plane.zone !== undefined) return [];
    const kind = plane.quantity === "planar" ? "" : ` (${plane.quantity})`;
    return [
      [
        `${printable(plane.name, 24)}${kind}: average, minimum`,
        ...ranked.slice(0, ABREAST).map(({ judged }) => {
          const { average, minimum } = judged.assessment.planes[index].statistics;
          return `${formatIlluminanceValue(average, unit)}, ${formatIlluminanceValue(minimum, unit)}`;
        }),
      ],
    ];
  });
  rows.push(...surroundRows(ranked.slice(0, ABREAST), unit));
  if (rows.length === 0) return [];
  const names = ranked.slice(0, ABREAST).map(({ judged }) => printable(judged.scene.name, 22));
  return table([[`other planes, ${unit}`, ...names], ...rows]);
}

/** Fronts of wall units and the aisles' floor, which are the same places in every arrangement. */
function surroundRows(ranked: readonly Ranked[], unit: IlluminanceUnit): string[][] {
  const all = ranked.map(({ judged }) => judged.findings?.surround.readings ?? []);
  return all[0].map((first, i) => [
    `${printable(readingName(first), 32)}: average, minimum`,
    ...all.map((readings) =>
      [readings[i].average, readings[i].minimum].map((lux) => formatIlluminanceValue(lux, unit)).join(", "),
    ),
  ]);
}
