/** The settings of a study's scenes: levels found where a setting leaves them to be found, and a scene as it is in one. */

import type { VerdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { withSetting } from "../scene/settings.ts";

/** A calculated scene with the levels of all its settings.
 * @param result of the scene @param verdicts null for a draft, whose levels are those on nominal values */
export type FindLevels = (scene: Scene, result: CalculationResult, verdicts: VerdictMethod | null) => Scene;

/** What finds levels is loaded only where a setting leaves some to be found. */
export async function levelsOf(study: Pick<ResolvedStudy, "targets" | "scenes">): Promise<FindLevels> {
  const given = study.scenes.every(({ settings = [] }) => settings.every(({ find }) => find === undefined));
  if (given) return (scene) => scene;
  const { withFoundLevels } = await import("../design/found-levels.ts");
  return (scene, result, verdicts) => withFoundLevels(study, scene, result, verdicts);
}

/** The scene as it is dimmed and judged in its setting of a name; itself without one. */
export function inSetting(scene: Scene, name: string | undefined): Scene {
  const setting = scene.settings?.find((each) => each.name === name);
  return setting === undefined ? scene : withSetting(scene, setting);
}
