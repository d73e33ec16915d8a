/** What is on hold of the option to be built, on paper and in tables. */

import type { Hold } from "../../app/set-out/hold.ts";
import { holds } from "../../app/set-out/open-issues.ts";
import { type SetOut, type SetOutUnit, setOut } from "../../app/set-out/set-out.ts";
import { type Block, SMALL } from "../../drawing/paper/flow.ts";
import { formatLength } from "../../units/length-text.ts";
import { clashReason } from "../../words/clash-words.ts";
import { orderContradictionWords } from "../../words/order-words.ts";
import { chosenOption, type Handover, type HandoverOption, type HandoverWords } from "../handover.ts";

/** What is on hold of the option to be built. */
export function setOutHolds(handover: Handover, layout: SetOut, words: HandoverWords): Hold[] {
  return sharedOnce(
    holds(chosenOption(handover), layout, handover.defaults, {
      length: words.length,
      clash: (clash) => clashReason(clash, words.unit),
      order: orderContradictionWords,
    }),
  );
}

/** What layers share is one line of the paper, at the first of them. */
function sharedOnce(found: readonly Hold[]): Hold[] {
  return found.flatMap((hold): Hold[] => {
    const { shared } = hold;
    if (shared === undefined) return [hold];
    const all = found.filter((each) => each.shared?.stem === shared.stem);
    if (all[0] !== hold) return [];
    const names = all.map((each) => each.shared?.name).join(", ");
    return [{ ...hold, tags: [], words: `${shared.stem} ${names}.` }];
  });
}

/** The same of a light alone, before any paper is laid out. */
export function holdsOf(
  light: Pick<HandoverOption, "scene" | "clashes"> & Pick<Handover, "defaults">,
  unit: SetOutUnit,
): Hold[] {
  const length = (metres: number): string => formatLength(metres, unit);
  return holds(light, setOut(light.scene, unit, length), light.defaults, {
    length,
    clash: (clash) => clashReason(clash, unit),
    order: orderContradictionWords,
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
