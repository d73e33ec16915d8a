/**
 * The photometric formats: what each shows in a file, and the endings its files go by. What reads and writes each is in
 * `format-modules.ts`.
 */

import { tiltOf } from "./readers/lm63-header.ts";
import { decodeText } from "./text-decoding.ts";

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
export function hasTiltNone(bytes: Uint8Array): boolean {
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
