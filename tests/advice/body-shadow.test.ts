/**
 * What a body takes from the hands: the published field story as geometry, and the report over a whole study.
 *
 * The story: a downlight 0.91 m off the wall, ceiling 2.44 m, counter 0.635 m deep at 0.91 m, a cook of 1.72 m at the
 * edge; a field test of one kitchen at one point found 95 % of that downlight's light gone.
 */
import { describe, expect, it } from "vitest";
import { bodyShadows } from "../../src/advice/body-shadow.ts";
import { shadowAnswer } from "../../src/app/check-answer.ts";
import { bodyShadowMap } from "../../src/drawing/body-shadow-svg.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { figure } from "../../src/scene/people.ts";
import { bodyShadowLines } from "../../src/words/body-shadow-text.ts";
import { wording } from "../../src/words/wording.ts";
import { calculate } from "../support/calculate.ts";
import { rotational } from "../support/distributions.ts";
import { luminaire, opening, placed, plane, scene } from "../support/luminaires.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

const DEPTHS = Array.from({ length: 60 }, (_, k) => 0.01 * (k + 1)).filter((d) => d < 0.635);

/** Share of the downlight's direct light lost along the counter's depth, in front of the cook. */
function lostAlongCounter(posture: "standing" | "leaning"): number[] {
  const points = DEPTHS.map((y): Vec3 => [0, y, 0.91]);
  const downlight = placed(
    luminaire(
      rotational((g) => 300 * Math.max(0, Math.cos(g))),
      opening("disc", 0.1, 0.1),
    ),
    [0, 0.91, 2.44],
  );
  // At the edge: the front of the trunk, half of 0.14 of the stature, touches the counter.
  const { mesh } = figure([0, 0.635 + 0.07 * 1.72], -Math.PI / 2, 1.72, posture);
  const base = scene([[downlight]], [plane(points)]);
  const lit = (blockers: typeof base.blockers) =>
    calculate({ ...base, blockers }, { interreflection: false, people: true }).planes[0].layers[0].direct;
  const before = lit([]);
  const after = lit([{ name: "cook", kind: "person", mesh, transmittance: 0 }]);
  return DEPTHS.map((_, k) => 1 - after[k] / before[k]);
}

describe("the field story", () => {
  it("leaning, the cook takes at least 90 % from 0.15 to 0.53 m off the wall", () => {
    const lost = lostAlongCounter("leaning");
    const worst = Math.min(
      ...DEPTHS.flatMap((d, k) => (d >= 0.15 - 1e-9 && d <= 0.53 + 1e-9 ? [lost[k]] : [])),
    );
    console.log(
      `body shadow, leaning: least lost ${(100 * worst).toFixed(1)} % from 0.15 to 0.53 m off the wall`,
    );
    expect(worst).toBeGreaterThanOrEqual(0.9);
  });

  it("upright, only the front 0.2 m is lost", () => {
    const lost = lostAlongCounter("standing");
    const dark = DEPTHS.filter((_, k) => lost[k] >= 0.9);
    console.log(
      `body shadow, upright: 90 % lost from ${Math.min(...dark).toFixed(2)} m off the wall to the edge at 0.635 m`,
    );
    expect(Math.min(...dark)).toBeGreaterThan(0.635 - 0.25);
    expect(Math.min(...dark)).toBeLessThan(0.635 - 0.15);
    DEPTHS.forEach((d, k) => {
      // Further in only the crown's penumbra reaches.
      if (d < 0.33) expect(lost[k]).toBeLessThan(0.05);
    });
  });
});

describe("body shadows of a study", () => {
  const study = resolved(
    kitchen({
      people: [{ name: "co<ok>", stature: 1.72, at: [2.4, 1.42], facing: 90 }],
      island: {
        ...ISLAND,
        zones: [
          { name: "prep", from: [0, 0], size: [1.4, 0.6] },
          { name: "eating", from: [0, 0.6], size: [2.4, 0.5] },
        ],
      },
    }),
  );
  const shadows = bodyShadows(study.scenes[0]);

  it("name every zone and posture, and put somebody where nobody is", () => {
    expect(shadows.map(({ zone, posture }) => `${zone} ${posture}`)).toEqual([
      "prep standing",
      "prep leaning",
      "prep seated",
      "eating standing",
      "eating leaning",
      "eating seated",
    ]);
    expect(shadows[0].standIn).toBe(false);
    expect(shadows[3].standIn).toBe(true);
  });

  it("are those of a cook whom the study puts where nobody is", () => {
    // 0.13 m off the middle of the far edge, which lies at 2.1 + 0.55 m, face to it.
    const there = resolved(
      kitchen({
        people: [{ name: "cook", stature: 1.72, at: [2.7, 2.78], facing: -90, posture: "leaning" }],
        island: { ...ISLAND, zones: [{ name: "eating", from: [0, 0.6], size: [2.4, 0.5] }] },
      }),
    ).scenes[0];
    const request = { usualAlone: true, options: { interreflection: false } };
    const [own] = bodyShadows(there, request);
    const [nobody] = bodyShadows({ ...there, people: [] }, request);
    expect(own.standIn).toBe(false);
    expect(own.lost).toBeGreaterThan(0.005);
    expect({ ...nobody, standIn: false }).toEqual(own);
  });

  it("are the same where only the usual postures are asked for", () => {
    const usual = bodyShadows(study.scenes[0], { usualAlone: true });
    expect(usual).toEqual(shadows.filter((each) => each.usual));
    expect(usual.length).toBe(2);
  });

  it("are the same where nobody stands in", () => {
    const own = bodyShadows(study.scenes[0], { withoutStandIns: true });
    expect(own).toEqual(shadows.filter((each) => !each.standIn));
    expect(own.length).toBe(3);
  });

  it("are those of many small patches", () => {
    const finely = bodyShadows(study.scenes[0], { options: { patches: 1000 }, usualAlone: true });
    const usual = shadows.filter((each) => each.usual);
    const errors = usual.map(({ lost }, k) => Math.abs(lost - finely[k].lost));
    console.log(`body shadow, 60 against 1,000 patches: worst error ${Math.max(...errors).toFixed(4)}`);
    for (const error of errors) expect(error).toBeLessThan(0.003);
    usual.forEach(({ without }, k) => {
      expect(Math.abs(without / finely[k].without - 1)).toBeLessThan(0.01);
    });
  });

  it("take more from what shines from behind than from what hangs in front, most of all leaning", () => {
    const [standing, leaning] = shadows;
    for (const shadow of shadows) {
      expect(shadow.lost).toBeGreaterThanOrEqual(0);
      expect(shadow.worst.lost).toBeGreaterThanOrEqual(shadow.lost);
      expect(shadow.with).toBeLessThanOrEqual(shadow.without);
      expect(shadow.map.lost.length).toBe(shadow.map.plane.points.length / 3);
    }
    const of = (shadow: (typeof shadows)[number], name: string) =>
      shadow.layers.find(({ layer }) => layer === name)!.lost;
    expect(of(leaning, "ambient")).toBeGreaterThan(of(leaning, "pendants"));
    expect(leaning.lost).toBeGreaterThan(standing.lost);
  });

  it("are told in words, plain data and a drawing without trusting names", () => {
    const text = bodyShadowLines(shadows, wording(study.display)).join("\n");
    expect(text).toContain("prep");
    expect(text).toMatch(/lost standing .*%, leaning \(usual\) .*%/);
    const json = JSON.parse(JSON.stringify(shadows.map((each) => shadowAnswer(each, true))));
    expect(json[0].layers.map((l: { layer: string }) => l.layer)).toEqual(["pendants", "ambient"]);
    expect(json[0].map.points.length).toBe(json[0].map.lost.length);
    const { svg } = bodyShadowMap(shadows[0]);
    expect(svg).not.toContain("<ok>");
    expect(svg).toContain("&lt;ok&gt;");
    expect(svg).toMatch(/<text[^>]*>\d+<\/text>/);
  });
});
