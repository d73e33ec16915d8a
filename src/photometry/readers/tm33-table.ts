/**
 * The intensity table of one TM-33 emitter: `IntData` elements with angles h and v in any order, to planes.
 *
 * TM-33-18 leaves the symmetry to the range of h, as LM-63 does; TM-33-23 may name it. The range decides, and a
 * name that contradicts it is remarked on. At the poles of type C one value may stand for all planes.
 */

import type { PhotometryType, Symmetry } from "../intensity-distribution.ts";
import { CLOSEST, near } from "./angle-list.ts";
import { parseNumber } from "./number-scanner.ts";
import { quote, type SourceText } from "./source-text.ts";
import { attributeOf, child, childrenNamed, textOf, type XmlElement } from "./xml.ts";

export interface Tm33Table {
  readonly symmetry: Symmetry;
  /** degrees, rising */
  readonly horizontal: readonly number[];
  readonly vertical: readonly number[];
  /** As filed times the multiplier, `[h * vertical.length + v]`. */
  readonly intensity: Float64Array;
}

interface Sample {
  readonly h: number;
  readonly v: number;
  readonly value: number;
}

export function readTm33Table(
  data: XmlElement,
  type: PhotometryType,
  source: SourceText,
): Tm33Table | undefined {
  const multiplierText = textOf(data, "Multiplier");
  const multiplier = multiplierText === "" ? 1 : parseNumber(multiplierText);
  if (multiplier === undefined || multiplier <= 0)
    return source.error(
      child(data, "Multiplier")?.at ?? data.at,
      "tm33-bad-number",
      "The multiplier is not usable.",
      {
        expected: "a positive number",
        received: quote(multiplierText),
      },
    );
  const elements = rowsOf(data);
  const samples: Sample[] = [];
  for (const element of elements) {
    const sample = readSample(element, type, source);
    if (sample === undefined) return undefined;
    samples.push({ ...sample, value: sample.value * multiplier });
  }
  if (!countsMatch(data, elements.length, source)) return undefined;

  const horizontal = distinct(samples.map((sample) => sample.h));
  const vertical = distinct(samples.map((sample) => sample.v));
  for (const angles of [horizontal, vertical]) {
    const twice = angles.findIndex((angle, i) => i > 0 && angle - angles[i - 1] < CLOSEST);
    if (twice > 0)
      return source.error(
        data.at,
        "tm33-angles-too-close",
        "Two angles are the same to a billionth of a degree.",
        {
          expected: `angles ${CLOSEST}° apart or more`,
          received: `${angles[twice - 1]} and ${angles[twice]}`,
        },
      );
  }
  const cells = horizontal.length * vertical.length;
  const incomplete = (received: string) =>
    source.error(data.at, "tm33-incomplete-table", "The intensities do not fill a table of h and v.", {
      expected: `one for each of ${horizontal.length} × ${vertical.length} angles`,
      received,
    });
  // A table with nothing in most of its cells is none; this also bounds what is allocated.
  if (samples.length === 0 || cells > 2 * samples.length + 2 * horizontal.length)
    return incomplete(`${samples.length} intensities`);
  const intensity = new Float64Array(cells).fill(Number.NaN);
  const column = new Map(vertical.map((v, index) => [v, index]));
  const row = new Map(horizontal.map((h, index) => [h, index]));
  for (const { h, v, value } of samples) {
    const cell = (row.get(h) ?? 0) * vertical.length + (column.get(v) ?? 0);
    if (!Number.isNaN(intensity[cell])) return incomplete(`two at h ${h}, v ${v}`);
    intensity[cell] = value;
  }
  if (type === "C") for (const pole of [0, 180]) fillPole(intensity, horizontal.length, vertical, pole);
  const gap = intensity.findIndex(Number.isNaN);
  if (gap >= 0)
    return incomplete(
      `none at h ${horizontal[Math.floor(gap / vertical.length)]}, v ${vertical[gap % vertical.length]}`,
    );

  const symmetry = symmetryOf(horizontal, type);
  if (symmetry === undefined)
    return source.error(data.at, "tm33-horizontal-range", "The horizontal angles declare no symmetry.", {
      expected: type === "C" ? "0, 0 to 90, 0 to 180, 0 to 360 or 90 to 270" : "0 to 90 or -90 to 90",
      received: `${horizontal[0]} to ${horizontal[horizontal.length - 1]}`,
    });
  remarkOnNamedSymmetry(data, symmetry, source);
  return { symmetry, horizontal, vertical, intensity };
}

/** The rows of a table of intensities, by either name. */
export function rowsOf(data: XmlElement): readonly XmlElement[] {
  const own = childrenNamed(data, "IntData");
  return own.length > 0 ? own : childrenNamed(data, "IntensityData");
}

/** An angle of a row, by the names in use. */
function angleOf(element: XmlElement, names: readonly string[]): string {
  return names.map((name) => attributeOf(element, name)).find((text) => text !== "") ?? "";
}

const H = ["h", "horz", "horizontal"];
const V = ["v", "vert", "vertical"];

function readSample(element: XmlElement, type: PhotometryType, source: SourceText): Sample | undefined {
  const h = parseNumber(angleOf(element, H));
  const v = parseNumber(angleOf(element, V));
  const value = parseNumber(element.text);
  if (h === undefined || v === undefined || value === undefined)
    return source.error(element.at, "tm33-not-a-number", "An intensity or its angles are not numbers.", {
      expected: "an intensity with h and v",
      received: quote(`h=${angleOf(element, H)} v=${angleOf(element, V)} ${element.text}`),
    });
  const inside =
    type === "C" ? h >= 0 && h <= 360 && v >= 0 && v <= 180 : Math.abs(h) <= 90 && Math.abs(v) <= 90;
  if (!inside)
    return source.error(element.at, "tm33-angle-out-of-range", "An angle is out of range.", {
      expected: type === "C" ? "h 0 to 360, v 0 to 180" : "h and v -90 to 90",
      received: `h ${h}, v ${v}`,
    });
  return { h: h === 0 ? 0 : h, v: v === 0 ? 0 : v, value };
}

function countsMatch(data: XmlElement, found: number, source: SourceText): boolean {
  const element = child(data, "NumberMeasured");
  if (element === undefined || parseNumber(element.text) === found) return true;
  source.error(element.at, "tm33-count-mismatch", "The number of intensities is not the one announced.", {
    expected: quote(element.text),
    received: String(found),
  });
  return false;
}

function distinct(values: readonly number[]): number[] {
  return Array.from(new Set(values)).sort((a, b) => a - b);
}

/** Gives every plane the value of a pole when only one plane has it. */
function fillPole(intensity: Float64Array, planes: number, vertical: readonly number[], pole: number): void {
  const v = vertical.indexOf(pole);
  if (v < 0) return;
  const rows = vertical.length;
  const given = Array.from({ length: planes }, (_, h) => intensity[h * rows + v]).filter(
    (i) => !Number.isNaN(i),
  );
  if (given.length === 1) for (let h = 0; h < planes; h++) intensity[h * rows + v] = given[0];
}

function symmetryOf(horizontal: readonly number[], type: PhotometryType): Symmetry | undefined {
  const first = horizontal[0];
  const last = horizontal[horizontal.length - 1];
  if (type !== "C") return near(first, 0) ? "mirrored in H0" : "none";
  if (horizontal.length === 1) return "rotational";
  if (near(first, 90) && near(last, 270)) return "mirrored in C90–C270";
  if (!near(first, 0)) return undefined;
  if (near(last, 90)) return "quadrant";
  if (near(last, 180)) return "mirrored in C0–C180";
  return last > 180 ? "none" : undefined;
}

const NAMED: Readonly<Record<string, Symmetry>> = {
  symmnone: "none",
  symmbi0: "mirrored in C0–C180",
  symmbi90: "mirrored in C90–C270",
  symmquad: "quadrant",
  symmfull: "rotational",
};

function remarkOnNamedSymmetry(data: XmlElement, symmetry: Symmetry, source: SourceText): void {
  const element = child(data, "Symm");
  const named = element === undefined ? undefined : NAMED[element.text.replace(/[\s_]+/g, "").toLowerCase()];
  if (element === undefined || named === undefined || named === symmetry) return;
  source.warn(
    element.at,
    "tm33-symmetry",
    "The named symmetry is not that of the angles; the angles count.",
    {
      expected: symmetry,
      received: quote(element.text),
    },
  );
}
