/**
 * How far a lamp must be hidden behind its shade, by how bright it is.
 *
 * Least shielding angle below the horizontal for a lamp luminance L (kcd/m²): 20 to < 50: 15°; 50 to < 500: 20°;
 * 500 and more: 30°; under 20: none. EN 12464-1, as repeated by a health-building standard (secondary); a rule
 * of work places, taken here as a measure and not as a requirement on a home.
 */

import { radians } from "../../units/quantities.ts";

export interface ShieldingClass {
  /** Least angle (rad). */
  readonly angle: number;
  readonly words: string;
}

export function shieldingClass(luminance: number): ShieldingClass {
  if (luminance < 20_000) return { angle: 0, words: "needs no shielding" };
  if (luminance < 50_000) return { angle: radians(15), words: "wants 15° of shielding" };
  if (luminance < 500_000) return { angle: radians(20), words: "wants 20° of shielding" };
  return { angle: radians(30), words: "wants 30° of shielding" };
}
