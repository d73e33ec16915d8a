/**
 * Compensated summation: the rounding error of each addition is carried along and added at the end.
 *
 * Error ≤ 2 ulp of the result plus n² ulp² of the sum of magnitudes, whatever the order [1].
 *
 * [1] A. Neumaier, "Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen", ZAMM 54 (1974).
 */

/** Sum of finite numbers; an infinite or NaN term makes the result NaN or infinite as plain addition would. */
export function sum(values: ArrayLike<number>): number {
  let total = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    const next = total + value;
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total;
    total = next;
  }
  return Number.isFinite(lost) ? total + lost : total;
}
