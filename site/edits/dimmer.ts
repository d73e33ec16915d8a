/** What is said of a layer's dimmer, key by key. */

import type { Edit } from "../store/history.ts";
import type { Json } from "../store/pointer.ts";
import type { RawStudy } from "./raw-study.ts";

export type DimmerKey = "name" | "minimumWatts" | "maximumWatts" | "control";

/** One key said, or no longer said where the value is undefined. A dimmer of which nothing is said any more is none: an empty one
 * would stay on hold with nothing on screen to take it away. */
export function sayOfDimmer(
  study: RawStudy,
  [arrangement, layer]: readonly [arrangement: number, layer: number],
  key: DimmerKey,
  value: Json | undefined,
): Edit[] {
  const path = ["arrangements", arrangement, "layers", layer, "dimmer"];
  const { dimmer = {} } = study.arrangements[arrangement].layers[layer];
  const isLast = Object.keys(dimmer).every((each) => each === key);
  return [value === undefined && isLast ? { path, value } : { path: [...path, key], value }];
}
