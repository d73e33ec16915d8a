/** Where long pendants hang and are fed. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { column, endColumn, table } from "../../drawing/paper/table.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import type { HandoverWords } from "../handover.ts";

/** Each point a long pendant hangs on, and where it is fed, from the datum. */
export function suspensionTable(pendants: readonly SetOutBox[], words: HandoverWords): Block[] {
  const rows = pendants.flatMap(({ tag, middle, suspensions }) =>
    suspensions === undefined
      ? []
      : [
          ...suspensions.points.map((at, i) => ({ point: `${tag}.${i + 1}`, what: "hangs", at })),
          { point: tag, what: "feed, its box", at: suspensions.feed },
          { point: tag, what: "middle", at: middle },
        ],
  );
  if (rows.length === 0) return [];
  const assumed = pendants.filter(({ suspensions }) => suspensions?.assumed === true);
  const withoutPoints = assumed.filter(({ luminaire }) => luminaire.suspensions === undefined);
  const withoutFeed = assumed.filter(({ luminaire }) => luminaire.suspensions !== undefined);
  return [
    heading("Suspensions and feed, from the datum", 9),
    table(
      rows,
      [
        column("point", 0.8, ({ point }) => point),
        column("", 1, ({ what }) => what),
        endColumn("x", 1.2, ({ at }) => words.dimension(at[0])),
        endColumn("y", 1.2, ({ at }) => words.dimension(at[1])),
      ],
      { size: SMALL, depicts: "suspension row" },
    ),
    ...said(
      withoutPoints,
      "assumed where not stated, two points at 0.4 of the length from the middle, fed at the first (common practice, no source); confirm with the maker.",
    ),
    ...said(withoutFeed, "fed at the first point, which the study does not state; confirm with the maker."),
  ];
}

function said(boxes: readonly SetOutBox[], words: string): Block[] {
  return boxes.length === 0 ? [] : [bullet(`${shortTags(boxes.map(({ tag }) => tag))}: ${words}`, SMALL)];
}
