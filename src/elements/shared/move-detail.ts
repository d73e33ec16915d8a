/** What a move by hand comes to: pulled to what is near, stopped at the room's limits. */

import { islandAxes } from "../../drawing/island-axes.ts";
import type { Move } from "../../drawing/luminaire-key.ts";
import { withinRoom } from "../../drawing/room-limits.ts";
import { snapMove } from "../../drawing/snap.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { LuminaireMove, LuminaireMoveDetail } from "./contract.ts";
import { type DragHost, nameOf, type Start } from "./drag-host.ts";

/** @param snaps the drawing in which it is pulled; none pulls where it is undefined */
export function moveDetail(
  { scene, held, moving }: Start,
  wanted: Move,
  phase: LuminaireMoveDetail["phase"],
  by: LuminaireMoveDetail["by"],
  snaps?: Pick<DragHost, "snapReach" | "words">,
): LuminaireMoveDetail {
  const axes = islandAxes(scene);
  const { move, reasons } =
    snaps === undefined
      ? { move: wanted, reasons: [] }
      : snapMove(scene, axes, held, moving, wanted, snaps.snapReach, snaps.words);
  const c = Math.cos(axes.turn);
  const s = Math.sin(axes.turn);
  const { by: shift, reasons: stops } = withinRoom(scene, moving, [
    c * move.along - s * move.across,
    s * move.along + c * move.across,
    move.height,
  ]);
  const moves = moving.map((key): LuminaireMove => {
    const layer = scene.layers[key.layer];
    const from = layer.luminaires[key.index].frame.origin;
    const position: Vec3 = [from[0] + shift[0], from[1] + shift[1], from[2] + shift[2]];
    return { ...key, layerName: layer.name, position, from };
  });
  return {
    ...moves[0],
    phase,
    moves,
    name: `move ${nameOf(scene, moving)}`,
    reasons: [...stops, ...reasons],
    by,
  };
}
