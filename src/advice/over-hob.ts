/** Pendants whose body lies over the hob in plan, at whatever height: a caution about heat and grease, no verdict. Common practice, no
 * source. Of a pendant without a body its middle counts. */

import { depthInside } from "../geometry/polygon.ts";
import { convexPieces } from "../geometry/polygon-pieces.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import { luminairePieces, piecesGap, TOUCHING } from "../scene/luminaire-pieces.ts";
import type { Scene } from "../scene/scene.ts";

/** Tags as on paper (P1, P2). */
export function pendantsOverHob(scene: Scene): readonly string[] {
  const { island } = scene;
  if (island?.hob === undefined) return [];
  const hob = island.hob.map((p) => islandToRoom(island, p));
  const column = convexPieces(hob).map((outline) => ({ outline, bottom: 0, top: scene.room.ceilingHeight }));
  return ceilingBoxes(scene).flatMap(({ kind, tag, placed }) => {
    if (kind !== "pendant") return [];
    const pieces = luminairePieces(placed);
    const { origin } = placed.frame;
    const isOver =
      pieces.length === 0
        ? depthInside([origin[0], origin[1]], hob) > 0
        : piecesGap(pieces, column) < -TOUCHING;
    return isOver ? [tag] : [];
  });
}
