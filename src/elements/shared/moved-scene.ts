/** A scene with luminaires elsewhere: what a page that keeps no study document makes of a `luminaire-move`. */
import type { Vec3 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";

export interface MovedLuminaire {
  readonly layer: number;
  readonly index: number;
  /** Photometric centre in the room (m). */
  readonly position: Vec3;
}

/** The scene with those luminaires and the bodies they carry at their new places; everything else is shared. */
export function movedScene(scene: Scene, moves: readonly MovedLuminaire[]): Scene {
  const at = (layer: number, index: number): MovedLuminaire | undefined =>
    moves.find((m) => m.layer === layer && m.index === index);
  const layers = scene.layers.map((layer, l) => {
    if (!moves.some((m) => m.layer === l)) return layer;
    const luminaires = layer.luminaires.map((placed, i) => {
      const move = at(l, i);
      return move === undefined ? placed : { ...placed, frame: { ...placed.frame, origin: move.position } };
    });
    return { ...layer, luminaires };
  });
  const blockers = scene.blockers.map((blocker) => {
    if (blocker.owner === undefined) return blocker;
    const [l, i] = blocker.owner;
    const move = at(l, i);
    if (move === undefined) return blocker;
    const from = scene.layers[l].luminaires[i].frame.origin;
    const positions = blocker.mesh.positions.map((p, k) => p + move.position[k % 3] - from[k % 3]);
    return { ...blocker, mesh: { ...blocker.mesh, positions } };
  });
  return { ...scene, layers, blockers };
}
