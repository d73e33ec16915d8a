/**
 * The luminous opening of LM-63: three numbers whose signs name the shape; a negative one is a diameter.
 *
 *   width along C90–C270, length along C0–C180, height vertical (d a diameter, w l h positive):
 *
 *                         to 1995            from 2002
 *   point                 0 0 0              0 0 0
 *   rectangle, box        w l 0, w l h       w l 0, w l h
 *   circle, ellipse       −d 0 0, −w l 0 or w −l 0      −w −l 0
 *   upright cylinder      −d 0 h             −w −l h
 *   sphere, ellipsoid     −d 0 −d, −w l −h or w −l −h   −w −l −h
 *   cylinder along length 0 l −d             −w l −h
 *   cylinder along width  w 0 −d             w −l −h
 *   upright disc          none               −w 0 −h
 *
 * Two patterns mean different things in the two tables (−w 0 −h and −w l −h) and the edition decides. Patterns
 * of the other table, and the diameter filed as the length (0 −d 0), are met in the field and accepted.
 *
 * References: ANSI/IES LM-63-1995 and -2002, tables of luminous opening shapes (the tables themselves were
 * known through secondary descriptions).
 */

import { type LuminousOpening, type OpeningShape, uprightOpening } from "../luminous-opening.ts";

export type OpeningTable = "to 1995" | "from 2002";

export interface ReadOpening {
  readonly opening: LuminousOpening;
  /** What a reader should be told, or undefined when the pattern is in the table. */
  readonly remark?: string;
}

type Sign = "+" | "0" | "-";
const signOf = (value: number): Sign => (value > 0 ? "+" : value < 0 ? "-" : "0");

/** Patterns `width length height` that both tables or common practice agree on. */
const COMMON: Record<string, OpeningShape> = {
  "- 0 0": "disc",
  "0 - 0": "disc",
  "- - 0": "disc",
  "- + 0": "disc",
  "+ - 0": "disc",
  "- 0 +": "cylinder",
  "0 - +": "cylinder",
  "- - +": "cylinder",
  "- + +": "cylinder",
  "+ - +": "cylinder",
  "- - -": "ellipsoid",
  "0 + -": "cylinder along length",
  "+ 0 -": "cylinder along width",
};

const BY_TABLE: Record<OpeningTable, Record<string, OpeningShape>> = {
  "to 1995": { "- 0 -": "ellipsoid", "0 - -": "ellipsoid", "- + -": "ellipsoid", "+ - -": "ellipsoid" },
  "from 2002": {
    "- 0 -": "upright disc",
    "- + -": "cylinder along length",
    "+ - -": "cylinder along width",
  },
};

/** The opening that `width`, `length` and `height` (m, signed) describe. */
export function lm63Opening(width: number, length: number, height: number, table: OpeningTable): ReadOpening {
  const pattern = `${signOf(width)} ${signOf(length)} ${signOf(height)}`;
  const w = Math.abs(width);
  const l = Math.abs(length);
  const h = Math.abs(height);
  const shape = COMMON[pattern] ?? BY_TABLE[table][pattern];
  switch (shape) {
    case "disc":
    case "cylinder":
      // One extent alone is the diameter both ways.
      return { opening: uprightOpening(true, l, w, h) };
    case "ellipsoid":
      return { opening: { shape, length: l || w, width: w || l, height: h } };
    case "cylinder along length":
      return { opening: { shape, length: l, width: w || h, height: h } };
    case "cylinder along width":
      return { opening: { shape, length: l || h, width: w, height: h } };
    case "upright disc":
      return { opening: { shape, length: 0, width: w, height: h } };
    default:
      return flatSided(w, l, h, pattern.includes("-"));
  }
}

function flatSided(w: number, l: number, h: number, unknown: boolean): ReadOpening {
  const opening = uprightOpening(false, l, w, h);
  const thin = opening.shape !== "point" && (w === 0 || l === 0);
  if (unknown)
    return { opening, remark: "The signs of the opening are in neither table; its extents are kept." };
  if (thin) return { opening, remark: "The opening has a side of zero, taken as 1 mm." };
  return { opening };
}
