/**
 * A rule of thumb held against this arrangement: what it says, who says it, what it would ask for here, and the
 * light that would give. Cards inform; no verdict rests on them, and where they contradict each other they say so.
 */

export type GuidelineSubject = "clearance" | "count" | "spacing" | "ends" | "size" | "recessed" | "other";

export interface GuidelineCard {
  /** Stable kebab-case identifier. */
  readonly id: string;
  readonly subject: GuidelineSubject;
  /** The rule in our words, one sentence. */
  readonly rule: string;
  /** What is measured, and the range the rule allows; open ends are left out. Lengths in metres. */
  readonly measure: {
    readonly kind: "length" | "count" | "ratio";
    /** `height above the floor`, `free gap between rims`. */
    readonly of?: string;
    readonly low?: number;
    readonly high?: number;
    /** Of this arrangement; undefined where it cannot be measured. */
    readonly found?: number;
  };
  readonly outcome: "within" | "below" | "above" | "does not apply";
  /** What the rule would ask for here, in words. */
  readonly asks: string;
  /** The row that would follow it, for whoever wants to hang it so (m). */
  readonly row?: ImpliedRow;
  /** Light on the whole top if it were followed, where that was computed (lx, ratio). */
  readonly light?: { readonly average: number; readonly uniformity: number };
  /** How the rule came to us: read in print or on a page, or heard everywhere. */
  readonly known: "published" | "common practice, no source";
  /** What kind of text says so. */
  readonly source: string;
  /** Identifiers of cards that cannot be followed together with this one. */
  readonly contradicts: readonly string[];
}

/** Pendants over the middle of the island (m). */
export interface ImpliedRow {
  readonly count: number;
  /** Centre to centre; 0 for one pendant. */
  readonly pitch: number;
  readonly clearance: number;
  /** Of each along the island. */
  readonly width: number;
}
