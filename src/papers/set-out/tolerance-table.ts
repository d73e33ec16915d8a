/** How far each box may be off, and each pendant hang lower or higher, before the verdict changes. */

import type { Clash } from "../../advice/clashes/clash.ts";
import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, heading, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import { column, endColumn, table } from "../../drawing/paper/table.ts";
import { type DrawnTolerance, planReach } from "../../drawing/tolerance-marks.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import { CLASH_KIND } from "../../words/clash-words.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";

/** m; a box is at the very place that was looked at. */
const SAME_PLACE = 1e-6;

/** Nothing where it was not worked out. */
export function toleranceTable(
  handover: Handover,
  pendants: readonly SetOutBox[],
  words: HandoverWords,
): Block[] {
  const { tolerances = [], assessment } = chosenOption(handover);
  if (tolerances.length === 0) return [];
  const far = (distance: number, isBounded: boolean): string =>
    `${isBounded ? "" : "≥ "}${words.dimension(distance)}`;
  const height = ({ planned }: DrawnTolerance, { distance, beyond }: DrawnTolerance["lower"]): string =>
    planned === undefined ? far(distance, beyond !== undefined) : "–";
  const rows = pendants.flatMap((box) => {
    const found = tolerances.find((each) => isAt(each, box));
    if (found === undefined) return [];
    return [{ tag: box.tag, ...found, plan: planReach(found) }];
  });
  return [
    heading(`How far off with the same verdict: ${assessment.verdict}`, 9),
    table(
      rows,
      [
        column("box", 0.7, ({ tag }) => tag),
        endColumn("off in plan", 1, ({ plan, planned }) =>
          planned === undefined ? far(plan.distance, plan.isBounded) : "HOLD",
        ),
        endColumn("lower", 1, (row) => height(row, row.lower)),
        endColumn("higher", 1, (row) => height(row, row.higher)),
        column("beyond", 2.2, verdictBeyond),
      ],
      { size: SMALL, depicts: "tolerance row" },
    ),
    paragraph(
      "One pendant at a time, all else as planned. Off in plan: until the verdict is another, or it meets what stands or hangs beside it. Lower and higher: of the light alone, not of who walks under it.",
      { size: SMALL },
    ),
  ];
}

const clashName = ({ between, kind }: Pick<Clash, "between" | "kind">): string =>
  `${shortTags(between.map((name) => printable(name, 40)))}: ${CLASH_KIND[kind]}`;

/** Tolerances about the boxes that move with the pendants: of a long one its box is not over its middle. */
export function aboutBoxes(
  tolerances: readonly DrawnTolerance[],
  boxes: readonly SetOutBox[],
): readonly DrawnTolerance[] {
  return tolerances.map((each) => {
    const box = boxes.find((other) => isAt(each, other));
    return box === undefined ? each : { ...each, position: [box.at[0], box.at[1], each.position[2]] };
  });
}

function isAt({ position: [x, y] }: DrawnTolerance, { middle }: SetOutBox): boolean {
  return Math.hypot(x - middle[0], y - middle[1]) < SAME_PLACE;
}

function verdictBeyond(tolerance: DrawnTolerance): string {
  const { beyond, obstacle, planned, lower, higher, radius } = tolerance;
  if (planned !== undefined) return `to be moved first: ${clashName(planned)}`;
  const met =
    obstacle !== undefined && obstacle.distance < radius ? clashName(obstacle.clash) : beyond?.verdict;
  const verdicts = [met, lower.beyond, higher.beyond].filter((each) => each !== undefined);
  return verdicts.length === 0 ? "nothing changes" : [...new Set(verdicts)].join(", ");
}
