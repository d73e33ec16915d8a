/**
 * Rules on how far apart, and how far from the ends. With N pendants of rim width w over a length L each fixes the
 * pitch s between centres:
 *
 *   gap g: s = g + w;  free end e: s = (L − 2e − w) / (N − 1);  centre of the outer one at c: s = (L − 2c) / (N − 1).
 *
 * Sources by kind; no text is quoted.
 */

import type { PendantRow } from "../pendant-row.ts";
import {
  about,
  atLeast,
  COMMON,
  type Held,
  inches,
  mirrored,
  ofRow,
  published,
  type Range,
  type Rule,
  shifted,
  within,
} from "./rule.ts";

/** A row of several; one pendant has neither pitch nor gap. */
const ofSeveral = (held: (row: PendantRow & { pitch: number; gap: number }) => Held | undefined) =>
  ofRow((row) =>
    row.pitch === undefined || row.gap === undefined
      ? undefined
      : held({ ...row, pitch: row.pitch, gap: row.gap }),
  );

const pitched = (allows: (row: PendantRow) => Range) =>
  ofSeveral((row) => ({
    kind: "length",
    of: "centre to centre",
    found: row.pitch,
    allows: allows(row),
    want: { variable: "pitch", ...allows(row) },
  }));

const gapped = (allows: Range, applies: (row: PendantRow) => boolean = () => true) =>
  ofSeveral((row) =>
    applies(row)
      ? {
          kind: "length",
          of: "free gap between rims",
          found: row.gap,
          allows,
          want: { variable: "pitch", ...shifted(allows, row.rim) },
        }
      : undefined,
  );

/** Free ends, measured to the rim, or to the centre of the outer pendant. */
const ended = (allows: Range, to: "rim" | "centre") =>
  ofSeveral((row) => {
    const inset = to === "rim" ? row.rim / 2 : 0;
    return {
      kind: "length",
      of: to === "rim" ? "outer rim to the end of the top" : "outer centre to the end of the top",
      found: to === "rim" ? row.end : row.endToCentre,
      allows,
      want: {
        variable: "pitch",
        // s = (L − 2(e + inset)) / (N − 1)
        ...mirrored(allows, row.island.length / 2 - inset, (row.count - 1) / 2),
      },
    };
  });

export const SPACING_RULES: readonly Rule[] = [
  {
    id: "equal-bays",
    subject: "spacing",
    rule: "Share the top into equal bays: length over count between centres, half of that at each end.",
    ...published("an electrician's advice and two guides"),
    held: pitched(({ island, count }) => about(island.length / count)),
  },
  {
    id: "equal-gaps",
    subject: "spacing",
    rule: "Share the top by one more than the count: the same between centres and at each end.",
    ...published("consumer lighting guides"),
    held: pitched(({ island, count }) => about(island.length / (count + 1))),
  },
  {
    id: "pitch-24-30",
    subject: "spacing",
    rule: "Hang them 24 to 30 in centre to centre.",
    ...published("consumer lighting guides"),
    held: pitched(() => within(inches(24), inches(30))),
  },
  {
    id: "gap-one-diameter",
    subject: "spacing",
    rule: "Leave a gap of one pendant's width between rims.",
    ...published("consumer lighting guides"),
    held: ofSeveral((row) => {
      if (row.rim === 0) return undefined;
      const allows = about(row.rim);
      return {
        kind: "length",
        of: "free gap between rims",
        found: row.gap,
        allows,
        want: { variable: "pitch", ...shifted(allows, row.rim) },
      };
    }),
  },
  {
    id: "gap-24",
    subject: "spacing",
    rule: "Leave at least 24 in between rims.",
    ...published("consumer lighting guides"),
    held: gapped(atLeast(inches(24))),
  },
  {
    id: "gap-30",
    subject: "spacing",
    rule: "Leave 30 in between rims.",
    ...published("a lighting maker and a design team"),
    held: gapped(about(inches(30))),
  },
  {
    id: "gap-12",
    subject: "spacing",
    rule: "Never leave less than 12 in between rims.",
    ...published("one consumer lighting guide"),
    held: gapped(atLeast(inches(12))),
  },
  {
    id: "gap-small-12-18",
    subject: "spacing",
    rule: "Pendants up to about 10 in wide hang 12 to 18 in apart.",
    ...COMMON,
    held: gapped(within(inches(12), inches(18)), ({ rim }) => rim > 0 && rim <= inches(10) + 1e-6),
  },
  {
    id: "gap-large-24-34",
    subject: "spacing",
    rule: "Pendants 18 to 24 in wide hang 24 to 34 in apart.",
    ...COMMON,
    held: gapped(
      within(inches(24), inches(34)),
      ({ rim }) => rim >= inches(18) - 1e-6 && rim <= inches(24) + 1e-6,
    ),
  },
  {
    id: "end-18",
    subject: "ends",
    rule: "Set the outer pendants 18 in in from the ends, clear of heads.",
    ...published("one consumer lighting guide"),
    held: ended(about(inches(18)), "centre"),
  },
  {
    id: "end-6-12",
    subject: "ends",
    rule: "Leave 6 to 12 in from the outer rim to the end of the top.",
    ...published("consumer lighting guides"),
    held: ended(within(inches(6), inches(12)), "rim"),
  },
  {
    id: "end-12",
    subject: "ends",
    rule: "Leave about 12 in free at each end.",
    ...COMMON,
    held: ended(about(inches(12)), "rim"),
  },
];
