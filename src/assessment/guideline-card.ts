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
    readonly low?: number;
    readonly high?: number;
    /** Of this arrangement; undefined where it cannot be measured. */
    readonly found?: number;
  };
  readonly outcome: "within" | "below" | "above" | "does not apply";
  /** What the rule would ask for here, in words. */
  readonly asks: string;
  /** Light on the whole top if it were followed, where that was computed (lx, ratio). */
  readonly light?: { readonly average: number; readonly uniformity: number };
  /** How the rule came to us. */
  readonly known: "read" | "secondary" | "common practice, no source";
  readonly source: string;
  /** Identifiers of cards that cannot be followed together with this one. */
  readonly contradicts: readonly string[];
}
