/**
 * The angles and candela of LM-63. The range of the horizontal angles declares the symmetry:
 *
 *   type C   0 rotational · 0…90 quadrant · 0…180 mirrored in C0–C180 · 0…360 none ·
 *            90…270 mirrored in C90–C270 (to 1995)
 *   A and B  0…90 mirrored in H0 · −90…90 none
 */

import type { Symmetry } from "../intensity-distribution.ts";
import { checkedAngles, near } from "./angle-list.ts";
import { refuseNegative, verticalRangeWarning } from "./intensity-table.ts";
import type { Lm63Header } from "./lm63-header.ts";
import type { Lm63Numbers } from "./lm63-numbers.ts";
import type { NumberScanner } from "./number-scanner.ts";
import { quote, type SourceText } from "./source-text.ts";

export function readLm63Table(
  numbers: Lm63Numbers,
  header: Lm63Header,
  scanner: NumberScanner,
  source: SourceText,
) {
  const { rows, planes, type } = numbers;
  const code = "lm63";
  const verticalAt = scanner.offset;
  const vertical = scanner.numbers("the vertical angles", rows);
  if (vertical === undefined) return undefined;
  const upright = {
    name: "vertical angles",
    least: type === "C" ? 0 : -90,
    most: type === "C" ? 180 : 90,
    code,
    place: (i: number) => scanner.placeOf(verticalAt, i),
  };
  if (checkedAngles(vertical, upright, source) === undefined) return undefined;
  const odd = verticalRangeWarning(vertical[0], vertical[rows - 1], type);
  if (odd !== undefined) source.warn(upright.place(0), "lm63-vertical-range", odd.message, odd);
  if (type !== "C" && near(vertical[0], 0))
    source.warn(upright.place(0), "lm63-half-range", "Only V ≥ 0 is stored; below it the intensity is zero.");

  const horizontalAt = scanner.offset;
  const horizontal = scanner.numbers("the horizontal angles", planes);
  if (horizontal === undefined) return undefined;
  const place = (i: number) => scanner.placeOf(horizontalAt, i);
  const symmetry = symmetryOf(horizontal, numbers, header, place, source);
  if (symmetry === undefined) return undefined;

  const candelaAt = scanner.offset;
  const candela = scanner.numbers("the candela values", rows * planes);
  if (candela === undefined) return undefined;
  if (!refuseNegative(candela, code, (i) => scanner.placeOf(candelaAt, i), source)) return undefined;
  const extra = scanner.token();
  if (extra !== undefined && !/^END$/i.test(extra))
    source.warn(scanner.at, "lm63-trailing-text", "Text after the last candela value was ignored.", {
      received: quote(extra),
    });
  return { at: place(0), vertical, horizontal: Array.from(horizontal), symmetry, candela };
}

/** The symmetry that the range of the horizontal angles declares; an error when it declares none. */
function symmetryOf(
  horizontal: Float64Array,
  numbers: Lm63Numbers,
  header: Lm63Header,
  place: (index: number) => number,
  source: SourceText,
): Symmetry | undefined {
  const { type } = numbers;
  if (horizontal.length === 1 && type === "C") {
    if (horizontal[0] !== 0)
      source.warn(
        place(0),
        "lm63-single-plane",
        "The only horizontal angle is not 0; the value has no meaning.",
      );
    return "rotational";
  }
  const range = {
    name: "horizontal angles",
    least: type === "C" ? 0 : -90,
    most: type === "C" ? 360 : 90,
    code: "lm63",
    place,
  };
  if (checkedAngles(horizontal, range, source) === undefined) return undefined;
  const first = horizontal[0];
  const last = horizontal[horizontal.length - 1];
  return type === "C"
    ? circularSymmetry(first, last, header, place, source)
    : sidedSymmetry(first, last, place, source);
}

function circularSymmetry(
  first: number,
  last: number,
  header: Lm63Header,
  place: (index: number) => number,
  source: SourceText,
): Symmetry | undefined {
  if (near(first, 0)) {
    if (near(last, 90)) return "quadrant";
    if (near(last, 180)) return "mirrored in C0–C180";
    if (near(last, 360)) return "none";
    if (last > 180) {
      source.warn(
        place(0),
        "lm63-circle-open",
        "The planes stop short of 360; the plane at 0 closes the circle.",
        {
          received: `last plane at ${last}`,
        },
      );
      return "none";
    }
  }
  if (near(first, 90) && near(last, 270)) {
    if (header.edition === "2002" || header.edition === "2019")
      source.warn(
        place(0),
        "lm63-planes-90-270",
        "Planes from 90 to 270 ended with the 1995 edition; they are read.",
      );
    return "mirrored in C90–C270";
  }
  return source.error(place(0), "lm63-horizontal-range", "The horizontal angles declare no symmetry.", {
    expected: "0 alone, 0 to 90, 0 to 180, 0 to 360 or 90 to 270",
    received: `${first} to ${last}`,
  });
}

function sidedSymmetry(
  first: number,
  last: number,
  place: (index: number) => number,
  source: SourceText,
): Symmetry {
  const half = near(first, 0);
  if (!near(last, 90) || !(half || near(first, -90)))
    source.warn(
      place(0),
      "lm63-horizontal-range",
      "The planes do not reach ±90; beyond them there is no light.",
      {
        expected: "0 to 90 or -90 to 90",
        received: `${first} to ${last}`,
      },
    );
  return half ? "mirrored in H0" : "none";
}
