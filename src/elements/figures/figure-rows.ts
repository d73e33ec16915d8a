/** Every figure of an arrangement with what it came from: inputs, method, source, band. Plain data, no markup. */

import { familiarPlace } from "../../advice/illuminance-examples.ts";
import { workingEdge } from "../../app/working-edge.ts";
import type { ArrangementAssessment, Check, Driver, ZoneAssessment } from "../../assessment/assessment.ts";
import { capital } from "../../diagnostics/sentence.ts";
import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Scene } from "../../scene/scene.ts";
import { likelyWords } from "../../words/headline.ts";
import { methodText } from "../../words/method-text.ts";
import type { Wording } from "../../words/wording.ts";
import { workingEdgeSentence } from "../../words/working-edge-text.ts";
import {
  checkWords,
  evennessText,
  figureText,
  ofBothGrids,
  planeOfZone,
  rangeWords,
  TWO_GRIDS,
  VERDICT_MARK,
} from "../../words/zone-text.ts";
import { VERDICT_STYLE } from "../sheet/verdict-words.ts";

export interface FigureRow {
  readonly what: string;
  readonly value: string;
  /** Verdict or comparison in words; may be empty. */
  readonly said: string;
  readonly mark: string;
  readonly style: string;
  readonly from: readonly { readonly term: string; readonly words: string }[];
}

export interface FigureGroup {
  readonly name: string;
  readonly rows: readonly FigureRow[];
}

export function figureGroups(assessment: ArrangementAssessment, scene: Scene, words: Wording): FigureGroup[] {
  const inputs = inputWords(scene);
  return [
    ...assessment.zones.map((zone) => zoneGroup(zone, assessment, scene, words, inputs)),
    ...edgeGroup(assessment, scene, words),
    { name: "Power", rows: [powerRow(assessment, scene)] },
  ];
}

function zoneGroup(
  zone: ZoneAssessment,
  assessment: ArrangementAssessment,
  scene: Scene,
  words: Wording,
  inputs: string,
): FigureGroup {
  const { statistics } = zone;
  const assessed = planeOfZone(assessment, zone);
  const { fine } = assessed;
  const range = (least: number, most: number): string =>
    `${words.lightFigure(least)} to ${words.light(most)}`;
  const plane = scene.planes.find((p) => p.name === zone.plane);
  const grid =
    plane?.grid === undefined
      ? `${statistics.points} points`
      : `${statistics.points} points, ${plane.grid.columns} × ${plane.grid.rows} cells, the mean by their areas`;
  const method = { term: "Method", words: `${methodText(assessment.method)}; ${grid}.` };
  const input = { term: "Inputs", words: inputs };
  const rows = zone.checks.map((check): FigureRow => {
    return {
      what: nameOf(check),
      value: figureText(check.quantity, check.value, words.illuminanceUnit),
      said: checkWords(check, words.illuminanceUnit) + openWords(check) + place(check),
      mark: VERDICT_MARK[check.verdict],
      style: VERDICT_STYLE[check.verdict],
      from: [
        { term: "Band", words: bandWords(check, words) },
        ...(check.fine === undefined
          ? []
          : [{ term: "Fine grid", words: `${check.fine.toFixed(2)}. ${TWO_GRIDS}` }]),
        { term: "Uncertainty", words: driverWords(check.drivers) },
        input,
        method,
        { term: "Target", words: `${zone.target ?? "the zone's own"}: ${check.source}` },
      ],
    };
  });
  const plain = (what: string, value: string, how: string, said = ""): FigureRow => ({
    what,
    value,
    said,
    mark: "",
    style: "none",
    from: [{ term: "Figure", words: how }, input, method],
  });
  if (!zone.checks.some((c) => c.quantity === "illuminance" && c.statistic === "average"))
    rows.push(plain("Average", words.light(statistics.average), "Mean of all points, weighted by area."));
  if (!zone.checks.some((c) => c.quantity === "uniformity"))
    rows.push(
      plain("Evenness", evennessText(statistics.uniformity), "Least divided by average, U₀ in standards."),
    );
  const judged = range(statistics.minimum, statistics.maximum);
  const both = ofBothGrids(assessed);
  const drawn = both === undefined ? judged : range(both.minimum, both.maximum);
  rows.push(
    plain(
      "From least to most",
      judged,
      `Lowest and highest point of the verification grid; their ratio is ${statistics.diversity.toFixed(2)}.${
        fine === undefined
          ? ""
          : ` On the fine grid ${range(fine.minimum, fine.maximum)}, evenness ${evennessText(fine.uniformity)}. ${TWO_GRIDS}`
      }`,
      drawn === judged
        ? ""
        : `on the verification grid, which decides; ${drawn} with the fine grid, as drawn`,
    ),
  );
  return { name: zone.name, rows };
}

/** Light where hands are. */
function edgeGroup(assessment: ArrangementAssessment, scene: Scene, words: Wording): FigureGroup[] {
  const edge = workingEdge(scene, assessment);
  if (edge === undefined) return [];
  const row: FigureRow = {
    what: "Average along it",
    value: words.light(edge.average),
    said: workingEdgeSentence(edge, words),
    mark: "",
    style: "none",
    from: [
      {
        term: "Figure",
        words: `Read from the drawn field at ${edge.distance.length} places; the depth is our own, no source.`,
      },
    ],
  };
  return [{ name: "Working edge", rows: [row] }];
}

function nameOf(check: Check): string {
  if (check.quantity === "uniformity") return "Evenness";
  const statistic = capital(check.statistic);
  return check.nature === "initial" ? `${statistic}, initial` : statistic;
}

function place(check: Check): string {
  return check.quantity === "illuminance" ? `, about as bright as ${familiarPlace(check.value)}` : "";
}

/** ` (62 % likely to reach it)` of an open case. */
function openWords(check: Check): string {
  const likely = check.verdict === "too close to call" ? likelyWords(check, "it") : "";
  return likely === "" ? "" : ` (${likely})`;
}

function bandWords(check: Check, words: Wording): string {
  if (check.band === undefined) return "worked out when the calculation is final.";
  const range =
    check.quantity === "uniformity"
      ? rangeWords(check.band, evennessText)
      : rangeWords(check.band, words.lightFigure, words.light);
  const likely = likelyWords(check, "the target");
  return `${range === undefined ? "without a bound" : `${range}, in 95 of 100 cases`}${likely === "" ? "" : `; ${likely}`}.`;
}

function driverWords(drivers: readonly Driver[]): string {
  if (drivers.length === 0) return "not apportioned";
  return drivers.map((d) => `${d.input} ${Math.round(d.share * 100)} %`).join(", ");
}

/** The luminaires by layer with their evidence, dimming and maintenance. */
function inputWords(scene: Scene): string {
  const layers = scene.layers.map((layer) => {
    const types = new Map(layer.luminaires.map(({ luminaire }) => [luminaire.name, luminaire]));
    const names = [...types.values()].map(
      (l) => `${l.name}, ${Math.round(l.flux)} lm, ${EVIDENCE[l.evidence].words} (${l.origin})`,
    );
    const dim = layer.dim === 1 ? "" : `, dimmed to ${Math.round(layer.dim * 100)} %`;
    return `${layer.name}: ${layer.luminaires.length} × ${names.join(" and ")}${dim}`;
  });
  return `${layers.join("; ")}; maintenance factor ${scene.maintenance}.`;
}

function powerRow(assessment: ArrangementAssessment, scene: Scene): FigureRow {
  const { watts, wattsPerSquareMetre, unknownWatts } = assessment.energy;
  return {
    what: "Electrical power",
    value: `${watts.toFixed(0)} W`,
    said: unknownWatts > 0 ? `${unknownWatts} luminaires without a known power are not counted` : "",
    mark: "",
    style: "none",
    from: [
      { term: "Density", words: `${wattsPerSquareMetre.toFixed(1)} W/m² of floor` },
      {
        term: "Inputs",
        words: scene.layers
          .map((l) => `${l.name}: ${l.luminaires.map((p) => p.luminaire.watts ?? "?").join(" + ")} W`)
          .join("; "),
      },
    ],
  };
}
