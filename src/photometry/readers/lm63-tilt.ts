/**
 * TILT data of LM-63: how a tilt-sensitive lamp's output changes with the luminaire's tilt.
 *
 *   <lamp geometry 1|2|3> <number of pairs> <angles> <factors>
 *
 * Inside the photometric file after TILT=INCLUDE, or alone in the file that TILT=<name> names.
 */

import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import { radians } from "../../units/quantities.ts";
import type { TiltFactors } from "../photometry.ts";
import { decodeText } from "../text-decoding.ts";
import { checkedAngles } from "./angle-list.ts";
import type { Lm63Header } from "./lm63-header.ts";
import { NumberScanner } from "./number-scanner.ts";
import type { ReadOptions } from "./read-options.ts";
import { quote, SourceText } from "./source-text.ts";

const MOST_PAIRS = 10_000;
/** No lamp gives so much more when it is tilted. */
const LARGEST_FACTOR = 1000;

/** The factors; `none` for TILT=NONE; undefined when an error was recorded. */
export function readTilt(
  header: Lm63Header,
  scanner: NumberScanner,
  source: SourceText,
  options: ReadOptions,
): TiltFactors | "none" | undefined {
  switch (header.tilt.toUpperCase()) {
    case "NONE":
      return "none";
    case "INCLUDE":
      return readTiltRecords(scanner, source);
    case "":
      return source.error(header.tiltOffset, "lm63-bad-tilt", "Nothing stands after TILT=.", {
        expected: "NONE, INCLUDE or the name of a file",
      });
    default:
      return readTiltFile(header, source, options);
  }
}

function readTiltFile(header: Lm63Header, source: SourceText, options: ReadOptions): TiltFactors | undefined {
  if (header.edition === "2019")
    source.warn(
      header.tiltOffset,
      "lm63-tilt-file-2019",
      "The 2019 edition has no tilt files; it is read anyway.",
    );
  if (options.tilt === undefined)
    return source.error(
      header.tiltOffset,
      "lm63-tilt-file-missing",
      "The tilt factors are in another file, which is not at hand; the intensities cannot be known without it.",
      { expected: `the file ${quote(header.tilt)}` },
    );
  const fetched = options.tilt(header.tilt);
  if (!fetched.ok) {
    source.errors.push(...fetched.issues);
    return undefined;
  }
  source.warnings.push(...fetched.warnings);
  if (fetched.value.length > FILE_LIMITS.tiltFile)
    return source.error(header.tiltOffset, "lm63-tilt-file-too-large", "The tilt file is too large.", {
      expected: `at most ${megabytes(FILE_LIMITS.tiltFile)}`,
      received: megabytes(fetched.value.length),
    });
  const inner = new SourceText(decodeText(fetched.value).text, header.tilt);
  const factors = readTiltRecords(new NumberScanner(inner, 0, { comma: "separator", code: "lm63" }), inner);
  source.errors.push(...inner.errors);
  source.warnings.push(...inner.warnings);
  return factors;
}

function readTiltRecords(scanner: NumberScanner, source: SourceText): TiltFactors | undefined {
  const geometry = scanner.whole("the lamp-to-luminaire geometry", 1, 3);
  if (geometry === undefined) return undefined;
  const count = scanner.whole("The number of tilt angles", 1, MOST_PAIRS);
  if (count === undefined) return undefined;
  const anglesAt = scanner.offset;
  const angles = scanner.numbers("the tilt angles", count);
  if (angles === undefined) return undefined;
  const factorsAt = scanner.offset;
  const factors = scanner.numbers("the tilt factors", count);
  if (factors === undefined) return undefined;
  const range = { name: "tilt angles", least: -180, most: 360, code: "lm63" };
  if (!checkedAngles(angles, { ...range, place: (i) => scanner.placeOf(anglesAt, i) }, source))
    return undefined;
  const odd = factors.findIndex((factor) => factor < 0 || factor > LARGEST_FACTOR);
  if (odd >= 0)
    return source.error(
      scanner.placeOf(factorsAt, odd),
      factors[odd] < 0 ? "lm63-negative-factor" : "lm63-factor-too-large",
      factors[odd] < 0 ? "A tilt factor is negative." : "A tilt factor is beyond any lamp.",
      { expected: `0 to ${LARGEST_FACTOR}`, received: String(factors[odd]) },
    );
  return { lampGeometry: geometry as 1 | 2 | 3, angles: angles.map(radians), factors };
}
