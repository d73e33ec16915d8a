/** What steps of a scale are, times a power of ten. */
export const STEPS = [1, 2, 2.5, 5];

/** The least of `leads`, which rise from 1, times a power of ten at or above a value over 0. */
export function roundAbove(value: number, leads: readonly number[]): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return power * (leads.find((lead) => lead * power >= value) ?? 10);
}
