/** The light where hands are, in a sentence. Names come from studies; whoever shows them escapes. */

import type { WorkingEdge } from "../app/working-edge.ts";
import type { Wording } from "./wording.ts";
import { evennessText } from "./zone-text.ts";

/** `Along the edge that cook works at, 150 mm inside it: 612 lx, evenness 0.71; least 433 lx, 2288 mm from the left end.` It is of
 * the whole edge, wherever cook stands. Left is that of the drawings, the island's length from left to right. */
export function workingEdgeSentence(edge: WorkingEdge, words: Wording): string {
  const end = edge.side[0] === "y" ? "left" : "near";
  const whose = edge.person === undefined ? "is worked at" : `${edge.person} works at`;
  return `Along the edge that ${whose}, ${words.length(edge.inside)} inside it: ${words.light(edge.average)}, evenness ${evennessText(edge.uniformity)}; least ${words.light(edge.minimum)}, ${words.length(edge.darkest)} from the ${end} end.`;
}
