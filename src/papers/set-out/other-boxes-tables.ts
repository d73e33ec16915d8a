/** Places of what is recessed in the ceiling or fixed below it. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
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

/** The holes to cut, by type: as the study states them, and of the others that only their maker can. */
export function cutOuts(recessed: readonly SetOutBox[], words: HandoverWords): Block {
  const types = new Map(recessed.map(({ type, luminaire }) => [type, luminaire]));
  const parts = [...types].map(([type, luminaire]) => `${type} ${cutOutWords(luminaire, words)}`);
  return bullet(`Cut-out in the ceiling: ${parts.join("; ")}.`, SMALL);
}

/** `75 mm`, `600 mm × 300 mm` */
export function cutOutWords({ cutOut }: Luminaire, words: Pick<HandoverWords, "length">): string {
  if (cutOut === undefined) return "not stated, the maker's";
  if (typeof cutOut === "number") return words.length(cutOut);
  return cutOut.map(words.length).join(" × ");
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
