/** One finder of what cannot hang as it is placed, for command, papers and viewer. */

import { boxesInPlace } from "../../scene/box-places.ts";
import type { Scene } from "../../scene/scene.ts";
import { bodyClashes, ceilingClashes, doorClashes, headClashes, openingClashes } from "./body-clashes.ts";
import { boxClashes, joistClashes, keepOutClashes, tallBodyClashes } from "./ceiling-clashes.ts";
import type { Clash } from "./clash.ts";
import { directed } from "./clearing-shift.ts";

/** Every clash of an arrangement, in the order of the kinds of `ClashKind`. A point of light without a body stands in no body's way; its box
 * takes space in the ceiling, and who walks past meets it. */
export function clashes(scene: Scene): readonly Clash[] {
  const boxes = boxesInPlace(scene);
  return directed(scene, boxes, [
    ...boxClashes(boxes),
    ...tallBodyClashes(scene, boxes),
    ...bodyClashes(scene, boxes),
    ...ceilingClashes(scene, boxes),
    ...doorClashes(scene, boxes),
    ...headClashes(scene, boxes),
    ...joistClashes(scene, boxes),
    ...keepOutClashes(scene, boxes),
    ...openingClashes(boxes),
  ]);
}
