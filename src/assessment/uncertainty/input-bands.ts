/**
 * How far off each input may be: 95 % bands, σ = half-width / 2.
 *
 * | input | band | how known |
 * |---|---|---|
 * | level, lobe and alignment of a type, by evidence | luminaire/evidence.ts | said there |
 * | flux of rated lamps | −10 % to 0, even | IEC 62722-1:2014: not more than 10 % below rated |
 * | one luminaire against its equals | σ 2 % | default, no source |
 * | maintenance factor | ±0.05 | default, no source |
 * | reflectance of a surface | ±0.1, cut at 0 and 0.98 | default, no source |
 * | position in plan | ±15 mm each way | default, no source |
 * | hanging height | ±10 mm | default, no source |
 * | hung angle, of each luminaire | ±1° about each horizontal axis | default, no source |
 * | dimmed flux, below full output | ±10 % of itself | default, no source |
 */
export interface InputBands {
  /** Spread of rated flux, relative: from −x to 0, evenly. */
  readonly ratedFlux: number;
  /** Standard deviation between equal luminaires, relative. */
  readonly unitScatter: number;
  readonly maintenance: number;
  readonly reflectance: number;
  /** m */
  readonly position: number;
  readonly height: number;
  /** How far a luminaire hangs off its angle, about each horizontal axis (rad). */
  readonly hungAngle: number;
  /** Relative, of a layer dimmed below full output. */
  readonly dimming: number;
}

export const DEFAULT_BANDS: InputBands = {
  ratedFlux: 0.1,
  unitScatter: 0.02,
  maintenance: 0.05,
  reflectance: 0.1,
  position: 0.015,
  height: 0.01,
  hungAngle: Math.PI / 180,
  dimming: 0.1,
};

/** Reflectances beyond this are no diffuse surface of a kitchen. */
export const HIGHEST_REFLECTANCE = 0.98;
