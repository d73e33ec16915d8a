/** What a zone asks for. The published ones are data of the assessment; a study may state its own. */
export interface Target {
  readonly id: string;
  /** In words, e.g. `preparation counters`. */
  readonly name: string;
  readonly requirements: readonly Requirement[];
  /** Document, edition, clause; or `the designer's own`. */
  readonly source: string;
  /** How the figure came to us. */
  readonly known: "read" | "secondary" | "from memory" | "stated in the study";
}

export interface Requirement {
  readonly quantity: "illuminance" | "uniformity";
  readonly statistic: "average" | "minimum" | "minimum / average";
  /** lx for illuminance, a ratio for uniformity. */
  readonly value: number;
  readonly nature: "maintained" | "initial";
  /** The same figure in foot-candles, where the source states it so; not a conversion. */
  readonly footcandles?: number;
}
