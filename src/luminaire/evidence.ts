/**
 * How a luminaire's light is known. On screen always in words; the letter stays inside code, because letters
 * beside lamps read as an energy label.
 *
 * Bands are engineering defaults, no source, unless said; half-widths relative to the value.
 */

export type Evidence = "A" | "B" | "C" | "D" | "E" | "F" | "G";

export interface EvidenceClass {
  readonly words: string;
  /** The same to whoever chooses a luminaire, after `Its light`. */
  readonly plain: string;
  /** Relative half-width of the 95 % band on luminous intensity in a direction, down and up: level and lobe together. */
  readonly band: readonly [down: number, up: number];
  /** Of it, relative half-width of the 95 % band on all of its light. */
  readonly level: number;
  /** Of it, standard deviation of the lobe's parameter t at the same flux and beam (`reshaped.ts`). */
  readonly lobe: number;
  /** Half-width of the 95 % band of the angle between the measured axes and the luminaire's, each way (rad); 0 where
   * nothing was measured. */
  readonly alignment: number;
  /** Whether the class starts from rated flux, which may lie up to 10 % lower (IEC 62722-1:2014). */
  readonly fromRatedFlux: boolean;
}

const HALF_DEGREE = Math.PI / 360;

export const EVIDENCE: Readonly<Record<Evidence, EvidenceClass>> = {
  A: {
    words: "measured",
    plain: "was measured.",
    band: [0.08, 0.08],
    level: 0.07,
    lobe: 0.05,
    alignment: HALF_DEGREE,
    fromRatedFlux: false,
  },
  // As measured; that the lamps give their rated flux is an uncertainty of its own.
  B: {
    words: "measured, relative to its rated lamps",
    plain: "was measured; how much of it there is goes by the flux its lamps are rated at.",
    band: [0.08, 0.08],
    level: 0.07,
    lobe: 0.05,
    alignment: HALF_DEGREE,
    fromRatedFlux: true,
  },
  G: {
    words: "measured, re-lamped",
    plain: "was measured with another lamp, and is scaled to this one.",
    band: [0.15, 0.15],
    level: 0.13,
    lobe: 0.1,
    alignment: HALF_DEGREE,
    fromRatedFlux: true,
  },
  C: {
    words: "peak and beam",
    plain: "is estimated from its peak intensity and beam angle, not measured.",
    band: [0.15, 0.15],
    level: 0.1,
    lobe: 0.15,
    alignment: 0,
    fromRatedFlux: true,
  },
  // The flux is stated, the lobe is not: five measured lamps of known flux and beam have a peak 0.83 to 1.33 times that
  // of cosⁿ, and a scatter of t of 0.345 (tests/luminaire/reshaped, tests/validation/beam-model).
  D: {
    words: "flux and beam",
    plain: "is estimated from its flux and beam angle, not measured.",
    band: [0.2, 0.35],
    level: 0.05,
    lobe: 0.345,
    alignment: 0,
    fromRatedFlux: true,
  },
  E: {
    words: "traced from shade",
    plain: "is calculated from its lamp and shade, not measured.",
    band: [0.22, 0.22],
    level: 0.18,
    lobe: 0.2,
    alignment: 0,
    fromRatedFlux: true,
  },
  F: {
    words: "typical",
    plain: "is a typical one, not its own.",
    band: [0.35, 0.35],
    level: 0.3,
    lobe: 0.345,
    alignment: 0,
    fromRatedFlux: true,
  },
};
