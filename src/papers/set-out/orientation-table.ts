/** How boxes are turned, tilted and aimed. */

import type { SetOut, SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import { planExtents, planForm } from "../../luminaire/plan-extent.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import type { RoomShape } from "../../scene/scene.ts";
import { degrees } from "../../units/quantities.ts";
import type { HandoverWords } from "../handover.ts";

/** What does not simply hang plumb, or lies another way than the room: how it is turned, and the point it is aimed at. */
export function turnedBoxes({ boxes }: SetOut, room: RoomShape): readonly SetOutBox[] {
  return boxes.filter((box) => {
    if (isFlush(box, room)) return false;
    const { turn, tilt } = box.orientation;
    return (
      tilt > 1e-9 || box.aim !== undefined || (Math.abs(turn) > 1e-9 && planForm(box.luminaire) !== "circle")
    );
  });
}

/** Which way the long side of one that hangs level lies on plan. */
function longSide(luminaire: SetOutBox["luminaire"], { turn, tilt, spin }: SetOutBox["orientation"]): string {
  const [length, width] = planExtents(luminaire);
  if (tilt > 1e-9 || Math.abs(length - width) < 1e-6) return "–";
  const bearing = degrees(turn + spin) + (width > length ? 90 : 0);
  const angle = Number((((bearing % 180) + 180) % 180).toFixed(1)) % 180;
  return angle === 0 ? "along wall 0" : angle === 90 ? "along wall 3" : `${angle}° from wall 0`;
}

/** A round one that lies in a sloped ceiling as it does: nothing is to be turned or tilted. */
function isFlush({ kind, luminaire, orientation, aim }: SetOutBox, { slope }: RoomShape): boolean {
  const follows = slope !== 0 && Math.abs(orientation.tilt - Math.abs(slope)) < 1e-6;
  return follows && kind === "recessed" && aim === undefined && planForm(luminaire) === "circle";
}

/** Turn, tilt, spin and aim of each box that has them, from the datum and the finished floor. */
export function asHung(setOut: SetOut, room: RoomShape, words: HandoverWords): Block[] {
  const turned = turnedBoxes(setOut, room);
  const flush = setOut.boxes.filter((box) => isFlush(box, room));
  const slope = Number(degrees(Math.abs(room.slope)).toFixed(1));
  const said =
    flush.length === 0
      ? []
      : [
          bullet(
            `${shortTags(flush.map(({ tag }) => tag))} sit flush in the sloped ceiling and lean ${slope}° with it; they are not tilted in it.`,
            SMALL,
          ),
        ];
  if (turned.length === 0) return said;
  const angle = (radians: number): string => `${Number(degrees(radians).toFixed(1)) + 0}°`;
  const aimAt =
    (axis: 0 | 1 | 2) =>
    ({ aim }: SetOutBox): string =>
      aim === undefined ? "–" : words.dimension(aim[axis]);
  const columns: readonly CellColumn<SetOutBox>[] = [
    endColumn("turn", 0.8, ({ orientation }) => angle(orientation.turn)),
    endColumn("tilt", 0.7, ({ orientation }) => angle(orientation.tilt)),
    endColumn("spin", 0.8, ({ orientation }) => angle(orientation.spin)),
    column("long side", 1.3, ({ luminaire, orientation }) => longSide(luminaire, orientation)),
    endColumn("aim x", 1, aimAt(0)),
    endColumn("aim y", 1, aimAt(1)),
    endColumn("aim above floor", 1.3, aimAt(2)),
  ];
  // What hangs alike is said once.
  const rows = new Map<string, SetOutBox[]>();
  for (const box of turned) {
    const key = columns.map(({ cell }) => cell(box, 0)).join("|");
    rows.set(key, [...(rows.get(key) ?? []), box]);
  }
  return [
    heading("Turned, tilted, aimed", 9),
    table(
      [...rows.values()],
      [
        column("box", 1, (boxes) => shortTags(boxes.map(({ tag }) => tag))),
        ...columns.map((each) => ({ ...each, cell: ([box]: SetOutBox[]) => each.cell(box, 0) })),
      ],
      { size: SMALL, depicts: "hung row" },
    ),
    bullet(
      "Turn: counter-clockwise on plan, from wall 3 towards wall 1 = 0°. Tilt: lower end leans that way, from plumb. Spin: about its own axis, before both.",
      SMALL,
    ),
    ...said,
  ];
}
