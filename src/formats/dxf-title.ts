/** What a CAD file says under the set-out plan: whose job, which revision, heights, circuits, what is on hold. */

import { loadReport } from "../advice/load.ts";
import type { SetOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { chosenOption, type Handover, handoverWords } from "../papers/handover.ts";
import { setOutHolds } from "../papers/set-out/holds.ts";
import { powerFigure } from "../units/power-text.ts";

export function dxfTitle(handover: Handover, setOut: SetOut): string[] {
  const { scene } = chosenOption(handover);
  const { client, address, author, number } = handover.head ?? {};
  const words = handoverWords(handover);
  const whole = (parts: readonly (string | undefined)[]): string[] => {
    const known = parts.flatMap((part) => (part === undefined || part === "" ? [] : [printable(part, 120)]));
    return known.length === 0 ? [] : [known.join(", ")];
  };
  return [
    ...whole([number, handover.project]),
    ...whole([client, address]),
    `Set-out sheet, option ${scene.letter} ${printable(scene.name, 60)}`,
    ...whole([`Revision ${handover.revision}`, handover.date, author, handover.note]),
    `Study ${handover.fingerprint}. Full size in ${handover.unit === "mm" ? "millimetres" : "inches"}, from the finished faces of walls 0 and 3. Seen from above, not mirrored.`,
    "Outlines of luminaires are at their size, of the body or else of the luminous opening, where the study states one; a cross alone is a place. Holes to cut are on LIGHTS-CUT-OUTS alone, where the study states them; others are their maker's. Circles of switches are symbols about their places.",
    ...setOut.boxes.flatMap(({ tag, luminaire, heights: h }) =>
      h === undefined
        ? []
        : [
            `${tag}: ceiling ${words.length(h.ceiling)}, drop ${words.length(h.drop)}, body ${luminaire.body === undefined ? "not given" : words.length(h.body)}, lower edge ${words.length(h.bottom)} above the floor${h.overTop ? `, ${words.length(h.gap)} above the top` : ""}`,
          ],
    ),
    ...loadReport(scene).layers.map(
      ({ circuit, layer, luminaires, fittedWatts, unknown, dimmer }) =>
        `Circuit ${circuit === undefined ? "HOLD, not named" : printable(circuit, 40)}: ${printable(layer, 40)}, ${luminaires} ${luminaires === 1 ? "luminaire" : "luminaires"}, ${powerFigure(fittedWatts, unknown, "at least", 1)} W, dimmer ${printable(dimmer?.name ?? "not stated", 60)}`,
    ),
    ...setOutHolds(handover, setOut, words).map(
      ({ tags, words: flag }) => `HOLD ${tags.length === 0 ? "all" : tags.join(", ")}: ${flag}`,
    ),
  ];
}
