/**
 * The ten and the three numbers of LM-63:
 *
 *   lamps, lumens per lamp, multiplier, vertical count, horizontal count, type, units, width, length, height
 *   ballast factor, field 12, input watts
 *
 * Field 12 multiplies to 1991, is nothing in 1995 and 2002 and the file generation type in 2019.
 */

import { lengthList } from "../../diagnostics/phrase.ts";
import { METRES_PER_FOOT } from "../../units/quantities.ts";
import type { PhotometryType } from "../intensity-distribution.ts";
import { MOST_LAMPS } from "./intensity-table.ts";
import { fileGeneration } from "./lm63-generation.ts";
import type { Lm63Header } from "./lm63-header.ts";
import { lm63Opening } from "./lm63-opening.ts";
import type { NumberScanner } from "./number-scanner.ts";
import type { SourceText } from "./source-text.ts";

const MOST_ANGLES = 100_000;
/** Openings beyond this (m) are a slip of units more likely than a luminaire. */
const LARGE_OPENING = 20;
const TYPES: readonly PhotometryType[] = ["C", "B", "A"];

export type Lm63Numbers = NonNullable<ReturnType<typeof readLm63Numbers>>;

/** The ten and the three numbers, checked, the opening in metres. */
export function readLm63Numbers(header: Lm63Header, scanner: NumberScanner, source: SourceText) {
  const surplus = surplusNumbers(scanner);
  const lamps = scanner.whole("The number of lamps", 0, MOST_LAMPS);
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
  if (!multiplies && header.edition !== "2019" && twelfth !== 1)
    source.warn(
      scanner.at,
      "lm63-twelfth-number",
      "The twelfth number is reserved in this edition; it was not applied.",
      {
        expected: "1",
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
  const { opening, remark } = lm63Opening(width, length, height, table);
  if (remark !== undefined)
    source.warn(scanner.at, "lm63-odd-opening", remark, { received: Array.from(extents).join(" ") });
  if (Math.max(opening.length, opening.width, opening.height) > LARGE_OPENING)
    source.warn(
      scanner.at,
      "lm63-large-opening",
      "The luminous opening is very large; are its units right?",
      { received: lengthList([opening.length, opening.width, opening.height], " × ") },
    );
  return opening;
}
