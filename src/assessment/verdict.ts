/** The answer to "does it reach the target", honest about its doubt. */
export type Verdict = "meets" | "falls short" | "too close to call" | "no target";

// "No target" asks nothing and counts as met; "too close" is less bad than a certain shortfall.
const RANK: Readonly<Record<Verdict, number>> = {
  "no target": 0,
  meets: 1,
  "too close to call": 2,
  "falls short": 3,
};

/** The worst of several verdicts; `no target` of none. */
export function worstVerdict(verdicts: Iterable<Verdict>): Verdict {
  let worst: Verdict = "no target";
  for (const verdict of verdicts) if (RANK[verdict] > RANK[worst]) worst = verdict;
  return worst;
}
