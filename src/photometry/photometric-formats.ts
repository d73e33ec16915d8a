/**
 * The photometric formats: what each shows in a file, the endings its files go by, and the modules that read and write it, each loaded
 * when such a file is first met. A format's reader has a second row where all are at hand at once, in `readers/read-photometry.ts`.
 */

import type { Outcome } from "../diagnostics/issue.ts";
import type { Photometry } from "./photometry.ts";
import { fromText, type PhotometryReader } from "./readers/checked-text.ts";
import { readLm63File } from "./readers/lm63-file.ts";
import { tiltOf } from "./readers/lm63-header.ts";
import { decodeText } from "./text-decoding.ts";
import type { Lm63WriterOptions } from "./writers/lm63-writer.ts";

/** What a format shows itself in: the first bytes of a file and their lines of text. */
interface FileHead {
  readonly bytes: Uint8Array;
  readonly text: string;
  readonly lines: readonly string[];
}

interface FormatRow {
  readonly name: string;
  /** In small letters, the usual one first. */
  readonly endings: readonly [string, ...string[]];
  /** Asked in the order of the rows. */
  readonly shows: (head: FileHead) => boolean;
}

export const PHOTOMETRIC_FORMATS = [
  { name: "GLDF", endings: [".gldf"], shows: ({ bytes }) => isZip(bytes) },
  { name: "EULUMDAT", endings: [".ldt", ".eul"], shows: ({ lines }) => hasEulumdatCounts(lines) },
  { name: "TM-33", endings: [".xml"], shows: ({ text }) => /^\s*</.test(text) },
  {
    name: "LM-63",
    endings: [".ies"],
    shows: ({ text, lines }) => tiltLine(lines) >= 0 || /^\s*IES(NA)?\s*[:\d]/i.test(text),
  },
] as const satisfies readonly FormatRow[];

export type PhotometricFormat = (typeof PHOTOMETRIC_FORMATS)[number]["name"];

/** The reader of a file of one format; `all` gives that of all formats, for archives that hold files of any. */
type LoadReader = (bytes: Uint8Array, all: () => Promise<PhotometryReader>) => Promise<PhotometryReader>;

export const LOAD_READER: Readonly<Record<PhotometricFormat, LoadReader>> = {
  // Tilt factors are rare, and most lamps have none.
  "LM-63": async (bytes) =>
    fromText(
      hasTiltNone(bytes)
        ? (text, options) => readLm63File(text, options, () => "none")
        : (await import("./readers/lm63.ts")).readLm63,
    ),
  EULUMDAT: async () => fromText((await import("./readers/eulumdat.ts")).readEulumdat),
  "TM-33": async () => fromText((await import("./readers/tm33.ts")).readTm33),
  GLDF: (_, all) => all(),
};

export type PhotometryWriter = (photometry: Photometry, options: Lm63WriterOptions) => Outcome<string>;

/** Formats that are read alone have none. */
export const LOAD_WRITER: Readonly<Partial<Record<PhotometricFormat, () => Promise<PhotometryWriter>>>> = {
  "LM-63": async () => (await import("./writers/lm63-writer.ts")).writeLm63,
  EULUMDAT: async () => (await import("./writers/eulumdat-writer.ts")).writeEulumdat,
  "TM-33": async () => (await import("./writers/tm33-writer.ts")).writeTm33,
};

/** Every ending of a photometric file. */
export const PHOTOMETRIC_ENDINGS: readonly string[] = PHOTOMETRIC_FORMATS.flatMap(({ endings }) => endings);

/** Characters in which a format shows. */
const HEAD = 1 << 16;

/** The format that bytes show, or that a file's name says where a text shows none; undefined of neither. */
export function formatOf(bytes: Uint8Array, file: string): PhotometricFormat | undefined {
  const head = headOf(bytes);
  return (PHOTOMETRIC_FORMATS.find(({ shows }) => shows(head)) ?? formatNamed(file))?.name;
}

/** Whether an LM-63 file says that no factors for tilt are to follow. */
function hasTiltNone(bytes: Uint8Array): boolean {
  const { lines } = headOf(bytes);
  return tiltOf(lines[tiltLine(lines)] ?? "")?.toUpperCase() === "NONE";
}

function headOf(bytes: Uint8Array): FileHead {
  const text = decodeText(bytes.subarray(0, 4 * HEAD)).text.slice(0, HEAD);
  return { bytes, text, lines: text.split(/\r\n|\r|\n/) };
}

/** The row of the format that a file's name ends in. */
export function formatNamed(file: string): (typeof PHOTOMETRIC_FORMATS)[number] | undefined {
  const name = file.toLowerCase();
  return PHOTOMETRIC_FORMATS.find(({ endings }) => endings.some((ending) => name.endsWith(ending)));
}

/** "PK" and the signature of a local file. */
function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
}

/** Lines 2 to 7 of EULUMDAT are numbers: type, symmetry, planes, spacing, angles, spacing. */
function hasEulumdatCounts(lines: readonly string[]): boolean {
  const tilt = tiltLine(lines);
  return (
    lines.length > 7 &&
    (tilt < 0 || tilt > 7) &&
    lines.slice(1, 7).every((line) => /^\s*\d[\d.,]*\s*$/.test(line))
  );
}

function tiltLine(lines: readonly string[]): number {
  return lines.findIndex((line) => tiltOf(line) !== undefined);
}
