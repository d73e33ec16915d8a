/** Photometric files as text, of our own making, for the tests of readers and writers. */
import type { Outcome } from "../../src/diagnostics/issue.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { POINT_OPENING } from "../../src/photometry/luminous-opening.ts";
import type { Photometry } from "../../src/photometry/photometry.ts";
import type { ReadOptions } from "../../src/photometry/readers/read-options.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { rotational } from "./distributions.ts";

export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

export function read(text: string, options: Partial<ReadOptions> = {}): Outcome<Photometry> {
  return readPhotometry(bytesOf(text), { file: "test", ...options });
}

/** The photometry of a text that must be readable. */
export function readGood(text: string, options: Partial<ReadOptions> = {}): Photometry {
  const outcome = read(text, options);
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join("\n"));
  return outcome.value;
}

/** Codes of the warnings of a readable text. */
export function warningsOf(text: string, options: Partial<ReadOptions> = {}): string[] {
  const outcome = read(text, options);
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => issue.message).join("\n"));
  return outcome.warnings.map((warning) => warning.code);
}

/** `code line:column` of the first error of a text that must be refused. */
export function errorOf(text: string, options: Partial<ReadOptions> = {}): string {
  const outcome = read(text, options);
  if (outcome.ok) throw new Error("The text was read without an error.");
  const { code, where } = outcome.issues[0];
  return `${code} ${where.line}:${where.column}`;
}

export interface Lm63Parts {
  readonly header?: string;
  readonly labels?: readonly string[];
  readonly tilt?: string;
  /** lamps, lumens, multiplier, vertical count, horizontal count, type, units, width, length, height */
  readonly ten?: string;
  readonly three?: string;
  readonly vertical?: string;
  readonly horizontal?: string;
  readonly candela?: string;
}

/** A rotational LM-63-2002 file of three angles with the parts replaced that a test is about. */
export function lm63(parts: Lm63Parts = {}): string {
  return [
    parts.header ?? "IESNA:LM-63-2002",
    ...(parts.labels ?? ["[TEST] T1", "[TESTLAB] ours", "[ISSUEDATE] today", "[MANUFAC] nobody"]),
    parts.tilt ?? "TILT=NONE",
    parts.ten ?? "1 -1 1 3 1 1 2 -0.2 -0.2 0",
    parts.three ?? "1 1 12",
    parts.vertical ?? "0 45 90",
    parts.horizontal ?? "0",
    parts.candela ?? "100 70 0",
    "",
  ].join("\r\n");
}

export interface EulumdatParts {
  readonly isym?: number;
  readonly planes?: readonly (number | string)[];
  readonly vertical?: readonly (number | string)[];
  readonly table?: readonly (number | string)[];
  /** lamps, type, flux, colour, rendering, watts of each set */
  readonly sets?: readonly (readonly (number | string)[])[];
  /** Lines by their number from 1, replacing those of the form. */
  readonly lines?: Readonly<Record<number, number | string>>;
}

/** A rotational EULUMDAT file of three angles with the parts replaced that a test is about. */
export function eulumdat(parts: EulumdatParts = {}): string {
  const planes = parts.planes ?? [0];
  const vertical = parts.vertical ?? [0, 45, 90];
  const sets = parts.sets ?? [[1, "LED", 1000, "3000K", "90", 10]];
  const head: (number | string)[] = [
    ...[
      "nobody",
      1,
      parts.isym ?? 1,
      planes.length,
      0,
      vertical.length,
      0,
      "R1",
      "a pendant",
      "P1",
      "p1",
      "today",
    ],
    ...[300, 0, 200, 250, 0, 0, 0, 0, 0, 100, 0, 1, 0, sets.length],
  ];
  for (const [line, value] of Object.entries(parts.lines ?? {})) head[Number(line) - 1] = value;
  const ratios = Array.from({ length: 10 }, () => 0);
  return [
    ...head,
    ...sets.flat(),
    ...ratios,
    ...planes,
    ...vertical,
    ...(parts.table ?? [300, 200, 0]),
    "",
  ].join("\r\n");
}

/** A photometry to write: the distribution given, or a rotational one. */
export function photometryOf(
  distribution: IntensityDistribution = rotational((gamma) => 100 * Math.cos(gamma)),
  overrides: Partial<Photometry> = {},
): Photometry {
  return {
    format: "LM-63",
    edition: "2002",
    distribution,
    opening: POINT_OPENING,
    absolute: true,
    watts: 12.5,
    lampSets: [{ count: 1, type: "LED", colourTemperature: "3000 K", colourRendering: "90" }],
    lampSet: 0,
    labels: [{ key: "MANUFAC", value: "nobody" }],
    description: "a pendant",
    ...overrides,
  };
}
