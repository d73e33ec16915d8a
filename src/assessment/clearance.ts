import type { Vec2 } from "../geometry/vector.ts";
import { lowestPoint } from "../luminaire/extent.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { Island, Scene } from "../scene/scene.ts";

/** Height of a luminaire's lowest point above the top under its centre (m); undefined where no top lies there. */
export function clearanceOf(scene: Scene, { luminaire, frame }: PlacedLuminaire): number | undefined {
  const { island } = scene;
  if (island === undefined) return undefined;
  const at = islandPlace(island, [frame.origin[0], frame.origin[1]]);
  if (!inside(at, island.outline)) return undefined;
  const level = island.levels.find(({ outline }) => inside(at, outline));
  return frame.origin[2] + lowestPoint(luminaire, frame.rotation) - (level?.height ?? island.height);
}

/** A point of the room's plan in the island's frame (m). */
function islandPlace({ centre, turn, length, width }: Island, [x, y]: Vec2): Vec2 {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const dx = x - centre[0];
  const dy = y - centre[1];
  return [c * dx + s * dy + length / 2, -s * dx + c * dy + width / 2];
}

/** Even-odd rule. */
function inside([x, y]: Vec2, polygon: readonly Vec2[]): boolean {
  let odd = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i];
    const [xj, yj] = polygon[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) odd = !odd;
  }
  return odd;
}
