/**
 * A luminaire type: a distribution given a luminous opening, a body and what is known of it in words. Plain data: it
 * holds no functions and passes `structuredClone` unchanged.
 */

import type { Vec2 } from "../geometry/vector.ts";
import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import type { ImplausibleValue } from "../photometry/implausible.ts";
import type { TiltFactors } from "../photometry/photometry.ts";
import type { Body } from "./body.ts";
import type { Evidence } from "./evidence.ts";
import type { Emission } from "./emission.ts";
import type { UnsettledFlux } from "./unsettled-flux.ts";

export interface Luminaire {
  /** Name in the study's `luminaires`. */
  readonly name: string;
  readonly distribution: IntensityDistribution;
  readonly emission: Emission;
  readonly body?: Body;
  readonly evidence: Evidence;
  /** Of a lamp sensitive to tilt; `distribution` and `flux` are for none (see `tilted.ts`). */
  readonly tilt?: TiltFactors;
  /** Flux leaving the luminaire, from the distribution (lm). */
  readonly flux: number;
  /** Rated flux the candela rest on, where known (lm). */
  readonly ratedFlux?: number;
  /** Where the file's own light is not its lamps' and nobody said which holds. */
  readonly unsettledFlux?: UnsettledFlux;
  /** Values no luminaire has, where there are any. */
  readonly implausible?: readonly ImplausibleValue[];
  /** Input power at full output (W); undefined when nobody said. */
  readonly watts?: number;
  /** Largest lamp power marked on the luminaire (W). */
  readonly markedWatts?: number;
  /** Correlated colour temperature (K) and colour rendering index, where known. */
  readonly cct?: number;
  readonly cri?: number;
  /** kg */
  readonly weight?: number;
  readonly canopy?: { readonly diameter: number; readonly height?: number };
  readonly suspension?: "rod" | "cord" | "chain" | "cable";
  readonly finish?: string;
  readonly colour?: string;
  /** For whoever orders it: maker, catalogue number, lamp, lamp base, driver, dimming; untrusted text. */
  readonly maker?: string;
  readonly order?: string;
  readonly lamp?: string;
  readonly base?: string;
  readonly driver?: string;
  readonly dimming?: string;
  /** Of one, in the study's currency. */
  readonly price?: number;
  /** Input power over apparent power, 0…1. */
  readonly powerFactor?: number;
  /** Of all its lamps, in the study's currency, and how long they last (h). */
  readonly lampPrice?: number;
  readonly lampLife?: number;
  /** Where it hangs, and where the supply comes in (m along C0–C180 and C90–C270 from the photometric centre). */
  readonly suspensions?: readonly Vec2[];
  readonly feed?: Vec2;
  /** What it was scaled from, and by how much (`scaled.ts`). */
  readonly scaledFrom?: { readonly original: Luminaire; readonly size: number };
  /** What the figures come from, e.g. the file's name; untrusted text. */
  readonly origin: string;
}
