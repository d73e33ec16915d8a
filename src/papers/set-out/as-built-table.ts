/** What is measured at rough-in. */

import type { SetOut } from "../../app/set-out/set-out.ts";
import { type Block, heading, SMALL } from "../../drawing/paper/flow.ts";
import { column, table } from "../../drawing/paper/table.ts";

/** For the rough-in walk: a tick and the measured place of every pendant's box, of every other that is to be moved, and of every cable. */
export function asBuilt({ boxes }: SetOut, held: ReadonlySet<string>): Block[] {
  const measured = boxes.filter(({ kind, tag }) => kind === "pendant" || held.has(tag));
  if (measured.length === 0) return [];
  const marks = measured.flatMap(({ tag, suspensions }) => [
    tag,
    ...(suspensions?.points ?? []).map((_, i) => `${tag}.${i + 1}`),
  ]);
  const blank = (title: string) => column(title, 1.6, () => ".".repeat(18));
  return [
    heading("As built: pendants, their cables and what is to move, from the same faces", 9),
    table(
      marks,
      [
        column("marked", 0.8, () => "□"),
        column("box", 0.6, (mark) => mark),
        ...["x", "y", "ceiling", "by, date"].map(blank),
      ],
      { size: SMALL, depicts: "as built" },
    ),
  ];
}
