/** Places of what is recessed in the ceiling or fixed below it. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, SMALL } from "../../drawing/paper/flow.ts";
import type { HandoverWords } from "../handover.ts";

export function fixedTable(fixed: readonly SetOutBox[], words: HandoverWords): Block {
  const end = "end" as const;
  return {
    kind: "table",
    size: SMALL,
    depicts: "fixed row",
    columns: [
      { title: "mark", share: 0.7 },
      { title: "type", share: 0.7 },
      { title: "x", share: 1.2, align: end },
      { title: "y", share: 1.2, align: end },
      { title: "light above floor", share: 1.4, align: end },
    ],
    rows: fixed.map((box) => [
      box.tag,
      box.type,
      words.dimension(box.x),
      words.dimension(box.y),
      words.dimension(box.height ?? 0),
    ]),
  };
}

export function recessedTable(recessed: readonly SetOutBox[], words: HandoverWords): Block {
  const rows = recessed.map((box) => [
    box.tag,
    box.type,
    words.dimension(box.x),
    words.dimension(box.y),
    words.dimension(box.ceiling),
  ]);
  const columns = [
    { title: "box", share: 0.7 },
    { title: "type", share: 0.7 },
    { title: "x", share: 1.2, align: "end" as const },
    { title: "y", share: 1.2, align: "end" as const },
    { title: "ceiling", share: 1.2, align: "end" as const },
  ];
  // Two lots abreast: recessed grids are long lists of short rows.
  const count = Math.ceil(rows.length / 2);
  if (count < 3) return { kind: "table", size: SMALL, columns, rows, depicts: "recessed row" };
  const blank = ["", "", "", "", ""];
  return {
    kind: "table",
    size: SMALL,
    depicts: "recessed row",
    columns: [...columns, { title: "", share: 0.35 }, ...columns],
    rows: rows.slice(0, count).map((row, i) => [...row, "", ...(rows[count + i] ?? blank)]),
  };
}
