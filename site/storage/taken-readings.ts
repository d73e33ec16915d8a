/** Readings taken on site, kept at once in this browser, so that a phone that sleeps or reloads loses none. */

import type { LightAge, TakenReading } from "../light/reading-points.ts";

export interface SiteReadings {
  readonly taken: readonly TakenReading[];
  readonly age: LightAge;
  readonly meter: string;
}

const NONE: SiteReadings = { taken: [], age: "new", meter: "5" };
const MOST = 2000;

/** Readings belong to the option of a study that was built: told by title and name. */
export function readingsKey(title: string | undefined, option: string): string {
  return `candlespan-readings ${JSON.stringify([title ?? "", option])}`;
}

export function loadReadings(key: string): SiteReadings {
  try {
    const stored = JSON.parse(localStorage.getItem(key) ?? "null") as SiteReadings | null;
    if (stored === null || !Array.isArray(stored.taken)) return NONE;
    const taken = stored.taken.filter(
      ({ at, lit, lux }) =>
        Array.isArray(at) &&
        at.length === 3 &&
        at.every(Number.isFinite) &&
        typeof lit === "string" &&
        lux >= 0,
    );
    return { taken, age: stored.age === "aged" ? "aged" : "new", meter: String(stored.meter) };
  } catch {
    return NONE;
  }
}

export function keepReadings(key: string, readings: SiteReadings): void {
  try {
    localStorage.setItem(key, JSON.stringify({ ...readings, taken: readings.taken.slice(-MOST) }));
  } catch {
    // A browser that keeps nothing still compares what is on screen.
  }
}

/** With one reading more, or another at the same place with the same lamps on; undefined takes it away. */
export function withReading(
  readings: SiteReadings,
  at: TakenReading["at"],
  lit: string,
  lux: number | undefined,
): SiteReadings {
  const others = readings.taken.filter((each) => each.lit !== lit || !isSamePlace(each.at, at));
  return { ...readings, taken: lux === undefined ? others : [...others, { at, lit, lux }] };
}

/** Within a millimetre. */
export function isSamePlace(a: TakenReading["at"], b: TakenReading["at"]): boolean {
  return a.every((value, axis) => Math.abs(value - b[axis]) < 1e-3);
}
