/** Order of arrangements: verdict, how far a target is missed, what can be built, evenness. */
import { describe, expect, it } from "vitest";
import { ranked } from "../../src/app/ranking.ts";
import type { Check, ZoneAssessment } from "../../src/assessment/assessment.ts";
import { shortfallOf } from "../../src/assessment/shortfall.ts";
import type { Verdict } from "../../src/assessment/verdict.ts";
import { syntheticAssessment, syntheticScene } from "../support/synthetic-island.ts";

const scene = syntheticScene();
const base = syntheticAssessment(scene);

interface Given {
  readonly value: number;
  readonly verdict: Verdict;
  readonly evenness: number;
  readonly clashes?: readonly unknown[];
}

function option(name: string, { value, verdict, evenness, clashes }: Given) {
  const check = { quantity: "illuminance", value, target: 500, verdict } as Check;
  const zones: ZoneAssessment[] = [{ ...base.zones[0], checks: [check], verdict }];
  const planes = base.planes.map((plane) => ({
    ...plane,
    statistics: { ...plane.statistics, uniformity: evenness },
  }));
  return { name, scene, assessment: { ...base, planes, zones, verdict }, clashes };
}
const order = (...all: ReturnType<typeof option>[]): string[] => ranked(all).map(({ name }) => name);

describe("arrangements in order", () => {
  it("that all fall short: whichever misses least comes first, however even the others are", () => {
    const even = option("even and dark", { value: 200, verdict: "falls short", evenness: 0.9 });
    const near = option("nearly there", { value: 460, verdict: "falls short", evenness: 0.5 });
    const none = option("no light", { value: 0, verdict: "falls short", evenness: 1 });
    expect(order(none, even, near)).toEqual(["nearly there", "even and dark", "no light"]);
    expect(shortfallOf(near.assessment.zones)).toBeCloseTo(0.08, 12);
  });

  it("that miss alike: the evenest", () => {
    const patchy = option("patchy", { value: 461, verdict: "falls short", evenness: 0.5 });
    const even = option("even", { value: 459, verdict: "falls short", evenness: 0.7 });
    expect(order(patchy, even)).toEqual(["even", "patchy"]);
  });

  it("that meet: the evenest, however much they give; before what cannot hang as it is placed, before what is open, and last what misses", () => {
    const bright = option("bright", { value: 900, verdict: "meets", evenness: 0.5 });
    const even = option("even", { value: 520, verdict: "meets", evenness: 0.8 });
    const open = option("open", { value: 505, verdict: "too close to call", evenness: 0.9 });
    const short = option("short", { value: 499, verdict: "falls short", evenness: 0.9 });
    const held = option("held", { value: 900, verdict: "meets", evenness: 0.99, clashes: [1] });
    expect(order(held, short, open, bright, even)).toEqual(["even", "bright", "held", "open", "short"]);
  });
});
