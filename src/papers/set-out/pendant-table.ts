/** Places and heights of pendants. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, type Column, heading, SMALL, tableFits } from "../../drawing/paper/flow.ts";
import type { HandoverWords } from "../handover.ts";

/** Places and heights in one table where its figures fit, else in two. */
export function pendantTables(pendants: readonly SetOutBox[], words: HandoverWords, width: number): Block[] {
  const overTop = pendants.some((box) => box.heights?.overTop);
  const end = "end" as const;
  const heightsOf = (box: SetOutBox) => box.heights as NonNullable<SetOutBox["heights"]>;
  type Entry = readonly [Column, (box: SetOutBox) => string];
  const tag: Entry[] = [
    [{ title: "box", share: 0.7 }, (box) => box.tag],
    [{ title: "type", share: 0.6 }, (box) => box.type],
  ];
  const places: Entry[] = [
    [{ title: "from face of wall 3 (x)", share: 1.3, align: end }, (box) => words.dimension(box.x)],
    [{ title: "from face of wall 0 (y)", share: 1.3, align: end }, (box) => words.dimension(box.y)],
  ];
  const heights: Entry[] = [
    [
      { title: "ceiling above floor", share: 1.2, align: end },
      (box) => words.dimension(heightsOf(box).ceiling),
    ],
    [{ title: "drop to body", share: 1.1, align: end }, (box) => words.dimension(heightsOf(box).drop)],
    [
      { title: "body height", share: 1, align: end },
      (box) => (box.luminaire.body === undefined ? "not given" : words.dimension(heightsOf(box).body)),
    ],
    [
      { title: "bottom above floor", share: 1.2, align: end },
      (box) => words.dimension(heightsOf(box).bottom),
    ],
  ];
  if (overTop)
    heights.push([
      { title: "bottom above top", share: 1.1, align: end },
      (box) => (heightsOf(box).overTop ? words.dimension(heightsOf(box).gap) : "–"),
    ]);
  const table = (entries: readonly Entry[]): Extract<Block, { kind: "table" }> => ({
    kind: "table",
    size: SMALL,
    depicts: "pendant row",
    columns: entries.map(([column]) => column),
    rows: pendants.map((box) => entries.map(([, value]) => value(box))),
  });
  const whole = table([...tag, ...places, ...heights]);
  const title = heading("Pendants, from the datum and from the finished floor", 9);
  return tableFits(whole, width)
    ? [title, whole]
    : [title, table([...tag, ...places]), table([...tag, ...heights])];
}
