/** A file without a luminous opening: its light leaves from one point at any distance. Nearer than five times its largest side a real
 * opening spreads it (the usual rule of photometry), and no size of it is known to spread by. */

import type { Issue } from "../diagnostics/issue.ts";
import type { LuminousOpening } from "./luminous-opening.ts";

/** The warning; undefined where an opening is stated. */
export function unstatedOpening({ shape }: Pick<LuminousOpening, "shape">): Omit<Issue, "where"> | undefined {
  if (shape !== "point") return undefined;
  return {
    code: "opening-unstated",
    severity: "warning",
    message:
      "The file states no luminous opening: its light is taken to leave from a point, however near; close to a real one it is spread wider.",
    expected:
      '"opening" in the luminaire, as { "diameter": "200 mm" }, or { "shape": "point" } if it is that small',
  };
}
