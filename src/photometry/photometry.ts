/**
 * What a photometric file holds, whatever its format: the one thing every reader returns.
 */

import type { IntensityDistribution } from "./intensity-distribution.ts";
import type { LuminousOpening } from "./luminous-opening.ts";

export type PhotometricFormat = "LM-63" | "EULUMDAT" | "TM-33" | "GLDF";

/** One lamp set or emitter offered by a file. */
export interface LampSet {
  readonly count: number;
  readonly type: string;
  /** Total luminous flux of the set (lm); undefined when the file gives none (absolute LM-63). */
  readonly flux?: number;
  readonly watts?: number;
  readonly colourTemperature: string;
  readonly colourRendering: string;
}

export interface Photometry {
  readonly format: PhotometricFormat;
  /** `1986`, `1991`, `1995`, `2002`, `2019`; `18`, `23` for TM-33; empty where a format has none. */
  readonly edition: string;
  /** Final candela: multipliers, ballast, tilt and lamp flux are already applied. */
  readonly distribution: IntensityDistribution;
  readonly opening: LuminousOpening;
  /** True when the candela were measured on the luminaire itself, not per rated lamp lumen. */
  readonly absolute: boolean;
  /** Rated flux of all lamps, or of the luminaire when absolute and stated (lm). */
  readonly ratedFlux?: number;
  readonly watts?: number;
  readonly lampSets: readonly LampSet[];
  /** The set whose flux was applied. */
  readonly lampSet: number;
  /** Ordered keyword lines or named header fields, decoded, untrusted. */
  readonly labels: readonly { readonly key: string; readonly value: string }[];
  readonly description: string;
}
