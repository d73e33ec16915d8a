/**
 * The engine against paths traced by another method, in a few random kitchens of each family; many of them by
 * `random-kitchens.mjs`. Answered for: a zone's mean interreflected light 2 %, total light 1 % at 95 of 100 points;
 * two standard errors of the trace are added.
 */
import { describe, expect, it } from "vitest";
import {
  compareKitchen,
  SMALL_EFFORT,
  summaryOf,
  summaryText,
  table,
} from "../support/path-trace/compare-kitchen.ts";
import type { Family } from "../support/path-trace/random-kitchen.ts";

const COUNT: Readonly<Record<Family, number>> = { bare: 3, bodies: 2, people: 2 };

describe("random kitchens against traced paths", () => {
  for (const family of Object.keys(COUNT) as Family[])
    it(`${family}: interreflected light of zones, light at points`, () => {
      const kitchens = Array.from({ length: COUNT[family] }, (_, index) =>
        compareKitchen(family, 1, index, SMALL_EFFORT),
      );
      const summary = summaryOf(kitchens);
      console.log([...kitchens.flatMap(table), summaryText(family, summary)].join("\n"));
      expect(summary.zones).toBeGreaterThanOrEqual(2 * COUNT[family]);
      for (const kitchen of kitchens) expect(kitchen.hitsWithoutSurface).toBe(0);
      expect(summary.zonesWithin).toBe(summary.zones);
      expect(summary.pointsWithin).toBeGreaterThanOrEqual(0.95 * summary.points);
    });
});
