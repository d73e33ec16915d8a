/** Settings in words: their levels, and each zone in a sentence. Names come from studies; whoever shows them escapes. */

import type { Clash } from "../advice/clashes/clash.ts";
import {
  type DimmerSetting,
  type SettingCell,
  type SettingRow,
  settingLevels,
} from "../app/settings-comparison.ts";
import type {
  ArrangementAssessment,
  Check,
  SettingAssessment,
  ZoneAssessment,
} from "../assessment/assessment.ts";
import type { Verdict } from "../assessment/verdict.ts";
import { LOGARITHMIC_LEVELS } from "../scene/control-value.ts";
import type { LightingSetting, Scene } from "../scene/scene.ts";
import { formatIlluminanceValue, type IlluminanceUnit } from "../units/illuminance-text.ts";
import { powerFigure } from "../units/power-text.ts";
import { zoneSentence } from "./arrangement-sentences.ts";
import { evennessText, rangeWords, verdictMark } from "./zone-text.ts";

export interface SettingWords {
  /** `dinner: pendants 25 %, ambient 10 %, 14 W` */
  readonly headline: string;
  /** Each with its mark. */
  readonly zones: readonly string[];
}

/** Of each setting of an assessed scene, in the study's order. */
export function settingsWords(
  { layers, settings }: Pick<Scene, "layers" | "settings">,
  assessed: readonly SettingAssessment[],
  clashes: readonly Clash[],
  unit: IlluminanceUnit,
): readonly SettingWords[] {
  return assessed.map((setting, i) => ({
    headline: `${headline(setting.name, layers, setting.dims, setting.energy)}${foundWords(settings?.[i].find, setting.verdict)}`,
    zones: setting.zones.map((zone) => `${verdictMark(zone.verdict, clashes)} ${zoneSentence(zone, unit)}`),
  }));
}

/** `dinner: pendants 25 %, ambient 10 %, 14 W` of what is lit in a setting; undefined at the layers' own levels. */
export function litSettingWords(
  { layers }: Pick<Scene, "layers">,
  { setting, energy }: Pick<ArrangementAssessment, "setting" | "energy">,
): string | undefined {
  if (setting === undefined) return undefined;
  return headline(
    setting,
    layers,
    layers.map(({ dim }) => dim),
    energy,
  );
}

function headline(
  name: string,
  layers: Scene["layers"],
  dims: readonly number[],
  { watts, unknownWatts }: SettingAssessment["energy"],
): string {
  const levels = settingLevels(layers, dims).map(({ layer, level, control }) => {
    const set = control === undefined || level === 0 ? "" : ` (dimmer at ${controlWords(control)})`;
    return `${layer} ${levelWords(level)}${set}`;
  });
  return `${name}: ${levels.join(", ")}, ${powerFigure(watts, unknownWatts, "at least")} W`;
}

/** A row of the table of settings against options. */
export interface SettingTableRow {
  /** `setting` begins the rows of one and carries its verdicts. */
  readonly kind: "setting" | "light" | "evenness" | "level" | "power";
  readonly name: string;
  /** One an option, in order; undefined where it has nothing to say. */
  readonly cells: readonly (SettingTableCell | undefined)[];
}

export interface SettingTableCell {
  readonly words: string;
  /** `475 to 560`, the 95 % band; of a level what its dimmer is set to. */
  readonly band?: string;
  /** Of the whole setting, or of the one figure. */
  readonly verdict?: Verdict;
}

/** Settings in rows, options in columns: verdict, light and evenness of each zone with their bands, levels, power.
 * @param clashes of each option, in order */
export function settingTableRows(
  rows: readonly SettingRow[],
  clashes: readonly (readonly Clash[])[],
  unit: IlluminanceUnit,
): readonly SettingTableRow[] {
  return rows.flatMap(({ name, cells }): SettingTableRow[] => {
    const row = (
      kind: SettingTableRow["kind"],
      title: string,
      cell: (of: SettingCell, i: number) => SettingTableCell | undefined,
    ): SettingTableRow => ({
      kind,
      name: title,
      cells: cells.map((each, i) => (each === undefined ? undefined : cell(each, i))),
    });
    const zones = namesOf(cells, (cell) => cell.zones.map((zone) => zone.name));
    const layers = namesOf(cells, (cell) => cell.levels.map(({ layer }) => layer));
    const zoneOf = (cell: SettingCell, zone: string): ZoneAssessment | undefined =>
      cell.zones.find((each) => each.name === zone);
    return [
      row("setting", name, ({ verdict }, i) => ({
        words: `${verdictMark(verdict, clashes[i] ?? [])} ${verdict}`,
        verdict,
      })),
      ...zones.flatMap((zone) => [
        row("light", `${zone}, ${unit}`, (cell) => lightCell(zoneOf(cell, zone), unit)),
        row("evenness", `${zone}, evenness`, (cell) => evennessCell(zoneOf(cell, zone))),
      ]),
      ...layers.map((layer) =>
        row("level", `level of ${layer}`, ({ levels, find }) => {
          const entry = levels.find((each) => each.layer === layer);
          if (entry === undefined) return undefined;
          const { level, control } = entry;
          return {
            words: `${levelWords(level)}${find === undefined ? "" : ", found"}`,
            ...(control === undefined || level === 0 ? {} : { band: `dimmer at ${controlWords(control)}` }),
          };
        }),
      ),
      row("power", "power, W", ({ energy: { watts, unknownWatts } }) => ({
        words: powerFigure(watts, unknownWatts),
      })),
    ].filter((each) => each.kind === "setting" || each.cells.some((cell) => cell !== undefined));
  });
}

/** `512 (475 to 560)`; a dash for what is not there. */
export function settingCellText(cell: SettingTableCell | undefined): string {
  if (cell === undefined) return "–";
  return cell.band === undefined ? cell.words : `${cell.words} (${cell.band})`;
}

function namesOf(
  cells: readonly (SettingCell | undefined)[],
  names: (cell: SettingCell) => readonly string[],
): readonly string[] {
  return [...new Set(cells.flatMap((cell) => (cell === undefined ? [] : names(cell))))];
}

function lightCell(zone: ZoneAssessment | undefined, unit: IlluminanceUnit): SettingTableCell | undefined {
  if (zone === undefined) return undefined;
  const illuminance = zone.checks.find(({ quantity }) => quantity === "illuminance");
  const figure = (lux: number): string => formatIlluminanceValue(lux, unit);
  return { words: figure(illuminance?.value ?? zone.statistics.average), ...judgedBy(illuminance, figure) };
}

/** Nothing of a zone of which nothing is asked: where nobody looks closely it says little. */
function evennessCell(zone: ZoneAssessment | undefined): SettingTableCell | undefined {
  if (zone === undefined || zone.checks.length === 0) return undefined;
  const uniformity = zone.checks.find(({ quantity }) => quantity === "uniformity");
  return { words: evennessText(zone.statistics.uniformity), ...judgedBy(uniformity, evennessText) };
}

function judgedBy(
  check: Check | undefined,
  figure: (value: number) => string,
): Pick<SettingTableCell, "band" | "verdict"> {
  if (check === undefined) return {};
  const band = rangeWords(check.band, figure);
  return { verdict: check.verdict, ...(band === undefined ? {} : { band }) };
}

/** `off`, `25 %`, of light output. */
export function levelWords(level: number): string {
  return level === 0 ? "off" : `${Number((100 * level).toFixed(1))} %`;
}

/** `50 %`, `203 of 254`, of what the dimmer is set to. */
export function controlWords({ value, scale }: DimmerSetting): string {
  if (value === null) return "a level it does not reach";
  return scale === "per cent"
    ? `${Number((100 * value).toFixed(1))} %`
    : `${Math.round(value * LOGARITHMIC_LEVELS)} of ${LOGARITHMIC_LEVELS}`;
}

function foundWords(find: LightingSetting["find"], verdict: Verdict): string {
  if (find === undefined) return "";
  // What no level reaches is said as that: the levels are then the nearest to it.
  if (verdict === "falls short") return " (found: no levels reach it, these come nearest)";
  return find === "evenest" ? " (found: the evenest)" : " (found: the least power)";
}
