/**
 * A luminaire type: a distribution given a luminous opening, a body and what is known of it in words. Plain data: it
 * holds no functions and passes `structuredClone` unchanged.
 */

import type { Housing } from "../photometry/housing.ts";
import type { ImplausibleValue } from "../photometry/implausible.ts";
import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import type { OrderFacts } from "../photometry/order-facts.ts";
import type { TiltFactors } from "../photometry/photometry.ts";
import type { Body } from "./body.ts";
import type { Emission } from "./emission.ts";
import type { Evidence } from "./evidence.ts";
import type { ProductFacts } from "./product-facts.ts";
import type { UnsettledFlux } from "./unsettled-flux.ts";

export interface Luminaire extends ProductFacts {
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
  /** Order number of what the file measured, whatever the study orders; its maker, where the study states none; the size its file
   * states, whatever the study says of it; and what it calls its luminaire, untrusted text. */
  readonly filed?: Pick<OrderFacts, "order" | "maker"> & {
    readonly housing?: Housing;
    readonly description?: string;
  };
  /** What it was scaled from, and by how much (`scaled.ts`). */
  readonly scaledFrom?: { readonly original: Luminaire; readonly size: number };
  /** What the figures come from, e.g. the file's name; untrusted text. */
  readonly origin: string;
}
