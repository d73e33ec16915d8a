/** The light where hands are, in a sentence. Names come from studies; whoever shows them escapes. */

import type { WorkingEdge } from "../app/working-edge.ts";
import type { Wording } from "./wording.ts";
import { evennessText } from "./zone-text.ts";

/** `Where cook's hands are, 150 mm inside the edge: 612 lx, evenness 0.71; least 433 lx, 2288 mm from the left end.`
 * Left is that of the drawings, the island's length from left to right. */
export function workingEdgeSentence(edge: WorkingEdge, words: Wording): string {
  const end = edge.side[0] === "y" ? "left" : "near";
  const whose = edge.person === undefined ? "hands" : `${edge.person}'s hands`;
  return `Where ${whose} are, ${words.length(edge.inside)} inside the edge: ${words.light(edge.average)}, evenness ${evennessText(edge.uniformity)}; least ${words.light(edge.minimum)}, ${words.length(edge.darkest)} from the ${end} end.`;
}
