/** Rows searched by their direct light alone. */
import type { Kind } from "../../src/design/search/candidate.ts";
import type { SearchGrid } from "../../src/design/search/search-grid.ts";
import type { StandingLight } from "../../src/design/search/standing-light.ts";

/** Nothing but direct light. */
export function noStandingLight(grid: SearchGrid, kinds: readonly Kind[]): StandingLight {
  const count = grid.points.length / 3;
  return { fixed: new Float64Array(count), returned: kinds.map(() => new Float64Array(count)) };
}
