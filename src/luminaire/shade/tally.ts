/**
 * What a trace keeps: power re-emitted by each side of each ring, and what escaped and was absorbed; batch by batch, so that everything linear in it has a band.
 */

export interface TracedShade {
  /** Diffusely emitted power per unit lamp flux, by ring: towards the inside, towards the outside. */
  readonly inwards: Float64Array;
  readonly outwards: Float64Array;
  /** Share of lamp flux escaped and absorbed, and the share that escaped below the horizon. */
  readonly escaped: number;
  readonly absorbed: number;
  readonly escapedDown: number;
  /** Standard error of `escaped`. */
  readonly escapedError: number;
  /** Exitances of each of the batches, for the band of anything linear in them: [batch][inwards…, outwards…]. */
  readonly batches: readonly Float64Array[];
  /** Escaped power by polar angle, 180 bins of 1°, per unit lamp flux: the second route to the far field. */
  readonly escapedByGamma: Float64Array;
  readonly photons: number;
}

export class Tally {
  readonly inwards: Float64Array;
  readonly outwards: Float64Array;
  readonly escapedByGamma = new Float64Array(180);
  escaped = 0;
  absorbed = 0;
  escapedDown = 0;

  constructor(count: number) {
    this.inwards = new Float64Array(count);
    this.outwards = new Float64Array(count);
  }

  add(other: Tally): void {
    for (const key of ["inwards", "outwards", "escapedByGamma"] as const) {
      const into = this[key];
      const from = other[key];
      for (let i = 0; i < into.length; i++) into[i] += from[i];
    }
    this.escaped += other.escaped;
    this.absorbed += other.absorbed;
    this.escapedDown += other.escapedDown;
  }
}

export function summary(
  total: Tally,
  batches: readonly Float64Array[],
  escapes: readonly number[],
  photons: number,
): TracedShade {
  const k = Math.max(1, batches.length);
  const mean = total.escaped / k;
  let variance = 0;
  for (const escaped of escapes) variance += (escaped - mean) ** 2;
  const average = (values: Float64Array) => values.map((value) => value / k);
  return {
    inwards: average(total.inwards),
    outwards: average(total.outwards),
    escapedByGamma: average(total.escapedByGamma),
    escaped: mean,
    absorbed: total.absorbed / k,
    escapedDown: total.escapedDown / k,
    escapedError: k > 1 ? Math.sqrt(variance / (k - 1) / k) : 1,
    batches,
    photons,
  };
}
