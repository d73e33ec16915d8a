/** Sums of figures that somebody may not have stated. */

/** Of nothing 0, with an unknown among them unknown. */
export function sumIfAll(values: readonly (number | undefined)[]): number | undefined {
  return values.reduce<number | undefined>(
    (all, value) => (all === undefined || value === undefined ? undefined : all + value),
    0,
  );
}
