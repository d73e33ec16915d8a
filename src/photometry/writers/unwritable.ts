/** What no photometric file can carry, whatever its format. */

import type { Issue } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";

/** The issue with a photometry that holds a value no file can carry; undefined when all can be written. */
export function refuseUnwritable({ distribution, opening, ratedFlux, watts }: Photometry): Issue | undefined {
  const finite =
    distribution.intensity.every(Number.isFinite) &&
    distribution.horizontal.every(Number.isFinite) &&
    distribution.vertical.every(Number.isFinite) &&
    [opening.length, opening.width, opening.height, ratedFlux ?? 0, watts ?? 0].every(Number.isFinite);
  if (finite && distribution.intensity.every((value) => value >= 0)) return undefined;
  return {
    code: "photometry-not-writable",
    severity: "error",
    message: "The photometry holds a value that no file can carry.",
    expected: "finite numbers, no negative intensity",
    where: {},
  };
}
