/** What no photometric file can carry, whatever its format. */

import type { Issue } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";

/** Written in plain decimals, and per 1000 lm of the faintest flux, it stays within the 64 characters that a reader takes for a number. */
const LARGEST = 1e20;

/** The issue with a photometry that holds a value no file can carry; undefined when all can be written. */
export function refuseUnwritable({ distribution, opening, ratedFlux, watts }: Photometry): Issue | undefined {
  const isWritable = (value: number): boolean => Math.abs(value) <= LARGEST;
  const allWritable =
    distribution.intensity.every(isWritable) &&
    distribution.horizontal.every(isWritable) &&
    distribution.vertical.every(isWritable) &&
    [opening.length, opening.width, opening.height, ratedFlux ?? 0, watts ?? 0].every(isWritable);
  if (allWritable && distribution.intensity.every((value) => value >= 0)) return undefined;
  return {
    code: "photometry-not-writable",
    severity: "error",
    message: "The photometry holds a value that no file can carry.",
    expected: `numbers up to ${LARGEST}, no negative intensity`,
    where: {},
  };
}
