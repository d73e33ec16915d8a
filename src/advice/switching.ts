/**
 * Legs: luminaires switched together, from one place or several.
 *
 * A leg carries a small letter, by which a plan shows what a switch switches. Of several places two are a two-way pair and those between
 * them intermediate switches. Common practice, no source; a drawing for whoever wires it, and no design of the wiring.
 */

import type { Layer } from "../scene/scene.ts";
import { nthLetter } from "../study/arrangement-letters.ts";

export interface SwitchingLeg {
  /** a, b …, by the layers that hold luminaires, in the option's order. */
  readonly leg: string;
  readonly layer: Layer;
}

export function switchingLegs(layers: readonly Layer[]): SwitchingLeg[] {
  return layers
    .filter(({ luminaires }) => luminaires.length > 0)
    .map((layer, i) => ({ leg: nthLetter(i).toLowerCase(), layer }));
}

export type SwitchKind = "one-way" | "two-way" | "intermediate";

/** Of the places from which a leg is switched, in their order: the first and the last are the pair. */
export function switchKind(place: number, places: number): SwitchKind {
  if (places === 1) return "one-way";
  return place === 0 || place === places - 1 ? "two-way" : "intermediate";
}

/**
 * Apparent power of a layer at full output: S = Σ P / power factor (VA), over those that state both.
 * @returns how many luminaires leave out their power, and how many of the rest their power factor: these count with watts alone, so that
 * the sum is a least one
 */
export function apparentPower({ luminaires }: Layer): {
  readonly voltAmperes: number;
  readonly withoutPower: number;
  readonly withoutFactor: number;
} {
  let [voltAmperes, withoutPower, withoutFactor] = [0, 0, 0];
  for (const { luminaire } of luminaires) {
    const { watts, powerFactor } = luminaire;
    if (watts === undefined) withoutPower++;
    else {
      if (powerFactor === undefined) withoutFactor++;
      voltAmperes += watts / (powerFactor ?? 1);
    }
  }
  return { voltAmperes, withoutPower, withoutFactor };
}
