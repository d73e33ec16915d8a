/**
 * What a photometric file holds, whatever its format: the one thing every reader returns.
 */

import type { Housing } from "./housing.ts";
import type { IntensityDistribution } from "./intensity-distribution.ts";
import type { LuminousOpening } from "./luminous-opening.ts";
import type { PhotometricFormat } from "./photometric-formats.ts";

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

/** How the data came to be, as LM-63-2019 and TM-33 state it. */
export interface FileGeneration {
  /** The LM-63-2019 number with five decimals, such as `1.10000`. */
  readonly code: string;
  readonly source: "accredited laboratory" | "laboratory" | "simulation" | "undefined";
  /** Angles were interpolated from fewer measured ones. */
  readonly interpolated: boolean;
  /** Intensities were scaled from another flux. */
  readonly scaled: boolean;
}

/** How the flux of a tilt-sensitive lamp changes with the luminaire's tilt. */
export interface TiltFactors {
  /** 1 base up or down when aimed down; 2 horizontal and stays so; 3 horizontal and tilts along. */
  readonly lampGeometry: 1 | 2 | 3;
  /** Tilt of the luminaire (rad), rising. */
  readonly angles: Float64Array;
  /** Factor on every intensity at each angle. */
  readonly factors: Float64Array;
}

export interface Photometry {
  readonly format: PhotometricFormat;
  /** `1986`, `1991`, `1995`, `2002`, `2019`; `18`, `23` for TM-33; empty where a format has none. */
  readonly edition: string;
  /** Planes and angles per plane as the file stores them, before symmetry expands the table. */
  readonly stored?: { readonly planes: number; readonly angles: number };
  /** Final candela: multipliers, ballast, tilt and lamp flux are already applied. */
  readonly distribution: IntensityDistribution;
  /** The factors of a file with tilt data; `distribution` holds the one for no tilt. */
  readonly tilt?: TiltFactors;
  readonly generation?: FileGeneration;
  readonly opening: LuminousOpening;
  readonly housing?: Housing;
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
