/** What commands take that show the light of arrangements as they are (`check`, `isolux`, `handover`), and the light they ask for. */

import { type ArrangementLight, arrangementLight, type LightOptions } from "../app/arrangement-light.ts";
import { arrangementIndex, scenesWithSetting } from "../app/named-in-study.ts";
import type { OpenStudy } from "../app/open-document.ts";
import { refinedForWords } from "../app/refined-planes.ts";
import { orThrow } from "../diagnostics/candlespan-error.ts";
import { printable } from "../diagnostics/printable.ts";
import { ALLOW_OUTSIDE, type Arguments, flag, type Io, type Option, oneValue } from "./command.ts";
import { progressOf } from "./progress.ts";

export const LIGHT_OPTIONS: Readonly<Record<string, Option>> = {
  arrangement: oneValue("NAME", "this arrangement only, by its name or its letter on papers"),
  setting: oneValue("NAME", "this setting of the dimmers only, in the arrangements that have it"),
  quick: flag("a quick calculation; the result states its wider bound"),
  "with-people": flag("let the people of the study stand in the light"),
  ...ALLOW_OUTSIDE,
};

/** The light of every arrangement, or of the one named. */
export async function lightOf(
  opened: OpenStudy,
  name: string | undefined,
  args: Arguments,
  io: Io,
  options: Pick<LightOptions, "confidence" | "findings" | "layersOff"> & {
    /** The layers' own levels beside the setting asked for, as the JSON answer has it. */
    readonly ownLevels?: boolean;
    /** Whether only planes of which words say something are refined. */
    readonly inWords?: boolean;
  } = {},
): Promise<readonly ArrangementLight[]> {
  const { scenes } = opened.study;
  const named = name === undefined ? scenes : [scenes[orThrow(arrangementIndex(scenes, name))]];
  const setting = args.text("setting");
  const chosen = setting === undefined ? named : orThrow(scenesWithSetting(named, setting));
  const { ownLevels = false, inWords = false, ...asked } = options;
  const lights: ArrangementLight[] = [];
  for (const [index, scene] of chosen.entries()) {
    const label = `${printable(scene.name, 40)} (${index + 1} of ${chosen.length})`;
    const progress = progressOf(io, chosen.length > 1 ? label : "");
    const question: LightOptions = {
      ...asked,
      ...(setting === undefined || ownLevels ? {} : { setting }),
      draft: args.flag("quick"),
      shadows: true,
      ...(inWords ? { refined: refinedForWords(scene) } : {}),
      ...(args.flag("with-people") ? { people: true } : {}),
    };
    lights.push(await arrangementLight(opened, scene, question, progress.observer));
    progress.done();
  }
  return lights;
}
