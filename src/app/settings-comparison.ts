/** Settings of the dimmers against options: every setting that any of them has, and how each option serves it. */

import type { Energy, SettingAssessment, ZoneAssessment } from "../assessment/assessment.ts";
import type { Verdict } from "../assessment/verdict.ts";
import { controlValue } from "../scene/control-value.ts";
import type { Layer, LightingSetting, Scene } from "../scene/scene.ts";

/** The level of one layer in one setting. */
export interface SettingLevel {
  readonly layer: string;
  /** Share of full flux. */
  readonly level: number;
  /** What its dimmer is set to for it, where that is known. */
  readonly control?: DimmerSetting;
}

export interface DimmerSetting {
  /** Share of full control; null where the dimmer does not reach the level. */
  readonly value: number | null;
  /** How the dimmer counts. */
  readonly scale: "per cent" | "levels to 254";
}

/** One option in one setting. */
export interface SettingCell {
  readonly verdict: Verdict;
  readonly zones: readonly ZoneAssessment[];
  readonly levels: readonly SettingLevel[];
  /** How the levels were found; absent where the study gives them. */
  readonly find?: NonNullable<LightingSetting["find"]>;
  readonly energy: Energy;
}

export interface SettingRow {
  readonly name: string;
  /** In the order of the options; undefined of one that lacks the setting. */
  readonly cells: readonly (SettingCell | undefined)[];
}

/** In the order in which the options name their settings; empty where none has any. */
export function settingsComparison(
  options: readonly {
    readonly scene: Pick<Scene, "layers" | "settings">;
    readonly assessment: { readonly settings?: readonly SettingAssessment[] };
  }[],
): readonly SettingRow[] {
  const names = new Set(options.flatMap(({ assessment: { settings = [] } }) => settings.map((s) => s.name)));
  return [...names].map((name) => ({
    name,
    cells: options.map(({ scene, assessment: { settings = [] } }) => {
      const index = settings.findIndex((setting) => setting.name === name);
      return index < 0 ? undefined : cellOf(scene, settings[index], scene.settings?.[index]?.find);
    }),
  }));
}

function cellOf(
  { layers }: Pick<Scene, "layers">,
  { verdict, zones, dims, energy }: SettingAssessment,
  find: LightingSetting["find"],
): SettingCell {
  return {
    verdict,
    zones,
    levels: settingLevels(layers, dims),
    ...(find === undefined ? {} : { find }),
    energy,
  };
}

/** Of each layer, in the scene's order. @param dims share of full flux by layer */
export function settingLevels(
  layers: readonly Pick<Layer, "name" | "dimmer">[],
  dims: readonly number[],
): readonly SettingLevel[] {
  return layers.map(({ name, dimmer }, l) => {
    const control = dimmer?.control;
    const level = dims[l];
    if (control === undefined) return { layer: name, level };
    const scale = control === "logarithmic" ? "levels to 254" : "per cent";
    return { layer: name, level, control: { value: controlValue(level, control), scale } };
  });
}
