/** Arrow keys in drawings: where they point, and how far one press goes. */

import { METRES_PER_INCH } from "../../units/quantities.ts";
import type { Wording } from "../../words/wording.ts";

/** Arrow keys as right and up on the page. */
export const ARROWS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** 25 mm or 1 in; fine 5 mm or 1/8 in (m). */
export function keyStep(words: Wording, fine: boolean): number {
  if (words.lengthUnit === "ft-in") return fine ? METRES_PER_INCH / 8 : METRES_PER_INCH;
  return fine ? 0.005 : 0.025;
}
