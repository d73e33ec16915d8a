/** The answer to "does it reach the target", honest about its uncertainty. `not judged` is said of a draft: figures
 * whose uncertainty was not worked out, as while a luminaire is dragged. */
export type Verdict = "meets" | "falls short" | "too close to call" | "no target" | "not judged";

/** From best to worst. "No target" asks nothing and counts as met; "too close" is less bad than a certain shortfall;
 * nothing is said to be better than what was not judged. */
export const VERDICT_RANK: Readonly<Record<Verdict, number>> = {
  "no target": 0,
  meets: 1,
  "too close to call": 2,
  "falls short": 3,
  "not judged": 4,
};

/** Whether nothing asked is missed; of nothing asked, nothing is. */
export function isMet(verdict: Verdict): boolean {
  return verdict === "meets" || verdict === "no target";
}

/** The worst of several verdicts; `no target` of none. */
export function worstVerdict(verdicts: Iterable<Verdict>): Verdict {
  let worst: Verdict = "no target";
  for (const verdict of verdicts) if (VERDICT_RANK[verdict] > VERDICT_RANK[worst]) worst = verdict;
  return worst;
}

/** Probability with which a target must be reached to be called met. */
export const DEFAULT_CONFIDENCE = 0.9;

/** *Meets* when the probability of reaching the target is at least the confidence, *falls short* when it is at most one
 * less that, else *too close to call*. */
export function verdictAt(probability: number, confidence: number): Verdict {
  // A rounding of 1 − 0.9 must not move the edge.
  const edge = 1e-12;
  if (probability >= confidence - edge) return "meets";
  return probability <= 1 - confidence + edge ? "falls short" : "too close to call";
}
