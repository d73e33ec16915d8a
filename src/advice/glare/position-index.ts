/**
 * Guth's position index: how much less a bright source disturbs away from the line of sight.
 *
 *   ln p = (35.2 − 0.31889 τ − 1.22 e^(−2τ/9)) · 10⁻³ σ + (21 + 0.26667 τ − 0.002963 τ²) · 10⁻⁵ σ²
 *
 * σ angle from the line of sight, τ from the vertical plane through it, degrees; sources above the line only.
 * From memory: no open source was found. It reproduces the remembered row of CIE 117 (T = 0) within 3.5 %.
 */

import { degrees } from "../../units/quantities.ts";

/** @param sigma rad, 0…π/2 @param tau rad, 0…π */
export function positionIndex(sigma: number, tau: number): number {
  const s = degrees(sigma);
  const t = degrees(tau);
  const linear = 35.2 - 0.31889 * t - 1.22 * Math.exp((-2 * t) / 9);
  const square = 21 + 0.26667 * t - 0.002963 * t * t;
  return Math.exp(linear * 1e-3 * s + square * 1e-5 * s * s);
}
