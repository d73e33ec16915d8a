/**
 * A photometric file whose light is not its lamps' rated flux: which of the two the luminaire has is for whoever orders to say.
 *
 * Of a relative file more light than its lamps give is a contradiction, less is what the luminaire keeps; of an absolute one either is.
 */

/** Measured and rated flux agree within this much: 5 %; `study-format`, More keys. A reader warns from 2 % on, where papers need not wait. */
const AGREES_WITHIN = 0.05;

export interface UnsettledFlux {
  /** Flux of the file's own intensities (lm). */
  readonly file: number;
  /** Rated flux of its lamps (lm). */
  readonly lamps: number;
}

export function unsettledFlux(
  file: number,
  { absolute, ratedFlux }: { readonly absolute: boolean; readonly ratedFlux?: number },
): UnsettledFlux | undefined {
  if (ratedFlux === undefined || !(ratedFlux > 0) || !(file > 0)) return undefined;
  const excess = file / ratedFlux - 1;
  const contradicts = absolute ? Math.abs(excess) > AGREES_WITHIN : excess > AGREES_WITHIN;
  return contradicts ? { file, lamps: ratedFlux } : undefined;
}

export function unsettledFluxWords({ file, lamps }: UnsettledFlux): string {
  return `The file's own light is ${file.toFixed(0)} lm, its lamps' rated flux ${lamps.toFixed(0)} lm (${Math.round((100 * file) / lamps)} %): say which holds, "fluxFrom": "file" or "lamps"; until then the file's is taken.`;
}
