/**
 * How light falls with years: lamps lose flux, dirt gathers between cleanings.
 *
 *   MF(t) = LLMF(t) · LSF · LMF(t) · RSMF,   LLMF(t) = e^(−k h t), k = −ln(0.8) / T80 (L80) or −ln(0.9) / T90
 *
 * h hours of use a year. Dirt: LMF falls evenly in the exponent from one cleaning to the next to its stated value.
 * Product of factors: CIE 97.2:2005 and EN 12665 (read in excerpts); the exponential between rated points is our own
 * reading of L80. Default parts (LMF 0.96 a year, RSMF 0.97, L80 at 25 000 h, 3 h a day) are assumed: no table was
 * found for homes. Hours that the study states take the place of the 3.
 */

import { initialFactor } from "../scene/maintained.ts";

export interface Depreciation {
  /** Share of flux left at `ratedHours`: 0.8 for L80. */
  readonly ratedShare: number;
  readonly ratedHours: number;
  readonly hoursPerDay: number;
  /** Share of light left after `cleanedEvery` years without cleaning. */
  readonly dirt: number;
  readonly cleanedEvery: number;
  /** Share left as room surfaces age; reached after a year and level from then. */
  readonly surfaces: number;
  /** Share of lamps still burning; 1 where a failed lamp is replaced at once. */
  readonly survival: number;
}

export const USUAL_DEPRECIATION: Depreciation = {
  ratedShare: 0.8,
  ratedHours: 25_000,
  hoursPerDay: 3,
  dirt: 0.96,
  cleanedEvery: 1,
  surfaces: 0.97,
  survival: 1,
};

/** Lamp flux maintenance factor after `hours` of burning. */
export function lampFactor({ ratedShare, ratedHours }: Depreciation, hours: number): number {
  return ratedShare ** (hours / ratedHours);
}

/** Maintenance factor just before the cleaning at the end of year `years` (0: new and clean, 1). */
export function maintenanceAt(d: Depreciation, years: number): number {
  if (years <= 0) return 1;
  // A fraction of a year counts as it has gathered; at a whole interval the dirt is at its worst.
  const since = years % d.cleanedEvery;
  const dirty = since < 1e-9 ? 1 : since / d.cleanedEvery;
  return (
    lampFactor(d, years * d.hoursPerDay * 365) *
    d.survival *
    d.dirt ** dirty *
    d.surfaces ** Math.min(1, years)
  );
}

/** Light new, at some years, and as maintained (lx). */
export interface AgeingRow {
  readonly years: number;
  readonly factor: number;
  readonly illuminance: number;
}

/** Light of one layer with the factor `maintenance` applied (lx), and its hours of use a day where they are stated. */
export interface AgeingLight {
  readonly illuminance: number;
  readonly hoursPerDay?: number;
}

/** Lamps of each layer age by their own hours. */
export function ageing(
  maintained: readonly AgeingLight[],
  maintenance: number,
  d: Depreciation = USUAL_DEPRECIATION,
  years: readonly number[] = [0, 1, 5, 10, 15, 20],
): AgeingRow[] {
  const initial = maintained.reduce((sum, each) => sum + each.illuminance, 0);
  return years.map((year) => {
    const aged = maintained.reduce((sum, { illuminance, hoursPerDay = d.hoursPerDay }) => {
      return sum + illuminance * maintenanceAt({ ...d, hoursPerDay }, year);
    }, 0);
    return {
      years: year,
      factor: initial > 0 ? aged / initial : maintenanceAt(d, year),
      illuminance: aged * initialFactor(maintenance),
    };
  });
}
