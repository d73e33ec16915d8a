/** How boxes are turned, tilted and aimed. */

import type { SetOut, SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { planForm } from "../../luminaire/plan-extent.ts";
import { degrees } from "../../units/quantities.ts";
import type { HandoverWords } from "../handover.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";

/** What does not simply hang plumb, or lies another way than the room: how it is turned, and the point it is aimed at. */
export function turnedBoxes({ boxes }: SetOut): readonly SetOutBox[] {
  return boxes.filter(
    ({ luminaire, orientation: { turn, tilt }, aim }) =>
      tilt > 1e-9 || aim !== undefined || (Math.abs(turn) > 1e-9 && planForm(luminaire) !== "circle"),
  );
}

/** Turn, tilt, spin and aim of each box that has them, from the datum and the finished floor. */
export function asHung(setOut: SetOut, words: HandoverWords): Block[] {
  const turned = turnedBoxes(setOut);
  if (turned.length === 0) return [];
  const end = "end" as const;
  const rows = new Map<string, { tags: string[]; cells: string[] }>();
  const angle = (radians: number): string => `${Number(degrees(radians).toFixed(1)) + 0}°`;
  // What hangs alike is said once.
  for (const { tag, orientation, aim } of turned) {
    const { turn, tilt, spin } = orientation;
    const cells = [turn, tilt, spin].map(angle);
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
  ];
}
