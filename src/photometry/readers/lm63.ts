/**
 * ANSI/IES LM-63, editions 1986 to 2019: text to photometry.
 *
 *   header and keywords, TILT= (see `lm63-header.ts`, `lm63-tilt.ts`)
 *   lamps, lumens per lamp, multiplier, vertical count, horizontal count, type, units, width, length, height
 *   ballast factor, field 12, input watts
 *   vertical angles, horizontal angles, candela with the vertical angle running fastest
 *
 *   I = table × multiplier × ballast factor × (to 1991: field 12) × tilt factor
 *
 * Field 12 is a ballast-lamp factor until 1991, "future use" in 1995 and 2002, the file generation type in 2019.
 * Rated lumens of −1 mean absolute photometry. After TILT= the file is one stream of numbers, however its lines
 * are broken. Missing required keywords and long lines are not remarked on: they bear on no quantity.
 *
 * References: ANSI/IES LM-63-2019 and IESNA LM-63-1986, -1991, -1995, -2002, Standard File Format for the
 * Electronic Transfer of Photometric Data.
 */

import type { Outcome } from "../../diagnostics/issue.ts";
import { METRES_PER_FOOT } from "../../units/quantities.ts";
import type { PhotometryType, Symmetry } from "../intensity-distribution.ts";
import type { LampSet, Photometry } from "../photometry.ts";
import { checkedAngles, near } from "./angle-list.ts";
import { checkFlux } from "./flux-check.ts";
import { allFinite, refuseNegative, verticalRangeWarning } from "./intensity-table.ts";
import { fileGeneration } from "./lm63-generation.ts";
import { type Lm63Header, readLm63Header } from "./lm63-header.ts";
import { lm63Opening } from "./lm63-opening.ts";
import { readTilt, tiltFactorAt } from "./lm63-tilt.ts";
import { NumberScanner } from "./number-scanner.ts";
import { expandPlanes } from "./plane-expansion.ts";
import { refuseRadiometric } from "./radiometric.ts";
import type { ReadOptions } from "./read-options.ts";
import { relampFactor } from "./relamp.ts";
import { quote, SourceText } from "./source-text.ts";

const MOST_ANGLES = 100_000;
/** Openings beyond this (m) are a slip of units more likely than a luminaire. */
const LARGE_OPENING = 20;
const TYPES: readonly PhotometryType[] = ["C", "B", "A"];

/** The photometry an LM-63 text holds. Candela are final; angles rad; opening m. */
export function readLm63(text: string, options: ReadOptions): Outcome<Photometry> {
  const source = new SourceText(text, options.file);
  return source.outcome(read(source, options));
}

function read(source: SourceText, options: ReadOptions): Photometry | undefined {
  const header = readLm63Header(source);
  if (header === undefined || refuseRadiometric(header.labels, source)) return undefined;
  const scanner = new NumberScanner(source, header.end, { comma: "separator", code: "lm63" });
  const tilt = readTilt(header, scanner, source, options);
  if (tilt === undefined) return undefined;
  const numbers = readNumbers(header, scanner, source);
  if (numbers === undefined) return undefined;
  const table = readTable(numbers, header, scanner, source);
  if (table === undefined) return undefined;

  const absolute = numbers.lumens === -1;
  const known = numbers.lamps > 0 && numbers.lumens > 0;
  const ownFlux = known ? numbers.lamps * numbers.lumens : undefined;
  const relamp = relampFactor({ absolute, ownFlux, wanted: options.flux, at: numbers.at }, source);
  if (relamp === undefined) return undefined;
  const tiltFactor = tilt === "none" ? 1 : tiltFactorAt(tilt, 0);
  if (tilt !== "none" && tilt.factors.some((factor) => factor !== tiltFactor))
    source.warn(
      header.tiltOffset,
      "lm63-tilt-sensitive",
      "The lamp is sensitive to tilt; intensities are for none.",
    );

  const factor = numbers.multiplier * numbers.ballastFactor * numbers.lampFactor * tiltFactor * relamp;
  const intensity = table.candela.map((value) => value * factor);
  if (!allFinite(intensity))
    return source.error(numbers.at, "lm63-overflow", "The multiplied intensities are beyond any light.");
  const { distribution, conflict } = expandPlanes({ ...table, type: numbers.type, intensity });
  if (conflict > 0)
    source.warn(
      table.at,
      "lm63-planes-differ",
      "Two planes of the same direction differ; the first was kept.",
      {
        received: `a difference of up to ${conflict} cd`,
      },
    );

  const ratedFlux = options.flux ?? ownFlux;
  if (ratedFlux !== undefined && !absolute)
    checkFlux(distribution, { rated: ratedFlux, at: numbers.at }, source);
  const lampSet: LampSet = {
    count: Math.max(1, numbers.lamps),
    type: labelValue(header, "LAMP", "LAMPCAT"),
    flux: ratedFlux,
    watts: numbers.watts,
    colourTemperature: labelValue(header, "COLORTEMP", "_CCT", "_COLORTEMPERATURE"),
    colourRendering: labelValue(header, "_CRI", "_COLORRENDERING"),
  };
  if ((options.lampSet ?? 0) !== 0)
    source.warn(numbers.at, "lamp-set-unknown", "The format holds one lamp set; it was used.", {
      expected: "lamp set 0",
      received: String(options.lampSet),
    });
  return {
    format: "LM-63",
    edition: header.edition,
    stored: { planes: table.horizontal.length, angles: table.vertical.length },
    distribution,
    tilt: tilt === "none" ? undefined : tilt,
    generation: numbers.generation,
    opening: numbers.opening,
    absolute,
    ratedFlux,
    watts: numbers.watts,
    lampSets: [lampSet],
    lampSet: 0,
    labels: header.labels,
    description: describe(header),
  };
}

type Numbers = NonNullable<ReturnType<typeof readNumbers>>;

/** The ten and the three numbers, checked, the opening in metres. */
function readNumbers(header: Lm63Header, scanner: NumberScanner, source: SourceText) {
  const surplus = surplusNumbers(scanner);
  const lamps = scanner.whole("The number of lamps", 0, 1e6);
  if (lamps === undefined) return undefined;
  const at = scanner.at;
  const lumens = scanner.number("the lumens per lamp");
  if (lumens === undefined) return undefined;
  if (lumens < 0 && lumens !== -1)
    return source.error(scanner.at, "lm63-negative-lumens", "The lumens per lamp are negative.", {
      expected: "a positive number, or -1 for absolute photometry",
      received: String(lumens),
    });
  if (lumens === 0 || (lamps === 0 && lumens !== -1))
    source.warn(
      scanner.at,
      "lm63-unknown-lumens",
      "The lamp flux is not stated; the intensities are used as they are.",
    );
  const multiplier = factorOf("candela multiplier", scanner, source);
  if (multiplier === undefined) return undefined;
  const rows = scanner.whole("The number of vertical angles", 1, MOST_ANGLES);
  if (rows === undefined) return undefined;
  const planes = scanner.whole("The number of horizontal angles", 1, MOST_ANGLES);
  if (planes === undefined) return undefined;
  const typeNumber = scanner.whole("The photometric type", 1, 3);
  if (typeNumber === undefined) return undefined;
  const units = scanner.whole("The units of the opening", 1, 2);
  if (units === undefined) return undefined;
  const opening = readOpening(units === 1 ? METRES_PER_FOOT : 1, header, scanner, source);
  if (opening === undefined) return undefined;
  if (surplus > 0) {
    for (let i = 0; i < surplus; i++) scanner.token();
    source.warn(
      scanner.at,
      "lm63-surplus-numbers",
      "The line of ten numbers holds more; the rest was ignored.",
    );
  }
  const ballastFactor = factorOf("ballast factor", scanner, source);
  if (ballastFactor === undefined) return undefined;
  const multiplies = header.edition === "1986" || header.edition === "1991";
  const twelfth = multiplies
    ? factorOf("ballast-lamp photometric factor", scanner, source)
    : scanner.number("the twelfth number");
  if (twelfth === undefined) return undefined;
  const generation = header.edition === "2019" ? fileGeneration(twelfth) : undefined;
  if (header.edition === "2019" && generation === undefined)
    source.warn(
      scanner.at,
      "lm63-unknown-generation",
      "The file generation type is not one of the defined ones.",
      {
        received: String(twelfth),
      },
    );
  const watts = scanner.number("the input watts");
  if (watts === undefined) return undefined;
  if (watts < 0)
    source.warn(scanner.at, "lm63-negative-watts", "The input watts are negative and were ignored.");
  return {
    at,
    lamps,
    lumens,
    multiplier,
    rows,
    planes,
    type: TYPES[typeNumber - 1],
    opening,
    ballastFactor,
    lampFactor: multiplies ? twelfth : 1,
    generation,
    watts: watts > 0 ? watts : undefined,
  };
}

/** Some files put an eleventh number on the line of ten while the line of three stays whole. */
function surplusNumbers(scanner: NumberScanner): number {
  const onFirst = scanner.tokensOnLine(14);
  if (onFirst !== 11 && onFirst !== 12) return 0;
  return scanner.tokensOnLine(5, onFirst) === 3 ? onFirst - 10 : 0;
}

/** A positive factor; zero, which cannot be meant, counts as 1 with a warning. */
function factorOf(name: string, scanner: NumberScanner, source: SourceText): number | undefined {
  const value = scanner.number(`the ${name}`);
  if (value === undefined || value > 0) return value;
  if (value < 0)
    return source.error(scanner.at, "lm63-negative-factor", `The ${name} is negative.`, {
      expected: "a positive number",
      received: String(value),
    });
  source.warn(scanner.at, "lm63-zero-factor", `The ${name} is zero, which would leave no light; 1 was used.`);
  return 1;
}

function readOpening(unit: number, header: Lm63Header, scanner: NumberScanner, source: SourceText) {
  const extents = scanner.numbers("the width, length and height of the opening", 3);
  if (extents === undefined) return undefined;
  const [width, length, height] = extents.map((value) => value * unit);
  const table = header.edition === "2002" || header.edition === "2019" ? "from 2002" : "to 1995";
  const { opening, doubt } = lm63Opening(width, length, height, table);
  if (doubt !== undefined)
    source.warn(scanner.at, "lm63-odd-opening", doubt, { received: Array.from(extents).join(" ") });
  if (Math.max(opening.length, opening.width, opening.height) > LARGE_OPENING)
    source.warn(
      scanner.at,
      "lm63-large-opening",
      "The luminous opening is very large; are its units right?",
      {
        received: `${opening.length} × ${opening.width} × ${opening.height} m`,
      },
    );
  return opening;
}

function readTable(numbers: Numbers, header: Lm63Header, scanner: NumberScanner, source: SourceText) {
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
  numbers: Numbers,
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

function labelValue(header: Lm63Header, ...keys: string[]): string {
  for (const key of keys) {
    const value = header.labels.find((label) => label.key === key)?.value;
    if (value !== undefined && value !== "") return value;
  }
  return "";
}

function describe(header: Lm63Header): string {
  const named = labelValue(header, "LUMINAIRE", "LUMCAT");
  if (named !== "") return named;
  return header.labels
    .filter((label) => label.key === "")
    .map((label) => label.value)
    .join("\n");
}
