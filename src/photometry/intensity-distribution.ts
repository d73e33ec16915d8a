/**
 * The luminous intensity distribution of a luminaire: what a goniophotometer measured.
 *
 * Type C [1]: planes C through the vertical axis, counter-clockwise seen from above, local +x = C0,
 * local +y = C90; γ from nadir (0) to zenith (π). direction = sin γ cos C · x + sin γ sin C · y − cos γ · z.
 * Types A and B keep their own angles (H, V); see `photometric-planes.ts`.
 *
 * [1] ANSI/IES LM-63 and CIE 121: coordinate systems of photometry.
 */

export type PhotometryType = "A" | "B" | "C";

/** What the file declares about its own symmetry; the table below is always expanded, whatever it says. */
export type Symmetry =
  | "rotational"
  | "quadrant"
  | "mirrored in C0–C180"
  | "mirrored in C90–C270"
  | "mirrored in H0"
  | "none";

/** Intensity on an irregular angular grid, bilinear between its nodes, zero outside the vertical range.
 *
 * Type C: `horizontal` rises from 0 to 2π inclusive (first and last plane equal), or holds the single plane 0
 * of a rotational distribution; `vertical` rises within 0…π. Types A and B: both rise within −π/2…π/2; outside
 * them the intensity is zero. */
export interface IntensityDistribution {
  readonly type: PhotometryType;
  readonly symmetry: Symmetry;
  /** rad */
  readonly horizontal: Float64Array;
  /** rad */
  readonly vertical: Float64Array;
  /** cd, `intensity[h * vertical.length + v]` */
  readonly intensity: Float64Array;
}
