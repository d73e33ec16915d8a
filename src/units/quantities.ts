/**
 * Conversion factors between SI, used everywhere inside, and the units people write.
 *
 * Exact by definition: 1 in = 0.0254 m; 1 fc = 1 lm/ft² = 1/0.3048² lx; 1 lb = 0.45359237 kg.
 */

export const METRES_PER_INCH = 0.0254;
export const METRES_PER_FOOT = 0.3048;
export const LUX_PER_FOOTCANDLE = 1 / (METRES_PER_FOOT * METRES_PER_FOOT);
export const KILOGRAMS_PER_POUND = 0.45359237;
export const SQUARE_FEET_PER_SQUARE_METRE = LUX_PER_FOOTCANDLE;

/** Degrees to radians. Every reader and every query uses this one function, so that a tabulated angle asked
 * for in degrees is found as the bit-identical node. */
export function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

/** Radians to degrees. */
export function degrees(radiansValue: number): number {
  return (radiansValue * 180) / Math.PI;
}
