/**
 * Words for a level of light: a place most people have stood in. Steps of about 1.5×, the smallest change of
 * level that is plainly seen when one looks for it.
 *
 * Levels of places: common practice, no source. They name an order of size, never a requirement.
 */

const PLACES: readonly (readonly [lux: number, words: string])[] = [
  [5, "a street at night"],
  [20, "a table by candlelight"],
  [30, "a cinema foyer"],
  [50, "a sitting room in the evening"],
  [75, "a hotel corridor"],
  [100, "a stairwell in a public building"],
  [150, "a quiet café"],
  [200, "a restaurant table"],
  [300, "a classroom"],
  [500, "an office desk"],
  [750, "a supermarket aisle"],
  [1000, "a jeweller's counter"],
  [2000, "a table beside a bright window"],
  [10000, "the open air under cloud"],
];

const STEP = 1.5;

/** Words for the place whose level is nearest by ratio to `lux`; below 2 lx it is "nearly dark". */
export function familiarPlace(lux: number): string {
  if (!(lux >= 2)) return "nearly dark";
  let best = PLACES[0];
  for (const place of PLACES)
    if (Math.abs(Math.log(place[0] / lux)) < Math.abs(Math.log(best[0] / lux))) best = place;
  return best[1];
}

/** How many plainly seen steps lie between two levels (lx): log(to / from) / log 1.5, signed. */
export function seenSteps(from: number, to: number): number {
  return Math.log(to / from) / Math.log(STEP);
}
