/** Whether luminaires could hang where a fit of readings has them: what nobody on site would believe is no explanation. */

import { addedClashes } from "../../advice/clashes/added-clashes.ts";
import { bodyClashes, ceilingClashes } from "../../advice/clashes/body-clashes.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { type BoxInPlace, boxesInPlace } from "../../scene/box-places.ts";
import { overFloor } from "../../scene/inside-room.ts";
import { topUnder } from "../../scene/island-frame.ts";
import { planOutline } from "../../scene/luminaire-pieces.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Displacement } from "./reading-model.ts";

/** Readings tell a place to some centimetres (m): bodies that overlap by less may well hang side by side. */
const AS_FOUND = 0.05;

/** None hangs outside the room or through its ceiling, nor in another body where it did not; and of those that were
 * planned over the top one at least still has some of itself over it.
 * @param elsewhere what hangs not where it was planned, by layer and index in it */
export function canHang(
  scene: Scene,
  elsewhere: readonly (Displacement & { readonly layer: number; readonly index: number })[],
): boolean {
  if (elsewhere.length === 0) return true;
  const planned = boxesInPlace(scene);
  // A pendant stays one, whatever height it is thought to hang at.
  const built = planned.map((box) => {
    const by = elsewhere.find(({ layer, index }) => layer === box.layer && index === box.index)?.by;
    return by === undefined ? box : { ...box, placed: shifted(box.placed, by) };
  });
  const moved = planned.flatMap((box, i) =>
    built[i] === box ? [] : [{ from: box.placed, to: built[i].placed }],
  );
  if (!moved.every(({ to }) => overFloor(to.frame.origin, scene.room))) return false;
  const overTop = moved.filter(({ from }) => isOverTop(scene, from));
  if (overTop.length > 0 && !overTop.some(({ to }) => isOverTop(scene, to))) return false;
  const inTheWay = (boxes: readonly BoxInPlace[]) => [
    ...bodyClashes(scene, boxes),
    ...ceilingClashes(scene, boxes),
  ];
  return addedClashes(inTheWay(planned), inTheWay(built)).every(({ clear }) => clear > -AS_FOUND);
}

/** Whether some of it is over the top. */
function isOverTop({ island }: Scene, placed: PlacedLuminaire): boolean {
  const [x, y] = placed.frame.origin;
  return [[x, y] as const, ...planOutline(placed)].some((at) => topUnder(island, at) !== undefined);
}

function shifted(placed: PlacedLuminaire, by: Vec3): PlacedLuminaire {
  const [x, y, z] = placed.frame.origin;
  return { ...placed, frame: { ...placed.frame, origin: [x + by[0], y + by[1], z + by[2]] } };
}
