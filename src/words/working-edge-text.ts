/** The light where hands are, in a sentence. Names come from studies; whoever shows them escapes. */

import type { WorkingEdge } from "../app/working-edge.ts";
import { formatIlluminance } from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import type { Units } from "./person-words.ts";
import { evennessText } from "./zone-text.ts";

/** `Where cook's hands are, 150 mm inside the edge: 612 lx, evenness 0.71; least 433 lx, 2288 mm from the left end.`
 * Left is that of the drawings, the island's length from left to right. */
export function workingEdgeSentence(edge: WorkingEdge, { length, illuminance }: Units): string {
  const say = (metres: number) => formatLength(metres, length);
  const end = edge.side[0] === "y" ? "left" : "near";
  const whose = edge.person === undefined ? "hands" : `${edge.person}'s hands`;
  return `Where ${whose} are, ${say(edge.inside)} inside the edge: ${formatIlluminance(edge.average, illuminance)}, evenness ${evennessText(edge.uniformity)}; least ${formatIlluminance(edge.minimum, illuminance)}, ${say(edge.darkest)} from the ${end} end.`;
}
