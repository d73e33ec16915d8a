/**
 * Photometry to LM-63-2002 or -2019 text: CR LF, ASCII, the four required keywords, multiplier and ballast
 * factor 1, metres, no exponents, each record and plane on a line of its own.
 *
 * Absolute data, and relative data whose lamp flux is unknown, are written with −1 lumens: the candela stand for
 * themselves. Planes from 90 to 270 ended with 1995, so a distribution mirrored in C90–C270 is written whole.
 *
 * Reference: ANSI/IES LM-63-2002 and -2019. Error: ≤ 5e-10 relative on intensities, none on angles.
 */

import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import { wordRows } from "../../diagnostics/word-rows.ts";
import type { LuminousOpening } from "../luminous-opening.ts";
import type { Photometry } from "../photometry.ts";
import { tiltFactorAt } from "../tilt-factor.ts";
import { foldPlanes } from "./fold-planes.ts";
import { keywordLines } from "./lm63-keywords.ts";
import { angleText, decimalText } from "./number-text.ts";
import { refuseUnwritable } from "./unwritable.ts";

/** Longest line (132 with its end). */
const LINE = 130;
const TYPE_NUMBER = { C: "1", B: "2", A: "3" } as const;
const METRES = "2";

export interface Lm63WriterOptions {
  /** Default 2002, which the most programs read. */
  readonly edition?: "2002" | "2019";
}

/** LM-63 text of a photometry; an issue when a value is not finite. */
export function writeLm63(photometry: Photometry, options: Lm63WriterOptions = {}): Outcome<string> {
  const edition = options.edition ?? "2002";
  const { distribution } = photometry;
  const wrong = refuseUnwritable(photometry);
  if (wrong !== undefined) return failure(wrong);

  const { symmetry, planes } = foldPlanes(distribution);
  const written = symmetry === "mirrored in C90–C270" ? Array.from(distribution.horizontal.keys()) : planes;
  const rows = distribution.vertical.length;
  const { factor, lines: tiltLines } = tilt(photometry);
  const flux = photometry.absolute ? undefined : photometry.ratedFlux;
  const count = photometry.lampSets[photometry.lampSet]?.count ?? 1;

  const lines = [
    edition === "2019" ? "IES:LM-63-2019" : "IESNA:LM-63-2002",
    ...keywordLines(photometry, edition),
    ...tiltLines,
    [
      flux === undefined ? "1 -1" : `${count} ${decimalText(flux / count)}`,
      "1",
      rows,
      written.length,
      TYPE_NUMBER[distribution.type],
      METRES,
      ...signedExtents(photometry.opening).map((extent) => decimalText(extent)),
    ].join(" "),
    `1 ${edition === "2019" ? (photometry.generation?.code ?? "1.00001") : "1"} ${decimalText(photometry.watts ?? 0)}`,
    ...numberLines(Array.from(distribution.vertical, angleText)),
    ...numberLines(written.map((h) => angleText(distribution.horizontal[h]))),
    ...written.flatMap((h) =>
      numberLines(
        Array.from(distribution.intensity.subarray(h * rows, (h + 1) * rows), (i) => decimalText(i / factor)),
      ),
    ),
  ];
  return success(`${lines.join("\r\n")}\r\n`);
}

/** Width, length, height with the signs of the 2002 table. */
export function signedExtents({ shape, length, width, height }: LuminousOpening): [number, number, number] {
  switch (shape) {
    case "point":
      return [0, 0, 0];
    case "rectangle":
      return [width, length, 0];
    case "box":
      return [width, length, height];
    case "disc":
      return [-width, -length, 0];
    case "upright disc":
      return [-width, 0, -height];
    case "cylinder":
      return [-width, -length, height];
    case "ellipsoid":
      return [-width, -length, -height];
    case "cylinder along length":
      return [-width, length, -height];
    case "cylinder along width":
      return [width, -length, -height];
  }
}

/** The TILT lines, and the factor that the intensities already hold. */
function tilt({ tilt: factors }: Photometry): { factor: number; lines: string[] } {
  const factor = factors === undefined ? 1 : tiltFactorAt(factors, 0);
  // At a factor of next to zero nothing is left to divide; the intensities are written as they are.
  if (factors === undefined || factor < 1e-6) return { factor: 1, lines: ["TILT=NONE"] };
  return {
    factor: Number(decimalText(factor)),
    lines: [
      "TILT=INCLUDE",
      String(factors.lampGeometry),
      String(factors.angles.length),
      ...numberLines(Array.from(factors.angles, angleText)),
      ...numberLines(Array.from(factors.factors, (f) => decimalText(f))),
    ],
  };
}

function numberLines(numbers: readonly string[]): string[] {
  return wordRows(numbers, (row) => row.length <= LINE);
}
