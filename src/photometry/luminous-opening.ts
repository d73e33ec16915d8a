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
