/** Places of what is recessed in the ceiling or fixed below it. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import type { HandoverWords } from "../handover.ts";

export function fixedTable(fixed: readonly SetOutBox[], words: HandoverWords): Block {
  return table(
    fixed,
    placeColumns("mark", "light above floor", ({ height = 0 }) => height, words),
    {
      size: SMALL,
      depicts: "fixed row",
    },
  );
}

export function recessedTable(recessed: readonly SetOutBox[], words: HandoverWords): Block {
  const columns = placeColumns("box", "ceiling", ({ ceiling }) => ceiling, words);
  const style = { size: SMALL, depicts: "recessed row" } as const;
  // Two lots abreast: recessed grids are long lists of short rows.
  const count = Math.ceil(recessed.length / 2);
  if (count < 3) return table(recessed, columns, style);
  const second = columns.map(({ cell, ...column }) => ({
    ...column,
    cell: (_: SetOutBox, i: number) => (count + i < recessed.length ? cell(recessed[count + i], i) : ""),
  }));
  const between = column("", 0.35, () => "");
  return table(recessed.slice(0, count), [...columns, between, ...second], style);
}

function placeColumns(
  mark: string,
  level: string,
  levelOf: (box: SetOutBox) => number,
  words: HandoverWords,
): readonly CellColumn<SetOutBox>[] {
  return [
    column(mark, 0.7, ({ tag }) => tag),
    column("type", 0.7, ({ type }) => type),
    endColumn("x", 1.2, ({ x }) => words.dimension(x)),
    endColumn("y", 1.2, ({ y }) => words.dimension(y)),
    endColumn(level, mark === "mark" ? 1.4 : 1.2, (box) => words.dimension(levelOf(box))),
  ];
}
