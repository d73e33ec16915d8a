/** Notes that keep people out of trouble. */

import type { SetOut } from "../../app/set-out/set-out.ts";
import { type Block, bullet, gap, SMALL } from "../../drawing/paper/flow.ts";
import { rectangle } from "../../geometry/polygon.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import type { Scene } from "../../scene/scene.ts";
import { degrees, METRES_PER_FOOT } from "../../units/quantities.ts";
import { overHobSentence } from "../../words/hob-text.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";
import { turnedBoxes } from "./orientation-table.ts";

export function notes(handover: Handover, setOut: SetOut, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const { room } = scene;
  const lines: string[] = [];
  if (setOut.centreline !== undefined) lines.push(setOut.centreline);
  const pendants = setOut.boxes.filter(({ kind }) => kind === "pendant").map(({ tag }) => tag);
  if (pendants.length > 0)
    lines.push(
      `If the island is not yet set, or has moved: hold ${shortTags(pendants)}, measure it, and ask.`,
    );
  lines.push(
    "Faces are FINISHED faces (plaster, tile, floor covering on); if they are not on yet, add their thickness before marking.",
    `Datum: the corner of the finished faces of wall 0 (at the foot of the plan) and wall 3 (on its left). Strings run from it to ${words.length(setOut.length)} and ${words.length(setOut.width)} at the far faces; every figure is rounded once, so gaps are differences.`,
  );
  if (setOut.boxes.some((box) => box.kind === "pendant"))
    lines.push(
      "Hang by the bottom edge: set heights from the finished top with a laser line, to within 3 mm (1/8 in) of one another.",
    );
  if (room.slope !== 0)
    lines.push(
      `The ceiling rises ${Number(degrees(room.slope).toFixed(1))}°, from ${words.length(room.ceilingHeight)} at its lowest to ${words.length(highest(room))}: ${dropsDiffer(setOut) ? "each drop differs" : "drops are equal along the row, but only there"}. Every suspension needs a hang-straight swivel that allows this angle; many stop at 25 to 30° (common practice, no source).`,
      `Distances x and y are level, plumbed up from the floor. With the tape on the ceiling, up the slope, ${upTheSlope(room.slope, words)}.`,
    );
  if (turnedBoxes(setOut, room).some(({ orientation }) => orientation.tilt > 0))
    lines.push('Some luminaires are tilted or aimed: see "Turned, tilted, aimed" here or on the schedule.');
  const overHob = overHobSentence(scene);
  if (overHob !== undefined) lines.push(overHob);
  lines.push(
    "Pendants are switched and dimmed on a leg of their own, apart from the ambient light.",
    "Electrical work, boxes, supports, heat above a hob and hanging glass: licensed people and local codes decide.",
  );
  return lines.map((line) => bullet(line, SMALL + 0.25)).concat(gap(2));
}

/** A round length in the sheet's own unit, and what the tape reads of it. */
function upTheSlope(slope: number, words: HandoverWords): string {
  if (words.unit !== "ft-in") return `1000 becomes ${(1000 / Math.cos(slope)).toFixed(0)}`;
  const level = 10 * METRES_PER_FOOT;
  return `${words.length(level)} becomes ${words.length(level / Math.cos(slope))}`;
}

function dropsDiffer({ boxes }: SetOut): boolean {
  return new Set(boxes.flatMap(({ heights }) => (heights === undefined ? [] : [heights.drop]))).size > 1;
}

function highest(room: Scene["room"]): number {
  return Math.max(...rectangle(0, 0, room.length, room.width).map(([x, y]) => ceilingAt(room, x, y)));
}
