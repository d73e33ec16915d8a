/** From light to verdict: layers sum, dimming and maintenance are weights, the fixed band decides. */
import { describe, expect, it } from "vitest";
import { assess } from "../../src/assessment/assess.ts";
import { worstVerdict } from "../../src/assessment/verdict.ts";
import type { Target } from "../../src/scene/target.ts";
import { textbookResult, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

const scene = tinyScene();
const result = textbookResult(scene);

function own(value: number, more: Partial<Target["requirements"][number]> = {}): Target {
  return {
    id: "preparation",
    name: "own",
    requirements: [{ quantity: "illuminance", statistic: "average", value, nature: "maintained", ...more }],
    source: "the designer's own",
    known: "stated in the study",
  };
}

describe("the judgement of an arrangement", () => {
  it("sums the layers, dimmed and maintained, to the illuminance", () => {
    const { planes } = assess(tinyStudy([scene]), scene, result);
    let worst = 0;
    planes.forEach((plane, p) => {
      for (let i = 0; i < plane.illuminance.length; i++) {
        const raw = result.planes[p].layers;
        const plain =
          (raw[0].direct[i] + raw[0].interreflected[i]) * 1 * 0.8 +
          (raw[1].direct[i] + raw[1].interreflected[i]) * 0.5 * 0.8;
        worst = Math.max(worst, Math.abs(plane.illuminance[i] / plain - 1));
      }
    });
    console.log(`worst error of layer sums ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-14);
  });

  it("judges each zone against its published target and says the source", () => {
    const { zones } = assess(tinyStudy([scene]), scene, result);
    expect(zones.map((zone) => [zone.name, zone.checks[0].target])).toEqual([
      ["prep", 500],
      ["eating", 200],
    ]);
    expect(zones[0].checks[0].source).toContain("IES");
  });

  it("prefers the study's own target of the same name", () => {
    const { zones } = assess(tinyStudy([scene], [own(120)]), scene, result);
    expect(zones[0].checks[0].target).toBe(120);
  });

  it("meets, is too close to call, falls short as the target passes through the band", () => {
    const at = (target: number) =>
      assess(tinyStudy([scene], [own(target)]), scene, result).zones[0].checks[0];
    const { value, band } = at(1);
    // Layer parts written out: pendants measured ±8 %, spots flux and beam −20 +35 %.
    const parts = [0, 1].map((layer) => {
      const raw = result.planes[1].layers[layer];
      const sum = raw.direct.reduce((a, e, i) => a + e + raw.interreflected[i], 0);
      return (sum / raw.direct.length) * (layer === 0 ? 1 : 0.5) * 0.8;
    });
    expect(parts[0] + parts[1]).toBeCloseTo(value, 9);
    expect(band[0]).toBeCloseTo(parts[0] * 0.92 + parts[1] * 0.8, 9);
    expect(band[1]).toBeCloseTo(parts[0] * 1.08 + parts[1] * 1.35, 9);
    expect(at(band[0]).verdict).toBe("meets");
    expect(at(band[0] * 1.001).verdict).toBe("too close to call");
    expect(at(band[1]).verdict).toBe("too close to call");
    expect(at(band[1] * 1.001).verdict).toBe("falls short");
  });

  it("takes uniformity as it is, without a band", () => {
    const target = own(0.2, { quantity: "uniformity", statistic: "minimum / average" });
    const { statistics, checks } = assess(tinyStudy([scene], [target]), scene, result).zones[0];
    expect(checks[0].value).toBe(statistics.uniformity);
    expect(checks[0].band).toEqual([statistics.uniformity, statistics.uniformity]);
    expect(checks[0].verdict).toBe("meets");
  });

  it("takes maintenance out of an initial figure", () => {
    const maintained = assess(tinyStudy([scene], [own(1)]), scene, result).zones[0].checks[0].value;
    const initial = assess(tinyStudy([scene], [own(1, { nature: "initial" })]), scene, result).zones[0]
      .checks[0];
    expect(initial.value).toBeCloseTo(maintained / 0.8, 9);
  });

  it("finds the least point of a zone when the minimum is asked", () => {
    const check = assess(tinyStudy([scene], [own(1, { statistic: "minimum" })]), scene, result).zones[0];
    expect(check.checks[0].value).toBe(check.statistics.minimum);
    expect(check.checks[0].band[0]).toBeLessThan(check.statistics.minimum);
  });

  it("is the worst of its zones; without zones the whole top is one and asks nothing", () => {
    const judged = assess(tinyStudy([scene]), scene, result);
    expect(judged.verdict).toBe(worstVerdict(judged.zones.map((zone) => zone.verdict)));
    const bare = tinyScene({ zones: [], planes: [scene.planes[0]] });
    const whole = assess(tinyStudy([bare]), bare, textbookResult(bare));
    expect(whole.zones).toMatchObject([{ name: "top", verdict: "no target" }]);
    expect(whole.verdict).toBe("no target");
  });

  it("adds power as dimmed and counts those that did not say", () => {
    // Two pendants of 10 W; two spots of unknown power; floor 5 m × 4 m.
    expect(assess(tinyStudy([scene]), scene, result).energy).toEqual({
      watts: 20,
      wattsPerSquareMetre: 1,
      unknownWatts: 2,
    });
  });
});
