/**
 * Values no luminaire has, as a slip of units or a spoilt multiplier makes them. Thresholds are common practice, no source, each far above
 * anything sold: the strongest lighthouses reach some 10⁷ cd, stadium floodlights 3·10⁵ lm and 2·10³ W, and white light cannot pass about
 * 400 lm/W.
 */

export interface ImplausibleValue {
  readonly quantity: "intensity" | "flux" | "power" | "efficacy" | "opening";
  readonly value: number;
}

const MOST = {
  intensity: { most: 1e8, unit: "cd" },
  flux: { most: 1e7, unit: "lm" },
  power: { most: 1e5, unit: "W" },
  efficacy: { most: 2000, unit: "lm/W" },
  opening: { most: 100, unit: "m" },
} as const;

export interface Values {
  /** Greatest (cd). */
  readonly intensity: number;
  /** lm */
  readonly flux: number;
  /** W */
  readonly watts?: number;
  /** m */
  readonly opening: { readonly length: number; readonly width: number; readonly height: number };
}

export function implausibleValues({ intensity, flux, watts, opening }: Values): ImplausibleValue[] {
  const values: Record<ImplausibleValue["quantity"], number> = {
    intensity,
    flux,
    power: watts ?? 0,
    efficacy: watts !== undefined && watts > 0 ? flux / watts : 0,
    opening: Math.max(opening.length, opening.width, opening.height),
  };
  return (Object.keys(MOST) as ImplausibleValue["quantity"][])
    .filter((quantity) => values[quantity] >= MOST[quantity].most)
    .map((quantity) => ({ quantity, value: values[quantity] }));
}

/** What is odd, what would be expected, what was found. */
export function implausibleWords({ quantity, value }: ImplausibleValue): {
  readonly message: string;
  readonly expected: string;
  readonly received: string;
} {
  const { most, unit } = MOST[quantity];
  const figure = (x: number): string => String(Number(x.toPrecision(4)));
  return {
    message: `The ${quantity} is beyond any luminaire; units or multiplier may be wrong.`,
    expected: `less than ${figure(most)} ${unit}`,
    received: `${figure(value)} ${unit}`,
  };
}
