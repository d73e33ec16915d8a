/** How far each box may be off, and each pendant hang lower or higher, before the verdict changes. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, heading, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import type { DrawnTolerance } from "../../drawing/tolerance-marks.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";

/** m; a box is at the very place that was looked at. */
const SAME_PLACE = 1e-6;

/** Nothing where it was not worked out. */
export function toleranceTable(
  handover: Handover,
  pendants: readonly SetOutBox[],
  words: HandoverWords,
): Block[] {
  const { tolerances = [] } = chosenOption(handover);
  if (tolerances.length === 0) return [];
  const far = (distance: number, beyond: unknown): string =>
    `${beyond === undefined ? "≥ " : ""}${words.dimension(distance)}`;
  const rows = pendants.flatMap((box) => {
    const found = tolerances.find((each) => isAt(each, box));
    if (found === undefined) return [];
    const { radius, beyond, lower, higher } = found;
    return [
      [
        box.tag,
        far(radius, beyond),
        far(lower.distance, lower.beyond),
        far(higher.distance, higher.beyond),
        verdictBeyond(found),
      ],
    ];
  });
  return [
    heading("How far off with the same verdict", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "tolerance row",
      columns: [
        { title: "box", share: 0.7 },
        { title: "off in plan", share: 1, align: "end" },
        { title: "lower", share: 1, align: "end" },
        { title: "higher", share: 1, align: "end" },
        { title: "beyond", share: 1.8 },
      ],
      rows,
    },
    paragraph(
      "One pendant at a time, all else as planned: of the light alone, not of what it hangs from or who walks under it.",
      { size: SMALL },
    ),
  ];
}

function isAt({ position: [x, y] }: DrawnTolerance, { middle }: SetOutBox): boolean {
  return Math.hypot(x - middle[0], y - middle[1]) < SAME_PLACE;
}

function verdictBeyond({ beyond, lower, higher }: DrawnTolerance): string {
  const verdicts = [beyond?.verdict, lower.beyond, higher.beyond].filter((each) => each !== undefined);
  return verdicts.length === 0 ? "nothing changes" : [...new Set(verdicts)].join(", ");
}
