import type { Outcome } from "../../diagnostics/issue.ts";

/** How a photometric file is to be read. */
export interface ReadOptions {
  /** The file's name, for issues and as a hint of its format. */
  readonly file: string;
  /** Which lamp set or emitter to use, from 0. Default 0. */
  readonly lampSet?: number;
  /** Rated flux of all lamps (lm) to read a relative file with, in place of its own; an error on an absolute one. */
  readonly flux?: number;
  /** Fetches the file named after `TILT=`. Without it such an LM-63 file is an error. */
  readonly tilt?: (name: string) => Outcome<Uint8Array>;
}
