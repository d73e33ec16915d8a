/** Settings of the dimmers against options: every setting that any of them has, and how each option serves it. */

import type { Energy, SettingAssessment, ZoneAssessment } from "../assessment/assessment.ts";
import type { Verdict } from "../assessment/verdict.ts";
import type { LightingSetting, Scene } from "../scene/scene.ts";

/** One option in one setting. */
export interface SettingCell {
  readonly verdict: Verdict;
  readonly zones: readonly ZoneAssessment[];
  readonly levels: readonly { readonly layer: string; readonly level: number }[];
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
    levels: layers.map(({ name }, l) => ({ layer: name, level: dims[l] })),
    ...(find === undefined ? {} : { find }),
    energy,
  };
}
