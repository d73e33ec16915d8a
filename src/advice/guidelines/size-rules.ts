/** Rules on how large a pendant may be for the top. Sources by kind; no text is quoted. */

import { freeSides } from "../free-sides.ts";
import type { PendantRow } from "../pendant-row.ts";
import {
  atMost,
  COMMON,
  type Held,
  inches,
  ofRow,
  published,
  type Range,
  type Rule,
  within,
} from "./rule.ts";

/** A share of some extent of the top that one pendant's width along the island takes. */
const share = (row: PendantRow, of: string, whole: number, allows: Range, rim = row.rim): Held => ({
  kind: "ratio",
  of,
  found: rim / whole,
  allows,
  // In proportion: a pendant wider or narrower in every direction.
  want: {
    variable: "width",
    low: rim === 0 ? -Infinity : (allows.low * whole * row.rim) / rim,
    high: rim === 0 ? Infinity : (allows.high * whole * row.rim) / rim,
  },
});

const sized = (row: PendantRow): boolean => row.rim > 0;
const pendants = (held: (row: PendantRow) => Held | undefined) =>
  ofRow((row) => (sized(row) && !row.linear ? held(row) : undefined));
const linear = (allows: Range) =>
  ofRow((row) =>
    row.linear && row.count === 1
      ? share(row, "share of the top's length", row.island.length, allows)
      : undefined,
  );

export const SIZE_RULES: readonly Rule[] = [
  {
    id: "width-half-of-island",
    subject: "size",
    rule: "Keep a pendant within a third to a half of the island's width.",
    ...published("one consumer lighting guide"),
    held: pendants((row) =>
      share(row, "share of the top's width", row.island.width, atMost(1 / 2), row.breadth),
    ),
  },
  {
    id: "width-quarter-of-length",
    subject: "size",
    rule: "Keep a pendant within a quarter of the island's length.",
    ...published("consumer lighting guides"),
    held: pendants((row) => share(row, "share of the top's length", row.island.length, atMost(1 / 4))),
  },
  {
    id: "widths-two-thirds",
    subject: "size",
    rule: "Keep the widths of all together within two thirds of the island's length.",
    ...published("consumer lighting guides"),
    held: pendants((row) => ({
      kind: "ratio",
      of: "share of the top's length, all together",
      found: (row.count * row.rim) / row.island.length,
      allows: atMost(2 / 3),
      want: { variable: "width", low: -Infinity, high: (2 / 3) * (row.island.length / row.count) },
    })),
  },
  {
    id: "single-width-less-24",
    subject: "size",
    rule: "A single pendant is at least 24 in narrower than the top, 12 in free on each side.",
    ...published("one consumer lighting guide"),
    held: pendants((row) => (row.count === 1 ? free(row, inches(12)) : undefined)),
  },
  {
    id: "side-free-6",
    subject: "size",
    rule: "Leave 6 in of top free on each side of a pendant.",
    ...published("one consumer lighting guide"),
    held: pendants((row) => free(row, inches(6))),
  },
  {
    id: "linear-two-thirds",
    subject: "size",
    rule: "Keep a linear pendant within the middle two thirds of the top; take a pair where the top is very long.",
    ...published("a lighting maker and a design team"),
    held: linear(atMost(2 / 3)),
  },
  {
    id: "linear-third-to-two-thirds",
    subject: "size",
    rule: "A linear pendant takes a third to two thirds of the top's length.",
    ...published("a web log"),
    held: linear(within(1 / 3, 2 / 3)),
  },
  {
    id: "linear-three-quarters",
    subject: "size",
    rule: "A linear pendant may take up to three quarters of the top's length.",
    ...COMMON,
    held: linear(atMost(3 / 4)),
  },
];

/** Free top between rim and edge across the island, the lesser side (m). */
function free(row: PendantRow, least: number): Held {
  const sides = freeSides(row);
  const [nearer, other] = [Math.min(...sides), Math.max(...sides)];
  const most = Math.max(0, row.breadth + 2 * (nearer - least));
  // Where no width would do, another place may: as much free top lies on the other side.
  const isMoved = most === 0 && nearer + other + row.breadth > 2 * least;
  return {
    kind: "length",
    of: "rim to the side of the top",
    found: nearer,
    allows: { low: least, high: Infinity },
    ...(isMoved
      ? { remedy: "Hang the row farther from that side of the top." }
      : {
          want: {
            variable: "width",
            low: -Infinity,
            high: row.breadth === 0 ? Infinity : (most * row.rim) / row.breadth,
          },
        }),
  };
}
