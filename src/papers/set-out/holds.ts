/** What is on hold of the option to be built, on paper and in tables. */

import { type Hold, holds } from "../../app/set-out/open-issues.ts";
import type { SetOut } from "../../app/set-out/set-out.ts";
import { type Block, SMALL } from "../../drawing/paper/flow.ts";
import { clashReason } from "../../words/clash-words.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";

/** What is on hold of the option to be built. */
export function setOutHolds(handover: Handover, setOut: SetOut, words: HandoverWords): Hold[] {
  return holds(chosenOption(handover), setOut, handover.defaults, {
    length: words.length,
    clash: (clash) => clashReason(clash, words.unit),
  });
}

export function hold(who: string, words: string): Block {
  return {
    kind: "paragraph",
    words: `HOLD ${who}: ${words}`,
    marker: "□",
    size: SMALL + 0.25,
    depicts: "hold",
  };
}
