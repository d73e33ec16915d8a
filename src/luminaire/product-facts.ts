/** What a luminaire is as a product: power, weight, paperwork. Said by whoever chose it; text is untrusted. */

import type { Vec2 } from "../geometry/vector.ts";

export interface ProductFacts {
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
  /** The hole in the ceiling for what is recessed (m): its diameter, or its extents along C0–C180 and C90–C270. */
  readonly cutOut?: number | Vec2;
  readonly suspension?: "rod" | "cord" | "chain" | "cable";
  readonly finish?: string;
  readonly colour?: string;
  /** For whoever orders it: maker, catalogue number, lamp, lamp base, driver, dimming. */
  readonly maker?: string;
  readonly order?: string;
  /** Order number of its file, where somebody says that it is the same product as what is ordered. */
  readonly measured?: string;
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
}

/** The usual canopy (m), for drawings of one nobody stated; common practice, no source. */
const USUAL_CANOPY = { diameter: 0.1, height: 0.025 } as const;

/** Size of a canopy (m): as far as it is stated, else the usual one. */
export function canopySize({
  canopy,
}: Pick<ProductFacts, "canopy">): Required<NonNullable<ProductFacts["canopy"]>> {
  return { ...USUAL_CANOPY, ...canopy };
}

// A record, so that a fact without a row here does not compile.
const FACTS: Readonly<Record<keyof ProductFacts, true>> = {
  watts: true,
  markedWatts: true,
  cct: true,
  cri: true,
  weight: true,
  canopy: true,
  cutOut: true,
  suspension: true,
  finish: true,
  colour: true,
  maker: true,
  order: true,
  measured: true,
  lamp: true,
  base: true,
  driver: true,
  dimming: true,
  price: true,
  powerFactor: true,
  lampPrice: true,
  lampLife: true,
  suspensions: true,
  feed: true,
};

/** The facts that something holds, without those it does not. */
export function productFacts(holder: ProductFacts): ProductFacts {
  return Object.fromEntries(
    Object.keys(FACTS)
      .map((key) => [key, holder[key as keyof ProductFacts]])
      .filter(([, value]) => value !== undefined),
  );
}
