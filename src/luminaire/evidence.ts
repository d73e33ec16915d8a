/**
 * How a luminaire's light is known. On screen always in words; the letter stays inside code, because letters
 * beside lamps read as an energy label.
 *
 * Bands are engineering defaults, no source; half-widths relative to the value.
 */

export type Evidence = "A" | "B" | "C" | "D" | "E" | "F";

export interface EvidenceClass {
  readonly words: string;
  /** Relative half-width of the 95 % band on luminous intensity, down and up. */
  readonly band: readonly [down: number, up: number];
  /** Whether the class starts from rated flux, which may lie up to 10 % lower (IEC 62722-1:2014). */
  readonly fromRatedFlux: boolean;
}

export const EVIDENCE: Readonly<Record<Evidence, EvidenceClass>> = {
  A: { words: "measured", band: [0.08, 0.08], fromRatedFlux: false },
  B: { words: "measured, re-lamped", band: [0.15, 0.15], fromRatedFlux: true },
  C: { words: "peak and beam", band: [0.15, 0.15], fromRatedFlux: true },
  // Measured lamps lie at 0.83 to 1.33 of the cosⁿ lobe of their flux and beam (tests/validation/beam-model).
  D: { words: "flux and beam", band: [0.2, 0.35], fromRatedFlux: true },
  E: { words: "traced from shade", band: [0.22, 0.22], fromRatedFlux: true },
  F: { words: "typical", band: [0.35, 0.35], fromRatedFlux: true },
};
