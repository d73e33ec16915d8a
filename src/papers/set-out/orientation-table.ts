/** How boxes are turned, tilted and aimed. */

import type { SetOut, SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import { oneSided } from "../../luminaire/one-sided.ts";
import { planExtents, planForm } from "../../luminaire/plan-extent.ts";
import { ceilingBoxes, shortTags } from "../../scene/ceiling-boxes.ts";
import type { RoomShape, Scene } from "../../scene/scene.ts";
import { degrees } from "../../units/quantities.ts";
import type { HandoverWords } from "../handover.ts";

/** What does not simply hang plumb, or lies or lights another way than the room: how it is turned, and the point it is aimed at. */
export function turnedBoxes({ boxes }: SetOut, room: RoomShape): readonly SetOutBox[] {
  return boxes.filter((box) => {
    if (isFlush(box, room)) return false;
    const { luminaire, aim } = box;
    const { turn, tilt } = box.orientation;
    const isRound = planForm(luminaire) === "circle" && luminaire.distribution.symmetry === "rotational";
    return tilt > 1e-9 || aim !== undefined || (Math.abs(turn) > 1e-9 && !isRound);
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

/** `P1 to P3: 1.9 times as much light goes towards wall 2 as towards wall 0.` */
function brighterSides(scene: Scene): string[] {
  const tags = new Map<string, string[]>();
  for (const { tag, placed } of ceilingBoxes(scene)) {
    const side = oneSided(placed);
    if (side === undefined) continue;
    const { times, towards, from } = side;
    const words = `${times.toFixed(1)} times as much light goes towards wall ${towards} as towards wall ${from}`;
    tags.set(words, [...(tags.get(words) ?? []), tag]);
  }
  return [...tags].map(([words, of]) => `${shortTags(of)}: ${words}; look at it lit before it is fixed.`);
}

/** Turn, tilt, spin and aim of each box that has them, from the datum and the finished floor. */
export function asHung(setOut: SetOut, scene: Scene, words: HandoverWords): Block[] {
  const { room } = scene;
  const turned = turnedBoxes(setOut, room);
  const flush = setOut.boxes.filter((box) => isFlush(box, room));
  const slope = Number(degrees(Math.abs(room.slope)).toFixed(1));
  const said = [
    ...brighterSides(scene),
    ...(flush.length === 0
      ? []
      : [
          `${shortTags(flush.map(({ tag }) => tag))} sit flush in the sloped ceiling and lean ${slope}° with it; they are not tilted in it.`,
        ]),
  ].map((line) => bullet(line, SMALL));
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
