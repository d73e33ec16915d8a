/**
 * A rule of thumb as data: how it is measured on an arrangement, and what it wants of it in one of the few numbers
 * an arrangement is made of. Lengths in metres.
 */

import type { Scene } from "../../scene/scene.ts";
import { METRES_PER_FOOT, METRES_PER_INCH } from "../../units/quantities.ts";
import type { PendantRow } from "../pendant-row.ts";
import type { GuidelineCard, GuidelineSubject } from "./guideline-card.ts";
import type { RecessedGrid } from "./recessed-grid.ts";

/** What rules are held against. */
export interface Arrangement {
  readonly scene: Scene;
  readonly row?: PendantRow;
  readonly recessed?: RecessedGrid;
}

/** The numbers of an arrangement that rules pull at. */
export type Variable =
  /** Lowest rim above the top. */
  | "clearance"
  /** Pendants in the row. */
  | "count"
  /** Centre to centre. */
  | "pitch"
  /** Of one pendant along the island. */
  | "width"
  | "recessed spacing"
  | "recessed margin";

export interface Range {
  /** −∞ and ∞ for open ends. */
  readonly low: number;
  readonly high: number;
  /** The single figure a rule names, of which the range is the nearest inch. */
  readonly at?: number;
}

export interface Want extends Range {
  readonly variable: Variable;
  /** Only odd counts. */
  readonly odd?: boolean;
}

/** A rule on an arrangement it applies to. */
export interface Held {
  readonly kind: GuidelineCard["measure"]["kind"];
  readonly of: string;
  readonly found: number;
  readonly allows: Range;
  /** Undefined where no other arrangement follows from it. */
  readonly want?: Want;
  /** What would follow it instead, as a sentence; without it, other luminaires. */
  readonly remedy?: string;
}

export interface Rule {
  readonly id: string;
  readonly subject: GuidelineSubject;
  readonly rule: string;
  readonly known: GuidelineCard["known"];
  readonly source: string;
  /** Undefined where the rule does not speak of such an arrangement. */
  held(arrangement: Arrangement): Held | undefined;
}

export const inches = (n: number): number => n * METRES_PER_INCH;
export const feet = (n: number): number => n * METRES_PER_FOOT;

/** A single figure is taken to the nearest inch, as such rules are spoken. */
const ABOUT = inches(1);

export const within = (low: number, high: number): Range => ({ low, high });
export const about = (value: number): Range => ({ low: value - ABOUT, high: value + ABOUT, at: value });
/** A range moved by `by`. */
export const shifted = ({ low, high, at }: Range, by: number): Range => ({
  low: low + by,
  high: high + by,
  ...(at === undefined ? {} : { at: at + by }),
});

/** A range counted the other way round: `from` less it, over `n`. */
export const mirrored = ({ low, high, at }: Range, from: number, n = 1): Range => ({
  low: (from - high) / n,
  high: (from - low) / n,
  ...(at === undefined ? {} : { at: (from - at) / n }),
});

export const atLeast = (low: number): Range => ({ low, high: Infinity });
export const atMost = (high: number): Range => ({ low: -Infinity, high });

/** Every rule is common practice; some were read in print as well. */
export const COMMON = { known: "common practice, no source", source: "common practice, no source" } as const;
export const published = (source: string) => ({ known: "published", source }) as const;

/** A rule on one number of the row of pendants; `does not apply` without a row. */
export function ofRow(held: (row: PendantRow, arrangement: Arrangement) => Held | undefined): Rule["held"] {
  return (arrangement) => (arrangement.row === undefined ? undefined : held(arrangement.row, arrangement));
}

export function ofRecessed(
  held: (grid: RecessedGrid, arrangement: Arrangement) => Held | undefined,
): Rule["held"] {
  return (arrangement) =>
    arrangement.recessed === undefined ? undefined : held(arrangement.recessed, arrangement);
}
