/** Guideline cards that disagree, for what is shown of them. */
import type { GuidelineCard } from "../../src/advice/guidelines/guideline-card.ts";

export const SAMPLE_CARDS: readonly GuidelineCard[] = [
  {
    id: "clearance-above-top",
    subject: "clearance",
    rule: "The lowest point hangs 30 to 36 in above the top.",
    measure: { kind: "length", low: 0.762, high: 0.914, found: 0.85 },
    outcome: "within",
    asks: "It asks for no change here.",
    light: { average: 560, uniformity: 0.62 },
    known: "common practice, no source",
    source: "common practice, no source",
    contradicts: ["spacing-even"],
  },
  {
    id: "spacing-even",
    subject: "spacing",
    rule: "Centres stand 24 to 30 in apart.",
    measure: { kind: "length", low: 0.61, high: 0.762, found: 0.8 },
    outcome: "above",
    asks: "It would bring the pendants 38 mm nearer to each other.",
    known: "published",
    source: "trade articles",
    contradicts: ["clearance-above-top"],
  },
];
