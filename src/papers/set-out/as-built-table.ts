/** What is measured at rough-in. */

import type { SetOut, SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, table } from "../../drawing/paper/table.ts";

/** So many places of what has no height to measure stand side by side. */
const LOTS = 3;
const style = { size: SMALL, depicts: "as built" } as const;

const tick = column<string>("marked", 0.8, (mark) => (mark === "" ? "" : "□"));
const box = column<string>("box", 0.6, (mark) => mark);

/** Room for a measured figure. */
const blank = (title: string, share: number, dots: number): CellColumn<string> =>
  column(title, share, (mark) => (mark === "" ? "" : ".".repeat(dots)));

/** For the rough-in walk: a tick and the measured place of every pendant's box, of every other that is to be moved, and of every cable;
 * of what else is in the ceiling or fixed below it the place alone.
 * @param isWhole with rows for these; else they are to be written beside their figures */
export function asBuilt({ boxes }: SetOut, held: ReadonlySet<string>, isWhole: boolean): Block[] {
  if (boxes.length === 0) return [];
  const isMeasured = ({ kind, tag }: SetOutBox): boolean => kind === "pendant" || held.has(tag);
  const marks = boxes
    .filter(isMeasured)
    .flatMap(({ tag, suspensions }) => [
      tag,
      ...(suspensions?.points ?? []).map((_, i) => `${tag}.${i + 1}`),
    ]);
  const others = boxes.filter((each) => !isMeasured(each)).map(({ tag }) => tag);
  const columns = [tick, box, ...["x", "y", "ceiling", "by, date"].map((title) => blank(title, 1.6, 18))];
  return [
    heading("As built: pendants, their cables and what is to move, from the same faces", 9),
    ...(marks.length === 0 ? [] : [table(marks, columns, style)]),
    ...(others.length === 0 ? [] : [isWhole ? placesTable(others) : bullet(BESIDE, SMALL)]),
  ];
}

const BESIDE = "Of the others write what is measured beside their figures above.";

/** A long list of short rows, in lots abreast. */
function placesTable(tags: readonly string[]): Block {
  const rows = Math.ceil(tags.length / LOTS);
  const lots = Array.from({ length: LOTS }, (_, lot) =>
    [tick, box, blank("x", 1.4, 11), blank("y", 1.4, 11)].map(({ cell, ...each }) => ({
      ...each,
      cell: (_: string, i: number) => cell(tags[lot * rows + i] ?? "", i),
    })),
  );
  return table(tags.slice(0, rows), lots.flat(), style);
}
