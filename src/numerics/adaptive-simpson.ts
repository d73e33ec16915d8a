/**
 * Adaptive Simpson quadrature: an interval is halved until both halves agree with the whole within fifteen times
 * its share of the tolerance, and the difference is used once more [1].
 *
 * [1] J. N. Lyness, "Notes on the adaptive Simpson quadrature routine", J. ACM 16 (1969) 483–495.
 */

const DEEPEST = 40;

/** ∫ f from a to b within `tolerance` (absolute) for f that Simpson's rule can follow: at least continuous.
 * NaN of f makes the result NaN. */
export function adaptiveSimpson(f: (x: number) => number, a: number, b: number, tolerance: number): number {
  const middle = (a + b) / 2;
  const [fa, fm, fb] = [f(a), f(middle), f(b)];
  return halve(f, a, b, fa, fm, fb, ((b - a) / 6) * (fa + 4 * fm + fb), tolerance, 0);
}

function halve(
  f: (x: number) => number,
  a: number,
  b: number,
  fa: number,
  fm: number,
  fb: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const m = (a + b) / 2;
  const fl = f((a + m) / 2);
  const fr = f((m + b) / 2);
  const left = ((m - a) / 6) * (fa + 4 * fl + fm);
  const right = ((b - m) / 6) * (fm + 4 * fr + fb);
  const difference = left + right - whole;
  // Four halvings at least: a narrow feature between the first five points would go unseen.
  if (depth >= 4 && (Math.abs(difference) <= 15 * tolerance || depth >= DEEPEST))
    return left + right + difference / 15;
  if (Number.isNaN(difference)) return Number.NaN;
  return (
    halve(f, a, m, fa, fl, fm, left, tolerance / 2, depth + 1) +
    halve(f, m, b, fm, fr, fb, right, tolerance / 2, depth + 1)
  );
}
