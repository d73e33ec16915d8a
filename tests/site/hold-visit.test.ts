/** On from one thing that is on hold to the next, by what is still open and not by where it stands. */

import { expect, it } from "vitest";
import { type HeldPlace, HoldVisit } from "../../site/store/hold-visit.ts";

const MARGIN = ["layers", 1, "grid", "margin"];
const DIMMER = ["layers", 1, "dimmer", "maximumWatts"];
const WEIGHT = ["luminaires", "bar", "weight"];

// 2026-11-29: with a layer's dimmer still open the only way on was another place, and at the last place there was none.
it("leads on while anything is open, within one place too", () => {
  let places: readonly HeldPlace[] = [
    { name: "ambient", path: MARGIN, missing: [MARGIN, DIMMER] },
    { name: "bar", path: WEIGHT, missing: [WEIGHT] },
  ];
  const visit = new HoldVisit(() => places, { name: "ambient", path: MARGIN });
  places = [
    { name: "ambient", path: DIMMER, missing: [DIMMER] },
    { name: "bar", path: WEIGHT, missing: [WEIGHT] },
  ];
  expect(visit.next()).toEqual({ name: "ambient", path: DIMMER });
  // 2026-11-29: "Next: ambient" stood there with ambient open.
  expect(visit.isHere({ name: "ambient", path: DIMMER })).toBe(true);
  visit.goTo({ name: "ambient", path: DIMMER });
  expect(visit.next()).toEqual({ name: "bar", path: WEIGHT });
  expect(visit.isHere({ name: "bar", path: WEIGHT })).toBe(false);
  visit.goTo({ name: "bar", path: WEIGHT });
  // The dimmer was passed over.
  expect(visit.next()).toEqual({ name: "ambient", path: DIMMER });
  places = [{ name: "bar", path: WEIGHT, missing: [WEIGHT] }];
  expect(visit.next()).toBeUndefined();
  places = [];
  expect(visit.next()).toBeUndefined();
  expect(visit.isAsked(DIMMER)).toBe(true);
});

it("leads to a place whose answer does not hold, though nothing is missing there", () => {
  const order = ["luminaires", "bar", "order"];
  const visit = new HoldVisit(() => [{ name: "bar", path: order, missing: [] }], {
    name: "ambient",
    path: MARGIN,
  });
  expect(visit.next()).toEqual({ name: "bar", path: order });
});

it("says what does not hold of what is said, and goes on within a place that is only listed", () => {
  const hole = ["luminaires", "spot", "cutOut"];
  const at = ["layers", 0, "switches", 0, "at"];
  let places: readonly HeldPlace[] = [
    { name: "bars", path: at, missing: [at] },
    { name: "spot", path: hole, missing: [], wrong: [{ path: hole, words: "too small" }] },
  ];
  const visit = new HoldVisit(() => places, { name: "bars", path: at.slice(0, 3) });
  expect(visit.next()).toEqual({ name: "bars", path: at });
  expect(visit.isAsked(at.slice(0, 3))).toBe(true);
  expect(visit.isOpen(at.slice(0, 3))).toBe(true);
  expect(visit.isAsked(["luminaires", "spot", "cut"])).toBe(false);
  expect(visit.wrongWith(hole)).toBe("too small");
  expect(visit.wrongWith(at)).toBeUndefined();
  places = [];
  expect(visit.isAsked(hole)).toBe(true);
  expect(visit.isOpen(at.slice(0, 3))).toBe(false);
  expect(visit.wrongWith(hole)).toBeUndefined();
});
