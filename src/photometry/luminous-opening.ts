/**
 * The luminous opening: the closed convex surface from which a luminaire's light is taken to leave, centred
 * on the photometric centre.
 *
 * Extents are full widths along the photometric axes, the same in every format: `length` along C0–C180
 * (local x), `width` along C90–C270 (local y), `height` along the vertical axis (local z).
 */

/** With a vertical axis, as a study states them: no extent; a horizontal ellipse and a horizontal rectangle, both faces; six
 * faces; an ellipsoid; an elliptic cylinder. */
export const UPRIGHT_OPENINGS = ["point", "disc", "rectangle", "box", "ellipsoid", "cylinder"] as const;

export type OpeningShape =
  | (typeof UPRIGHT_OPENINGS)[number]
  /** Flat, upright circle or ellipse facing photometric horizontal: normal along local x, axes width and height. */
  | "upright disc"
  /** Axis along local x. */
  | "cylinder along length"
  /** Axis along local y. */
  | "cylinder along width";

/** All extents in metres, zero where the shape has none. */
export interface LuminousOpening {
  readonly shape: OpeningShape;
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

export const POINT_OPENING: LuminousOpening = { shape: "point", length: 0, width: 0, height: 0 };

/** A side of zero is a line, and still needs an area to leave from (m). */
const THINNEST = 0.001;

/** Level faces, square or round, and by its height (m) flat or not; a point where no extent is given. Of a round one the
 * side that is given stands for both. */
export function uprightOpening(
  round: boolean,
  length: number,
  width: number,
  height: number,
): LuminousOpening {
  if (length === 0 && width === 0 && height === 0) return POINT_OPENING;
  if (round)
    return {
      shape: height > 0 ? "cylinder" : "disc",
      length: length || width,
      width: width || length,
      height,
    };
  return {
    shape: height > 0 ? "box" : "rectangle",
    length: Math.max(length, THINNEST),
    width: Math.max(width, THINNEST),
    height,
  };
}

/** Whether its faces lie level and are round. */
export function isUprightRound({ shape }: LuminousOpening): boolean {
  return shape === "disc" || shape === "cylinder";
}
