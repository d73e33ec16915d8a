/** Settings in words: their levels, and each zone in a sentence. Names come from studies; whoever shows them escapes. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { SettingAssessment } from "../assessment/assessment.ts";
import type { LightingSetting, Scene } from "../scene/scene.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";
import { verdictMark, zoneSentence } from "./text.ts";

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
  return assessed.map((setting, i) => {
    const levels = layers.map(({ name }, l) => `${name} ${levelWords(setting.dims[l])}`).join(", ");
    const { watts, unknownWatts } = setting.energy;
    const power = `${unknownWatts > 0 ? "at least " : ""}${watts.toFixed(0)} W`;
    return {
      headline: `${setting.name}: ${levels}, ${power}${foundWords(settings?.[i].find)}`,
      zones: setting.zones.map((zone) => `${verdictMark(zone.verdict, clashes)} ${zoneSentence(zone, unit)}`),
    };
  });
}

/** `off`, `25 %`, of light output. */
export function levelWords(level: number): string {
  return level === 0 ? "off" : `${Number((100 * level).toFixed(1))} %`;
}

function foundWords(find: LightingSetting["find"]): string {
  if (find === undefined) return "";
  return find === "evenest" ? " (found: the evenest)" : " (found: the least power)";
}
