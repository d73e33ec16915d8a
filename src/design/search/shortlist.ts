/** The luminaires a search tries when nobody named them. */

import type { Scene } from "../../scene/scene.ts";
import type { StudyDocument } from "../../study/study-schema.ts";

/** Names of all luminaires that hang as pendants somewhere in the study, and of those that hang nowhere.
 * @param scenes of the study's arrangements, in their order */
export function pendantShortlist(
  { luminaires, arrangements }: StudyDocument,
  scenes: readonly Scene[],
): string[] {
  const elsewhere = new Set<string>();
  const hung = new Set<string>();
  arrangements.forEach(({ layers }, a) => {
    layers.forEach(({ luminaire }, l) => {
      (scenes[a]?.layers[l]?.role === "pendant" ? hung : elsewhere).add(luminaire);
    });
  });
  return Object.keys(luminaires ?? {}).filter((name) => hung.has(name) || !elsewhere.has(name));
}
