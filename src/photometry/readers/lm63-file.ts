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
import type { LampSet, Photometry } from "../photometry.ts";
import { tiltFactorAt } from "../tilt-factor.ts";
import { checkFlux } from "./flux-check.ts";
import { allFinite } from "./intensity-table.ts";
import { type Lm63Header, readLm63Header } from "./lm63-header.ts";
import { readLm63Numbers } from "./lm63-numbers.ts";
import { readLm63Table } from "./lm63-table.ts";
import type { readTilt } from "./lm63-tilt.ts";
import { NumberScanner } from "./number-scanner.ts";
import { expandPlanes } from "./plane-expansion.ts";
import { refuseRadiometric } from "./radiometric.ts";
import type { ReadOptions } from "./read-options.ts";
import { relampFactor } from "./relamp.ts";
import { SourceText } from "./source-text.ts";

/** The photometry an LM-63 text holds. Candela are final; angles rad; opening m.
 * @param tiltFactors reads them, where the text may have any */
export function readLm63File(
  text: string,
  options: ReadOptions,
  tiltFactors: typeof readTilt,
): Outcome<Photometry> {
  const source = new SourceText(text, options.file);
  return source.outcome(read(source, options, tiltFactors));
}

function read(
  source: SourceText,
  options: ReadOptions,
  tiltFactors: typeof readTilt,
): Photometry | undefined {
  const header = readLm63Header(source);
  if (header === undefined || refuseRadiometric(header.labels, source)) return undefined;
  const scanner = new NumberScanner(source, header.end, { comma: "separator", code: "lm63" });
  const tilt = tiltFactors(header, scanner, source, options);
  if (tilt === undefined) return undefined;
  const numbers = readLm63Numbers(header, scanner, source);
  if (numbers === undefined) return undefined;
  const table = readLm63Table(numbers, header, scanner, source);
  if (table === undefined) return undefined;

  const absolute = numbers.lumens === -1;
  const hasLamps = numbers.lamps > 0 && numbers.lumens > 0;
  const ownFlux = hasLamps ? numbers.lamps * numbers.lumens : undefined;
  const relamp = relampFactor({ absolute, ownFlux, wanted: options.flux, at: numbers.at }, source);
  if (relamp === undefined) return undefined;
  const tiltFactor = tilt === "none" ? 1 : tiltFactorAt(tilt, 0);
  if (tilt !== "none" && tilt.factors.some((factor) => factor !== tiltFactor))
    source.warn(
      header.tiltOffset,
      "lm63-tilt-sensitive",
      "The lamp is sensitive to tilt: the intensities are for none, and a luminaire hung tilted takes its factor.",
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
