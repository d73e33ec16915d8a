/**
 * The lines of a EULUMDAT file above its angles, one value a line, in fixed order.
 *
 *   1 maker        4 Mc planes      8 report no.        13–15 housing (mm)         24 conversion factor
 *   2 Ityp         5 Dc spacing     9 luminaire         16–21 luminous area (mm)   25 tilt when measured
 *   3 Isym         6 Ng angles     10 luminaire no.     22 downward share (%)      26 lamp sets
 *                  7 Dg spacing    11 file, 12 date     23 light output ratio (%)
 *   then six lines a set (lamps, type, flux of the set, colour, rendering, watts), then ten direct ratios.
 *
 * Numbers may carry a decimal comma, a trailing point or blanks, text may carry quotes. What the light does not
 * depend on (housing, ratios, watts) is taken as 0 where it is not a number.
 */

import type { LampSet } from "../photometry.ts";
import { MOST_LAMPS } from "./intensity-table.ts";
import { parseNumber } from "./number-scanner.ts";
import { quote, type SourceText } from "./source-text.ts";

const MOST_PLANES = 100_000;
const MOST_SETS = 1000;
/** Nothing a luminaire has is more, in any unit of the format. */
export const LARGEST = 1e12;
/** mm */
const LARGEST_EXTENT = 1e6;

export interface EulumdatHeader {
  readonly isym: 0 | 1 | 2 | 3 | 4;
  readonly planes: number;
  readonly rows: number;
  readonly texts: { readonly maker: string; readonly report: string; readonly name: string } & {
    readonly number: string;
    readonly fileName: string;
    readonly date: string;
  };
  /** Length, width, height of the housing (mm). */
  readonly housing: readonly number[];
  /** Length (or diameter) and width (0 for round) of the luminous area (mm). */
  readonly luminous: readonly [number, number];
  /** Heights of the luminous area in C0, C90, C180, C270 (mm). */
  readonly sides: readonly number[];
  /** % */
  readonly downwardShare: number;
  /** % */
  readonly lightOutputRatio: number;
  readonly ratioOffset: number;
  readonly conversion: number;
  readonly conversionOffset: number;
  /** degrees */
  readonly tilt: number;
  readonly tiltOffset: number;
  readonly lampSets: readonly (LampSet & { readonly negative: boolean; readonly at: number })[];
  /** Offset of the first C angle. */
  readonly end: number;
}

/** Reads line after line; the first error stops all further ones. */
class Lines {
  private position = 0;
  private number = 0;
  at = 0;

  constructor(private readonly source: SourceText) {}

  get end(): number {
    return this.position;
  }

  text(what: string): string {
    const line = this.source.lineAt(this.position);
    this.number++;
    this.at = this.position;
    if (line === undefined) {
      if (this.source.errors.length === 0)
        this.source.error(
          this.position,
          "eulumdat-ends-early",
          `The file ends before line ${this.number}, ${what}.`,
          {
            expected:
              "26 lines of a EULUMDAT file and its intensities; perhaps the file is cut off, or another than meant",
            received: `${this.number - 1} lines, the first ${quote(this.source.lineAt(0)?.text ?? "")}`,
          },
        );
      return "";
    }
    this.position = line.end;
    return line.text
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .trim();
  }

  /** A number the light depends on. */
  required(what: string, least: number, most: number): number {
    const text = this.text(what);
    const value = parseNumber(text.replace(",", "."));
    if (value !== undefined && value >= least && value <= most) return value;
    if (this.source.errors.length === 0)
      this.source.error(this.at, "eulumdat-bad-number", `Line ${this.number}, ${what}, is not usable.`, {
        expected: `a number from ${least} to ${most}`,
        received: quote(text),
      });
    return least;
  }

  whole(what: string, least: number, most: number): number {
    const value = this.required(what, least, most);
    if (Math.abs(value - Math.round(value)) < 1e-6 || this.source.errors.length > 0) return Math.round(value);
    this.source.error(
      this.at,
      "eulumdat-bad-number",
      `Line ${this.number}, ${what}, is not a whole number.`,
      {
        received: String(value),
      },
    );
    return least;
  }

  /** An extent of the luminous area (mm): 0 with a warning where it is none, since the light is known without. */
  extent(what: string): number {
    const text = this.text(what);
    const value = parseNumber(text.replace(",", "."));
    if (value !== undefined && value >= 0 && value <= LARGEST_EXTENT) return value;
    if (this.source.errors.length === 0)
      this.source.warn(
        this.at,
        "eulumdat-bad-extent",
        `Line ${this.number}, ${what}, is not usable; 0 was used.`,
        {
          expected: `a number from 0 to ${LARGEST_EXTENT}`,
          received: quote(text),
        },
      );
    return 0;
  }

  /** A number the light does not depend on: 0 where it is none, or beyond anything measured. */
  optional(what: string): number {
    const value = parseNumber(this.text(what).replace(",", ".")) ?? 0;
    return Math.abs(value) <= LARGEST ? value : 0;
  }
}

export function readEulumdatHeader(source: SourceText): EulumdatHeader | undefined {
  const lines = new Lines(source);
  const maker = lines.text("the maker");
  lines.optional("the type of luminaire");
  const isym = lines.whole("the symmetry (Isym)", 0, 4);
  const planes = lines.whole("the number of C planes", 1, MOST_PLANES);
  lines.optional("the spacing of the C planes");
  const rows = lines.whole("the number of angles in a plane", 1, MOST_PLANES);
  lines.optional("the spacing of the angles");
  const report = lines.text("the report number");
  const name = lines.text("the luminaire's name");
  const number = lines.text("the luminaire's number");
  const fileName = lines.text("the file name");
  const date = lines.text("the date");
  const housing = ["length", "width", "height"].map((side) => lines.optional(`the housing's ${side}`));
  const luminous: [number, number] = [
    lines.extent("the luminous length"),
    lines.extent("the luminous width"),
  ];
  const sides = [0, 90, 180, 270].map((c) => lines.extent(`the luminous height in C${c}`));
  const downwardShare = lines.optional("the downward share");
  const lightOutputRatio = lines.optional("the light output ratio");
  const ratioOffset = lines.at;
  const conversion = lines.optional("the conversion factor");
  const conversionOffset = lines.at;
  const tilt = lines.optional("the tilt during measurement");
  const tiltOffset = lines.at;
  const sets = lines.whole("the number of lamp sets", 0, MOST_SETS);
  const lampSets = Array.from({ length: source.errors.length === 0 ? sets : 0 }, (_, i) => readSet(i, lines));
  for (let k = 1; k <= 10; k++) lines.text(`direct ratio ${k}`);
  if (source.errors.length > 0) return undefined;
  return {
    isym: isym as EulumdatHeader["isym"],
    planes,
    rows,
    texts: { maker, report, name, number, fileName, date },
    housing,
    luminous,
    sides,
    downwardShare,
    lightOutputRatio,
    ratioOffset,
    conversion,
    conversionOffset,
    tilt,
    tiltOffset,
    lampSets,
    end: lines.end,
  };
}

function readSet(index: number, lines: Lines): EulumdatHeader["lampSets"][number] {
  const of = `of lamp set ${index + 1}`;
  const count = Math.round(lines.optional(`the number of lamps ${of}`));
  const type = lines.text(`the type ${of}`);
  const flux = lines.optional(`the flux ${of}`);
  const at = lines.at;
  const colourTemperature = lines.text(`the colour ${of}`);
  const colourRendering = lines.text(`the colour rendering ${of}`);
  const watts = lines.optional(`the watts ${of}`);
  return {
    count: Math.min(MOST_LAMPS, Math.max(1, Math.abs(count))),
    negative: count < 0,
    at,
    type,
    flux: flux > 0 ? flux : undefined,
    watts: watts > 0 ? watts : undefined,
    colourTemperature,
    colourRendering,
  };
}
