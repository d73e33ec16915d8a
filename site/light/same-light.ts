/** Whether two documents of a study have the same light: they differ in words, orders and wiring alone. */

import type { Json } from "../store/pointer.ts";

/** Keys that no light follows from, whatever they hold. One that is wanting here costs a coarse answer more, one too many a short wait for
 * the judged one, which is asked for in any case. */
const WITHOUT_LIGHT = new Set([
  ...["title", "project", "tariff", "display", "underlay", "note", "letter", "source"],
  ...["circuit", "hours", "dimmer", "switches", "ceilingVoid", "ceilingBox", "joists", "keepOuts"],
  ...["maker", "order", "measured", "base", "driver", "dimming", "price", "lampPrice", "lampLife"],
  ...[
    "watts",
    "markedWatts",
    "powerFactor",
    "weight",
    "canopy",
    "cutOut",
    "suspension",
    "suspensions",
    "feed",
  ],
]);

export function hasSameLight(before: Json | undefined, after: Json | undefined): boolean {
  if (before === after) return true;
  if (typeof before !== "object" || typeof after !== "object" || before === null || after === null)
    return false;
  const [a, b] = [before, after] as readonly Readonly<Record<string, Json>>[];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every(
    (key) => WITHOUT_LIGHT.has(key) || hasSameLight(a[key], b[key]),
  );
}
