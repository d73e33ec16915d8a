/**
 * UGR = 8 log₁₀ [ (0.25 / L_b) Σ L² ω / p² ]
 *
 * L luminance of a source towards the eye (cd/m²), ω its solid angle (sr), p its position index, L_b background
 * luminance = E_ind / π at the eye. Stated for 0.0003 to 0.1 sr, sources above a horizontal line of sight, and
 * steps 10 13 16 19 22 25 28.
 * Reference: CIE 117; formula as published, range and steps from memory. The index p is from memory.
 */

export interface GlareSource {
  readonly luminance: number;
  readonly solidAngle: number;
  readonly positionIndex: number;
}

export const UGR_SOLID_ANGLE = [0.0003, 0.1] as const;
export const UGR_STEPS = [10, 13, 16, 19, 22, 25, 28] as const;

/** −∞ when nothing is in view. @param background L_b > 0 (cd/m²) */
export function unifiedGlareRating(sources: readonly GlareSource[], background: number): number {
  let sum = 0;
  for (const { luminance, solidAngle, positionIndex } of sources) {
    sum += (luminance * luminance * solidAngle) / (positionIndex * positionIndex);
  }
  return 8 * Math.log10((0.25 / background) * sum);
}
