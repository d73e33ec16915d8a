/** The caution of pendants over the hob, in one sentence for text and paper. */

import { pendantsOverHob } from "../advice/over-hob.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";

/** `P3 hangs over the hob: heat and grease`; undefined where none hangs over it. */
export function overHobWords(scene: Scene): string | undefined {
  const tags = pendantsOverHob(scene);
  return tags.length === 0
    ? undefined
    : `${shortTags(tags)} ${tags.length === 1 ? "hangs" : "hang"} over the hob: heat and grease`;
}

/** The same with whom to ask. */
export function overHobSentence(scene: Scene): string | undefined {
  const words = overHobWords(scene);
  return words === undefined ? undefined : `${words}. Follow the hob maker's instructions and local rules.`;
}
