/**
 * The path every arrangement of a study takes, for arrangements made by the program: resolved from its document with
 * the study's own luminaires, lit and judged as `check` does.
 */

import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import type { Engines } from "../app/light-arrangement.ts";
import type { FullCheck } from "../design/search/proposals.ts";
import { failure, success } from "../diagnostics/issue.ts";
import { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import { tiltedLuminaire } from "../luminaire/tilted.ts";
import { resolveStudyWith } from "../scene/resolve-with.ts";
import type { Scene } from "../scene/scene.ts";
import type { Io } from "./command.ts";
import { type LightChoice, lightArrangements } from "./light-arrangements.ts";
import type { LoadedStudy } from "./load-study.ts";

export interface Judging extends FullCheck {
  /** Everything known of a scene that was judged. */
  judged(scene: Scene): JudgedArrangement | undefined;
}

export function fullCheck(loaded: LoadedStudy, choice: LightChoice, engines: Engines, io: Io): Judging {
  const { document, study, context } = loaded;
  const built = new Map<string, ReturnType<typeof buildShadeLuminaire>>();
  const buildShade: typeof buildShadeLuminaire = (...asked) => {
    const key = JSON.stringify(asked.slice(0, 3));
    const known = built.get(key) ?? buildShadeLuminaire(...asked);
    built.set(key, known);
    return known;
  };
  const judged = new WeakMap<Scene, JudgedArrangement>();
  return {
    resolve(arrangement) {
      const resolved = resolveStudyWith({ ...document, arrangements: [arrangement] }, context, buildShade);
      if (!resolved.ok) return failure(...resolved.issues);
      // The study's own luminaires, so that what was learnt about them stays with them.
      const [scene] = resolved.value.scenes;
      const layers = scene.layers.map((layer) => ({
        ...layer,
        luminaires: layer.luminaires.map((placed) => ({
          ...placed,
          luminaire: tiltedLuminaire(
            study.luminaires.get(placed.luminaire.name) ?? placed.luminaire,
            placed.frame.rotation,
          ),
        })),
      }));
      return success({ ...scene, layers });
    },
    judge(scene) {
      const [own] = lightArrangements({ ...study, scenes: [scene] }, choice, io, engines);
      judged.set(scene, own);
      return own.assessment;
    },
    judged: (scene) => judged.get(scene),
  };
}
