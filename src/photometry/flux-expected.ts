/** What was expected where a table's flux is not the one stated with it, with the way out: a study that hangs the luminaire settles it.
 * @param lumens with its unit */
export const orSayWhich = (lumens: string): string =>
  `${lumens}, or "fluxFrom" of the luminaire in the study, "file" or "lamps"`;
