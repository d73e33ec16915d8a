/**
 * Rules on how high pendants hang. Two families: above the top, and above the floor; they agree only at a top of
 * 36 in. Sources by kind; no text is quoted.
 */

import type { PendantRow } from "../pendant-row.ts";
import { standingEyeHeight } from "../people/eye-height.ts";
import {
  about,
  atLeast,
  COMMON,
  feet,
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

const aboveTop = ({ clearance }: PendantRow, allows: Range): Held => ({
  kind: "length",
  of: "rim above the top",
  found: clearance,
  allows,
  want: { variable: "clearance", ...allows },
});

/** A height above the floor is a clearance once the top's height is taken off. */
const aboveFloor = (row: PendantRow, allows: Range): Held => {
  const top = row.aboveFloor - row.clearance;
  return {
    kind: "length",
    of: "rim above the floor",
    found: row.aboveFloor,
    allows,
    want: { variable: "clearance", ...shifted(allows, -top) },
  };
};

/** Stature from which a household is called tall here (m): our own reading. */
const TALL = 1.83;
/** Ceilings above 8 ft raise the pendant by so much a foot. */
const STEP = inches(3);
const overEightFeet = (ceiling: number): number => Math.max(0, (ceiling - feet(8)) / feet(1));

export const CLEARANCE_RULES: readonly Rule[] = [
  {
    id: "above-top-30-36",
    subject: "clearance",
    rule: "Leave 30 to 36 in clear between pendant and top.",
    ...COMMON,
    held: ofRow((row) => aboveTop(row, within(inches(30), inches(36)))),
  },
  {
    id: "above-top-28-34",
    subject: "clearance",
    rule: "Leave 28 to 34 in clear between pendant and top.",
    ...published("consumer lighting guides"),
    held: ofRow((row) => aboveTop(row, within(inches(28), inches(34)))),
  },
  {
    id: "above-top-24-36",
    subject: "clearance",
    rule: "Leave 24 to 36 in clear between pendant and top.",
    ...published("one consumer lighting guide; a low outlier"),
    held: ofRow((row) => aboveTop(row, within(inches(24), inches(36)))),
  },
  {
    id: "above-top-30-40",
    subject: "clearance",
    rule: "Over a counter or sink where one stands, leave 30 to 40 in.",
    ...published("consumer lighting guides"),
    held: ofRow((row) => aboveTop(row, within(inches(30), inches(40)))),
  },
  {
    id: "above-top-by-ceiling",
    subject: "clearance",
    rule: "Leave 30 in, and 3 in more for each foot of ceiling above 8 ft.",
    ...published("consumer lighting guides"),
    held: ofRow((row) => aboveTop(row, about(inches(30) + STEP * overEightFeet(row.ceiling)))),
  },
  {
    id: "above-top-36-42-high-ceiling",
    subject: "clearance",
    rule: "Under a ceiling of 10 ft or more, leave 36 to 42 in.",
    ...published("consumer lighting guides"),
    held: ofRow((row) =>
      row.ceiling < feet(10) ? undefined : aboveTop(row, within(inches(36), inches(42))),
    ),
  },
  {
    id: "above-top-metric",
    subject: "clearance",
    rule: "Leave 75 to 80 cm under a ceiling of 2.4 m, 80 to 90 cm under 2.7 m, 90 to 100 cm under 3 m.",
    ...published("a British kitchen guide"),
    held: ofRow((row) => {
      const [low, high] = row.ceiling < 2.55 ? [0.75, 0.8] : row.ceiling < 2.85 ? [0.8, 0.9] : [0.9, 1];
      return aboveTop(row, within(low, high));
    }),
  },
  {
    id: "below-ceiling-12-20",
    subject: "clearance",
    rule: "Hang 12 to 20 in below a ceiling of 8 ft, and 3 in more for each foot above that.",
    ...published("one consumer lighting guide"),
    held: ofRow((row) => {
      const more = STEP * overEightFeet(row.ceiling);
      const top = row.aboveFloor - row.clearance;
      const allows = within(inches(12) + more, inches(20) + more);
      return {
        kind: "length",
        of: "rim below the ceiling",
        found: row.ceiling - row.aboveFloor,
        allows,
        want: { variable: "clearance", ...mirrored(allows, row.ceiling - top) },
      };
    }),
  },
  {
    id: "above-floor-60-66",
    subject: "clearance",
    rule: "Hang the rim 60 to 66 in above the floor.",
    ...published("consumer lighting guides"),
    held: ofRow((row) => aboveFloor(row, within(inches(60), inches(66)))),
  },
  {
    id: "above-floor-66",
    subject: "clearance",
    rule: "Hang the rim 66 in above the floor.",
    ...published("consumer lighting guides"),
    held: ofRow((row) => aboveFloor(row, about(inches(66)))),
  },
  {
    id: "above-floor-68-72",
    subject: "clearance",
    rule: "Hang the rim 68 to 72 in above the floor, the eye level of an average adult.",
    ...published("an electrician's advice"),
    held: ofRow((row) => aboveFloor(row, within(inches(68), inches(72)))),
  },
  {
    id: "above-floor-72-tall",
    subject: "clearance",
    rule: "In a tall household, hang the rim at least 72 in above the floor.",
    ...published("an adviser of a trade association"),
    held: ofRow((row, { scene }) =>
      scene.people.some(({ stature }) => stature >= TALL) ? aboveFloor(row, atLeast(inches(72))) : undefined,
    ),
  },
  {
    id: "above-floor-75-high-ceiling",
    subject: "clearance",
    rule: "Under a ceiling of 11 ft, hang the rim 75 in above the floor.",
    ...published("one consumer lighting guide"),
    held: ofRow((row) =>
      row.ceiling < feet(10.5) || row.ceiling > feet(11.5) ? undefined : aboveFloor(row, about(inches(75))),
    ),
  },
  {
    id: "eye-of-the-tallest",
    subject: "clearance",
    rule: "Hang the rim at the eye level of the tallest who uses the kitchen.",
    ...published("consumer lighting guides"),
    held: ofRow((row, { scene }) => {
      if (scene.people.length === 0) return undefined;
      return aboveFloor(row, about(Math.max(...scene.people.map(standingEyeHeight))));
    }),
  },
];
