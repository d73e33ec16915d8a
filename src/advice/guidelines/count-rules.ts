/** Rules on how many pendants, by the island's length. Sources by kind; no text is quoted. */

import type { PendantRow } from "../pendant-row.ts";
import {
  COMMON,
  feet,
  type Held,
  inches,
  ofRow,
  published,
  type Range,
  type Rule,
  type Want,
  within,
} from "./rule.ts";

const counted = ({ count }: PendantRow, allows: Range, more: Partial<Want> = {}): Held => ({
  kind: "count",
  of: "pendants",
  found: count,
  allows,
  want: { variable: "count", ...allows, ...more },
});

const exactly = (n: number): Range => within(n, n);

/** A rule stated for one length speaks of islands within half a foot of it. */
const near = (length: number, stated: number): boolean => Math.abs(length - stated) <= feet(0.5);
const separate = (row: PendantRow): boolean => !row.linear;

/** A rule on pendants, not on a linear one. */
const ofPendants = (held: (row: PendantRow) => Held | undefined): Rule["held"] =>
  ofRow((row) => (separate(row) ? held(row) : undefined));

const forLength = (id: string, stated: number, n: number, rule: string, source: string): Rule => ({
  id,
  subject: "count",
  rule,
  ...published(source),
  held: ofPendants((row) => (near(row.island.length, feet(stated)) ? counted(row, exactly(n)) : undefined)),
});

export const COUNT_RULES: readonly Rule[] = [
  {
    id: "count-one-per-2-ft",
    subject: "count",
    rule: "Hang one pendant for about every 2 ft of island.",
    ...published("consumer lighting guides"),
    held: ofPendants((row) => counted(row, exactly(Math.max(1, Math.round(row.island.length / feet(2)))))),
  },
  {
    id: "count-by-length",
    subject: "count",
    rule: "Two up to 6 ft, three from 6 to 8 ft, four or five above 9 ft.",
    ...published("one consumer lighting guide"),
    held: ofPendants((row) => {
      const { length } = row.island;
      // Nothing is said of what lies between 8 and 9 ft.
      if (length > feet(8) + 1e-6 && length <= feet(9)) return undefined;
      return counted(
        row,
        length <= feet(6) ? exactly(2) : length <= feet(8) + 1e-6 ? exactly(3) : within(4, 5),
      );
    }),
  },
  {
    id: "count-four-above-8-ft",
    subject: "count",
    rule: "Above 8 ft, hang four.",
    ...published("one consumer lighting guide"),
    held: ofPendants((row) => (row.island.length > feet(8) + 1e-6 ? counted(row, exactly(4)) : undefined)),
  },
  forLength(
    "count-7-ft-three",
    7,
    3,
    "Over a top of 7 ft, hang three of about 10 in.",
    "one consumer lighting guide",
  ),
  {
    id: "count-8-ft-two",
    subject: "count",
    rule: "Over a top of 8 ft, hang two of medium size, about 15 in.",
    ...COMMON,
    held: ofPendants((row) => (near(row.island.length, feet(8)) ? counted(row, exactly(2)) : undefined)),
  },
  forLength("count-8-ft-three", 8, 3, "Over a top of 8 ft, hang three.", "consumer lighting guides"),
  forLength("count-10-ft-three", 10, 3, "Over a top of 10 ft, hang three.", "one consumer lighting guide"),
  forLength("count-10-ft-four", 10, 4, "Over a top of 10 ft, hang four.", "one consumer lighting guide"),
  {
    id: "count-odd",
    subject: "count",
    rule: "Hang an odd number.",
    ...published("consumer lighting guides; others dispute it"),
    held: ofPendants((row) => {
      const odd = row.count % 2 === 1 ? row.count : row.count + 1;
      return {
        kind: "count",
        of: "pendants",
        found: row.count,
        allows: exactly(odd),
        want: { variable: "count", low: 1, high: Infinity, odd: true },
      };
    }),
  },
  {
    id: "count-formula",
    subject: "count",
    rule: "Take 12 in off the island's length, divide by the pendant's diameter, and halve it.",
    ...published("consumer lighting guides"),
    held: ofPendants((row) => {
      if (row.rim === 0) return undefined;
      const n = (row.island.length - inches(12)) / row.rim / 2;
      // The formula gives fractions; either neighbour follows it.
      return counted(row, within(Math.max(1, Math.floor(n + 1e-6)), Math.max(1, Math.ceil(n - 1e-6))));
    }),
  },
  {
    id: "count-small-five",
    subject: "count",
    rule: "Of pendants up to 10 in wide, hang no more than four or five.",
    ...COMMON,
    held: ofPendants((row) => (row.rim <= inches(10) + 1e-6 ? counted(row, within(1, 5)) : undefined)),
  },
];
