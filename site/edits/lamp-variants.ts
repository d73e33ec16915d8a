/** One shade with several lamps: a study whose options differ in nothing else. */

import type { Json } from "../store/pointer.ts";
import type { RawLuminaire, RawStudy } from "./raw-study.ts";

export interface Lamp {
  readonly flux: number;
  readonly watts?: number;
  readonly shape?: string;
  readonly finish?: string;
  readonly [key: string]: unknown;
}

/** Usual lamps; common practice, no source. */
const LAMPS: readonly Lamp[] = [
  { flux: 470, watts: 4.5, shape: "A60", finish: "frosted" },
  { flux: 806, watts: 7.5, shape: "A60", finish: "frosted" },
  { flux: 1055, watts: 10, shape: "A60", finish: "frosted" },
  { flux: 1521, watts: 14, shape: "A60", finish: "frosted" },
  { flux: 806, watts: 7, shape: "A60", finish: "clear" },
  { flux: 680, watts: 7, shape: "A60", finish: "half-mirrored" },
];

/** Where a lamp sits in the shade; the shade's, whichever lamp is in it. */
const PLACE_KEYS = ["orientation", "height", "radius", "count"] as const;

/** Whether a luminaire is a lamp in a shade, so that the lamp can be another. */
export function hasLamp({ lamp, shade }: RawLuminaire): boolean {
  return lamp !== undefined && shade !== undefined;
}

/** `806 lm, 7.5 W, A60 frosted` */
export function lampWords({ flux, watts, shape, finish }: Lamp): string {
  const form = [shape, finish].filter((word) => word !== undefined).join(" ");
  return [`${Math.round(flux)} lm`, watts === undefined ? "" : `${watts} W`, form]
    .filter((words) => words !== "")
    .join(", ");
}

/** The lamp a luminaire has, first, and the usual ones in its place. */
export function lampsFor(luminaire: RawLuminaire): readonly Lamp[] {
  const own = luminaire.lamp as unknown as Lamp;
  const place = Object.fromEntries(
    PLACE_KEYS.filter((key) => own[key] !== undefined).map((key) => [key, own[key]]),
  );
  const others = LAMPS.filter((each) => lampWords(each) !== lampWords(own));
  return [own, ...others.map((each) => ({ ...each, ...place }))];
}

/** The study with one option a lamp, each the option given with that lamp wherever the luminaire hangs in it. */
export function lampStudy(study: RawStudy, arrangement: number, name: string): RawStudy {
  const luminaires: Record<string, RawLuminaire> = { ...study.luminaires };
  const luminaire = luminaires[name];
  const option = study.arrangements[arrangement];
  const arrangements = lampsFor(luminaire).map((lamp, i) => {
    const variant = `${name} \u2013 lamp ${i + 1}`;
    luminaires[variant] = { ...luminaire, lamp: lamp as unknown as Json };
    return {
      ...option,
      name: lampWords(lamp),
      layers: option.layers.map((layer) =>
        layer.luminaire === name ? { ...layer, luminaire: variant } : layer,
      ),
    };
  });
  return { ...study, luminaires, arrangements } as RawStudy;
}
