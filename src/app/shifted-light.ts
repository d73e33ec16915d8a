/**
 * The light on the whole top once boxes have been shifted as the way out of their clashes says, by superposition
 * (`superposed-light.ts`, whose known error it has). What is shifted keeps its height.
 */

import type { Clash } from "../advice/clashes/clash.ts";
import { SuperposedLight } from "../advice/superposed-light.ts";
import type { Statistics } from "../assessment/assessment.ts";
import { statistics } from "../assessment/statistics.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";

/** @param result light of the scene @returns undefined where nothing is to be shifted, or no whole top was calculated */
export function shiftedLight(
  scene: Scene,
  result: CalculationResult,
  clashes: readonly Clash[],
): Statistics | undefined {
  const moved = shiftedLuminaires(scene, clashes);
  const top = topPlane(scene);
  const [plane, field] = [scene.planes[top], result.planes[top]];
  if (moved.size === 0 || plane === undefined || field === undefined) return undefined;
  const layers = scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => moved.get(placed) ?? placed),
  }));
  return statistics(new SuperposedLight(scene, plane, field).of({ ...scene, layers }), plane.weights);
}

/** What is shifted, by what it was; a box in several clashes by the first of their ways out. */
function shiftedLuminaires(scene: Scene, clashes: readonly Clash[]): Map<PlacedLuminaire, PlacedLuminaire> {
  const moved = new Map<PlacedLuminaire, PlacedLuminaire>();
  const boxes = ceilingBoxes(scene);
  for (const { remedy } of clashes) {
    if (remedy.kind !== "shift together") continue;
    const [dx, dy] = remedy.from === "wall 3" ? [remedy.by, 0] : [0, remedy.by];
    for (const { placed } of boxes.filter(({ tag }) => remedy.boxes.includes(tag))) {
      const [x, y, z] = placed.frame.origin;
      if (!moved.has(placed))
        moved.set(placed, { ...placed, frame: { ...placed.frame, origin: [x + dx, y + dy, z] } });
    }
  }
  return moved;
}
