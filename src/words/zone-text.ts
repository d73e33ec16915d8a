/** Results in words: one sentence a zone, readable aloud. Names come from studies; whoever shows them escapes. */

import type { Clash } from "../advice/clashes/clash.ts";
import type {
  ArrangementAssessment,
  Check,
  PlaneAssessment,
  ZoneAssessment,
} from "../assessment/assessment.ts";
import { uncertaintyAdvice } from "../assessment/uncertainty/what-would-settle.ts";
import type { Verdict } from "../assessment/verdict.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import {
  formatIlluminance,
  formatIlluminanceValue,
  type IlluminanceUnit,
} from "../units/illuminance-text.ts";

/** Mark of a verdict, never without its words. */
export const VERDICT_MARK: Readonly<Record<Verdict, string>> = {
  meets: "✓",
  "falls short": "✕",
  "too close to call": "≈",
  "no target": "–",
  "not judged": "…",
};

/** A zone's sentence in the parts that read down a column: name, light with its band, evenness, what is asked. */
export interface ZoneClauses {
  readonly name: string;
  readonly light: string;
  readonly evenness: string;
  readonly judged: string;
}

/** @param isNamed says of the level that it is an average, and what stands in brackets */
export function zoneClauses(zone: ZoneAssessment, unit: IlluminanceUnit, isNamed = false): ZoneClauses {
  const light = zone.checks.find((check) => check.quantity === "illuminance");
  const level = light?.value ?? zone.statistics.average;
  const band = rangeWords(light?.band, (lux) => formatIlluminanceValue(lux, unit));
  const figure = formatIlluminance(level, unit);
  const isAverage = light === undefined || light.statistic === "average";
  const what = isAverage ? `${figure}${isNamed ? " on average" : ""}` : `${light.statistic} ${figure}`;
  const clauses = {
    name: zone.name,
    light: band === undefined ? what : `${what} (${isNamed ? "likely " : ""}${band})`,
    evenness: `evenness ${evennessText(zone.statistics.uniformity)}${straddling(zone)}`,
  };
  if (zone.checks.length === 0) return { ...clauses, judged: "nothing is asked of it." };
  const open = zone.checks.filter(
    (check) => check.verdict === "too close to call" && check.drivers.length > 0,
  );
  const sentences = open.map(({ quantity, drivers }) => {
    const about = quantity === "uniformity" ? " about evenness" : "";
    return ` The uncertainty${about} is ${uncertaintyAdvice(drivers)}.`;
  });
  const judged = `${zone.checks.map((check) => checkWords(check, unit)).join("; ")}.${sentences.join("")}`;
  return { ...clauses, judged };
}

/** ` (0.56 to 0.62)` where the band of the evenness asked for holds its target: the figure alone does not tell the verdict. */
function straddling({ checks }: ZoneAssessment): string {
  const { band, target } = checks.find(({ quantity }) => quantity === "uniformity") ?? {};
  if (band === undefined || target === undefined || band[0] >= target || band[1] < target) return "";
  const range = rangeWords(band, evennessText);
  return range === undefined ? "" : ` (${range})`;
}

/** `475 to 560`; undefined without a band or where it has no end. */
export function rangeWords(
  band: Check["band"],
  low: (value: number) => string,
  high = low,
): string | undefined {
  return band?.every(Number.isFinite) ? `${low(band[0])} to ${high(band[1])}` : undefined;
}

/** `0.71`; a dash where there is no light to be even. */
export function evennessText(uniformity: number): string {
  return Number.isFinite(uniformity) ? uniformity.toFixed(2) : "–";
}

/** `479 lx`, `0.71`: a figure of what is checked. */
export function figureText(quantity: Check["quantity"], value: number, unit: IlluminanceUnit): string {
  return quantity === "uniformity" ? evennessText(value) : formatIlluminance(value, unit);
}

/** `500 lx`, `evenness 0.60`: what is asked. */
export function targetText(
  { quantity, target }: Pick<Check, "quantity" | "target">,
  unit: IlluminanceUnit,
): string {
  return `${quantity === "uniformity" ? "evenness " : ""}${figureText(quantity, target, unit)}`;
}

/** The same with the source's own figure beside it where that is another: `28 fc (30 fc in the source)`. */
export function sourcedTargetText(
  asked: Pick<Check, "quantity" | "target" | "footcandles">,
  unit: IlluminanceUnit,
): string {
  const { quantity, footcandles } = asked;
  const asks = targetText(asked, unit);
  const isOther = unit === "fc" && footcandles !== undefined && asks !== `${footcandles} fc`;
  return isOther && quantity === "illuminance" ? `${asks} (${footcandles} fc in the source)` : asks;
}

/** ` (decides; 0.43 on the fine grid)` where that lies outside the interval of the evenness asked for. */
export function fineWords({ checks }: ZoneAssessment): string {
  const fine = checks.find((check) => check.fine !== undefined)?.fine;
  return fine === undefined ? "" : ` (decides; ${fine.toFixed(2)} on the fine grid)`;
}

/** Why a figure may differ from the one beside it. */
export const TWO_GRIDS =
  "Verdicts rest on the verification grid, whose points a meter can be held to. The fine grid, of cells of at most 25 mm, also finds the dark spots between those points: the lines, least and most of the drawings are its.";

type BothGrids = Pick<PlaneAssessment, "statistics" | "fine">;

/** What judges a zone: figures of the verification grid, and of the fine one where there is one. */
export function planeOfZone(
  { planes }: Pick<ArrangementAssessment, "planes">,
  zone: ZoneAssessment,
): BothGrids {
  return planes.find(({ name }) => name === zone.plane) ?? zone;
}

/** Least and most (lx) of a plane on either grid: the fine one's cells may all lie beside the other's brightest point. Undefined where
 * there is one grid. */
export function ofBothGrids({
  statistics,
  fine,
}: BothGrids): { readonly minimum: number; readonly maximum: number } | undefined {
  return fine === undefined
    ? undefined
    : {
        minimum: Math.min(statistics.minimum, fine.minimum),
        maximum: Math.max(statistics.maximum, fine.maximum),
      };
}

/** `311 (297)`: least or most of a plane by the grid that decides, in brackets that of both grids together where it prints otherwise. */
export function extremeText(
  plane: BothGrids,
  which: "minimum" | "maximum",
  light: (lux: number) => string,
): string {
  const own = light(plane.statistics[which]);
  const both = ofBothGrids(plane);
  const drawn = both === undefined ? own : light(both[which]);
  return drawn === own ? own : `${own} (${drawn})`;
}

/** `falls short of 500 lx`, `too close to call against 500 lx`, `meets evenness 0.60`. */
export function checkWords(check: Check, unit: IlluminanceUnit): string {
  const { verdict, nature } = check;
  const level = sourcedTargetText(check, unit);
  const asked = nature === "initial" ? `${level} initial` : level;
  if (verdict === "falls short") return `falls short of ${asked}`;
  if (verdict === "too close to call") return `too close to call against ${asked}`;
  return verdict === "not judged" ? `asked ${asked}, not judged yet` : `meets ${asked}`;
}

/** Below this U₀ a zone is called patchy (EN 12464-1 asks 0.60 of a task and 0.40 even of what surrounds it). */
export const PATCHY = 0.4;

/** Names of the zones whose light is patchy although nothing asks for evenness. */
export function patchyZones({ zones }: Pick<ArrangementAssessment, "zones">): readonly string[] {
  return zones
    .filter(
      (zone) =>
        zone.statistics.average > 0 &&
        zone.statistics.uniformity < PATCHY &&
        !zone.checks.some((check) => check.quantity === "uniformity"),
    )
    .map((zone) => zone.name);
}

/** Light that differs by less is equally dark (share of the least): no eye or meter tells which is darker. Our choice. */
const AS_DARK = 0.02;

/** Where the least light of a plane falls, seen with the island's length from left to right: `on the left`, `on
 * the right`, `in the middle`; with the side when it lies in the outer third across: `at the near left`. Where its mirror image along
 * or across is as dark, both are named: `at the far left and right`; corners only where the very corner is.
 * Undefined when the light is even (U₀ above 0.8) or there is no grid. */
export function darkestPlace(plane: CalculationPlane, illuminance: Float64Array): string | undefined {
  const { grid } = plane;
  if (grid === undefined || illuminance.length === 0) return undefined;
  let least = 0;
  let sum = 0;
  for (let i = 0; i < illuminance.length; i++) {
    sum += illuminance[i];
    if (illuminance[i] < illuminance[least]) least = i;
  }
  if (illuminance[least] > (0.8 * sum) / illuminance.length) return undefined;
  const { columns, rows } = grid;
  const cell = grid.cells[least];
  const [column, row] = [cell % columns, Math.floor(cell / columns)];
  const isAsDark = (column: number, row: number): boolean => {
    const i = grid.cells.indexOf(row * columns + column);
    return i >= 0 && illuminance[i] <= (1 + AS_DARK) * illuminance[least];
  };
  const third = (at: number, count: number): number => Math.floor((3 * (at + 0.5)) / count) - 1;
  const end = (which: number, isBoth: boolean, [low, high]: readonly [string, string]): string =>
    isBoth ? `${low} and ${high}` : which < 0 ? low : high;
  const [along, across] = [third(column, columns), third(row, rows)];
  const side = along === 0 ? "middle" : end(along, isAsDark(columns - 1 - column, row), ["left", "right"]);
  const depth = across === 0 ? "" : end(across, isAsDark(column, rows - 1 - row), ["near", "far"]);
  if (side === "left and right" && depth === "near and far")
    return isAsDark(column < columns / 2 ? 0 : columns - 1, row < rows / 2 ? 0 : rows - 1)
      ? "at all four corners"
      : "on the left and right";
  if (side === "middle") return depth === "" ? "in the middle" : `in the middle of the ${depth} side`;
  return depth === "" ? `on the ${side}` : `at the ${depth} ${side}`;
}

/** The mark beside the light's verdict: what cannot be built as placed gets no ✓. */
export function verdictMark(verdict: Verdict, clashes: readonly Clash[]): string {
  return verdict === "meets" && clashes.length > 0 ? "!" : VERDICT_MARK[verdict];
}
