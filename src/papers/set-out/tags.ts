/** Tags of the boxes of a set-out in few letters. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";

export function tagRange(boxes: readonly SetOutBox[]): string {
  return shortTags(boxes.map((box) => box.tag));
}
