/** Places and heights of pendants. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, heading, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import { tableFits } from "../../drawing/paper/table-cells.ts";
import type { HandoverWords } from "../handover.ts";

/** Places and heights in one table where its figures fit, else in two. */
export function pendantTables(pendants: readonly SetOutBox[], words: HandoverWords, width: number): Block[] {
  const heightsOf = (box: SetOutBox) => box.heights as NonNullable<SetOutBox["heights"]>;
  type Entry = CellColumn<SetOutBox>;
  const tag: Entry[] = [column("box", 0.7, (box) => box.tag), column("type", 0.6, (box) => box.type)];
  const length = (title: string, share: number, of: (box: SetOutBox) => number): Entry =>
    endColumn(title, share, (box) => words.dimension(of(box)));
  const places = [
    length("from face of wall 3 (x)", 1.3, ({ x }) => x),
    length("from face of wall 0 (y)", 1.3, ({ y }) => y),
  ];
  const heights: Entry[] = [
    length("ceiling above floor", 1.2, (box) => heightsOf(box).ceiling),
    length("drop to body", 1.1, (box) => heightsOf(box).drop),
    endColumn("body height", 1, (box) =>
      box.luminaire.body === undefined ? "not given" : words.dimension(heightsOf(box).body),
    ),
    length("bottom above floor", 1.2, (box) => heightsOf(box).bottom),
  ];
  if (pendants.some((box) => box.heights?.overTop))
    heights.push(
      endColumn("bottom above top", 1.1, (box) =>
        heightsOf(box).overTop ? words.dimension(heightsOf(box).gap) : "–",
      ),
    );
  const tableOf = (columns: readonly Entry[]) =>
    table(pendants, columns, { size: SMALL, depicts: "pendant row" });
  const whole = tableOf([...tag, ...places, ...heights]);
  const title = heading("Pendants, from the datum and from the finished floor", 9);
  return tableFits(whole, width)
    ? [title, whole]
    : [title, tableOf([...tag, ...places]), tableOf([...tag, ...heights])];
}
