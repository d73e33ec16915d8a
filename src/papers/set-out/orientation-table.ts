/** How boxes are turned, tilted and aimed. */

import type { SetOut, SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
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
  const end = "end" as const;
  const rows = new Map<string, { tags: string[]; cells: string[] }>();
  const angle = (radians: number): string => `${Number(degrees(radians).toFixed(1)) + 0}°`;
  // What hangs alike is said once.
  for (const { tag, luminaire, orientation, aim } of turned) {
    const { turn, tilt, spin } = orientation;
    const cells = [...[turn, tilt, spin].map(angle), longSide(luminaire, orientation)];
    cells.push(...(aim === undefined ? ["–", "–", "–"] : aim.map(words.dimension)));
    const row = rows.get(cells.join("|"));
    if (row === undefined) rows.set(cells.join("|"), { tags: [tag], cells });
    else row.tags.push(tag);
  }
  return [
    heading("Turned, tilted, aimed", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "hung row",
      columns: [
        { title: "box", share: 1 },
        { title: "turn", share: 0.8, align: end },
        { title: "tilt", share: 0.7, align: end },
        { title: "spin", share: 0.8, align: end },
        { title: "long side", share: 1.3 },
        { title: "aim x", share: 1, align: end },
        { title: "aim y", share: 1, align: end },
        { title: "aim above floor", share: 1.3, align: end },
      ],
      rows: [...rows.values()].map(({ tags, cells }) => [shortTags(tags), ...cells]),
    },
    bullet(
      "Turn: counter-clockwise on plan, from wall 3 towards wall 1 = 0°. Tilt: lower end leans that way, from plumb. Spin: about its own axis, before both.",
      SMALL,
    ),
    ...said,
  ];
}
