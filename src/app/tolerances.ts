/** How far each pendant of an arrangement may be off, in plan and in height, with the same verdict. */

import { type ToleranceRing, toleranceRings } from "../design/boxes/tolerance-ring.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import type { Scene } from "../scene/scene.ts";
import { studyCheck } from "./full-check.ts";
import type { OpenStudy } from "./open-document.ts";
import { levelsOf } from "./setting-levels.ts";

export interface PendantTolerance extends ToleranceRing {
  /** Index of its layer; of the luminaire in it: `index`. */
  readonly layer: number;
}

/** Of every pendant, layer by layer. @param scene of the study */
export async function pendantTolerances(
  opened: OpenStudy,
  scene: Scene,
  observer: Observer,
): Promise<readonly PendantTolerance[]> {
  const check = await studyCheck(opened, undefined, observer);
  const result = check.light(scene);
  const verdicts = check.verdicts(scene, result);
  const lit = (await levelsOf(opened.study))(scene, result, verdicts);
  const layers = lit.layers.flatMap(({ role }, layer) => (role === "pendant" ? [layer] : []));
  return layers.flatMap((layer, k) => {
    const part: Observer = {
      ...check.observer,
      progress: (what, share) => check.observer.progress?.(what, (k + share) / layers.length),
    };
    return toleranceRings(opened.study, lit, result, verdicts, layer, part).map((ring) => ({
      ...ring,
      layer,
    }));
  });
}
