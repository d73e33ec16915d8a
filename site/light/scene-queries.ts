/** Figures the controls show that are read off the scene on screen. */

import { bodyOutline, EVIDENCE } from "../../src/app.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";

type Scene = LightAnswer["scene"];

/** What a luminaire's light rests on. */
export function evidenceIn(
  scene: Scene | undefined,
  luminaire: string,
): (typeof EVIDENCE)[keyof typeof EVIDENCE] | undefined {
  for (const layer of scene?.layers ?? []) {
    const placed = layer.luminaires.find((each) => each.luminaire.name === luminaire);
    if (placed !== undefined) return EVIDENCE[placed.luminaire.evidence];
  }
  return undefined;
}

/** Clearance of a layer's first luminaire above the top (m): to the lowest of its opening and its body. */
export function clearanceIn(scene: Scene | undefined, layer: number): number | undefined {
  const placed = scene?.layers[layer]?.luminaires[0];
  if (scene?.island === undefined || placed === undefined) return undefined;
  const { body, emission } = placed.luminaire;
  const opening = emission.opening.height / 2;
  const centred = body !== undefined && bodyOutline(body.profile)?.centred === true;
  const lowest = Math.max(opening, centred ? body.height / 2 - body.offset : 0);
  return placed.frame.origin[2] - lowest - scene.island.height;
}
