/** Where long pendants hang and are fed. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import type { HandoverWords } from "../handover.ts";

/** Each point a long pendant hangs on, and where it is fed, from the datum. */
export function suspensionTable(pendants: readonly SetOutBox[], words: HandoverWords): Block[] {
  const rows = pendants.flatMap(({ tag, middle, suspensions }) =>
    suspensions === undefined
      ? []
      : [
          ...suspensions.points.map((at, i) => [`${tag}.${i + 1}`, "hangs", ...at.map(words.dimension)]),
          [tag, "feed, its box", ...suspensions.feed.map(words.dimension)],
          [tag, "middle", ...middle.map(words.dimension)],
        ],
  );
  if (rows.length === 0) return [];
  const assumed = pendants.filter(({ suspensions }) => suspensions?.assumed === true);
  const withoutPoints = assumed.filter(({ luminaire }) => luminaire.suspensions === undefined);
  const withoutFeed = assumed.filter(({ luminaire }) => luminaire.suspensions !== undefined);
  const end = "end" as const;
  return [
    heading("Suspensions and feed, from the datum", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "suspension row",
      columns: [
        { title: "point", share: 0.8 },
        { title: "", share: 1 },
        { title: "x", share: 1.2, align: end },
        { title: "y", share: 1.2, align: end },
      ],
      rows,
    },
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
