/** How large a file may be (bytes; MB are 10⁶), in one place for command line, page and readers; how long a text in it may be is bounded
 * where it is read. Real photometric texts of a whole sphere at half a degree are below 2 MB; containers carry pictures and geometry too. */

const MB = 1e6;

export const FILE_LIMITS = {
  study: 8 * MB,
  photometricText: 16 * MB,
  photometricArchive: 64 * MB,
  /** What is unpacked of one, in all. */
  unpacked: 48 * MB,
  /** Four records. */
  tiltFile: 1 * MB,
  /** A sign of more bytes is a photograph. */
  logo: 2 * MB,
  readings: 1 * MB,
  offsets: 0.1 * MB,
  /** A drawing of the house to lie under the floor plan. */
  underlay: 20 * MB,
  /** The same inside a study's file: every version of the study that is kept holds it. */
  underlayInStudy: 1.5 * MB,
  /** A page, script, font or picture of the viewer; a font of the papers. */
  served: 16 * MB,
  /** A paper of a hand-over, and the list of what a folder holds. */
  paper: 256 * MB,
  contents: 1 * MB,
} as const;

/** A size in words: "16 MB", "16.8 MB". */
export function megabytes(bytes: number): string {
  return `${Number((bytes / MB).toFixed(bytes < MB ? 2 : 1))} MB`;
}
