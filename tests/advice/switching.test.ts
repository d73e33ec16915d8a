/**
 * Legs, switches and apparent power by hand: 3 × 9 W at a power factor of 0.9 are 30 VA; 2 × 12 W at 0.6 are 40 VA.
 *
 * Two places are a pair, those between intermediate: common practice, no source.
 */
import { describe, expect, it } from "vitest";
import { loadReport } from "../../src/advice/load.ts";
import { apparentPower, switchingLegs, switchKind } from "../../src/advice/switching.ts";
import { setOut } from "../../src/app/set-out/set-out.ts";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import { setOutPlan } from "../../src/drawing/set-out-plan.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { Layer } from "../../src/scene/scene.ts";
import { placed } from "../support/luminaires.ts";
import { lambertian, tinyScene } from "../support/tiny-scene.ts";

const layer = (name: string, count: number, more: Partial<Luminaire>, rest: Partial<Layer> = {}): Layer => ({
  name,
  role: "pendant",
  dim: 1,
  luminaires: Array.from({ length: count }, (_, i) =>
    placed({ ...lambertian(name, 800, "A"), ...more }, [1 + i, 1, 2]),
  ),
  ...rest,
});

const pendants = layer(
  "pendants",
  3,
  { watts: 9, powerFactor: 0.9 },
  {
    switches: [{ at: [0.1, 0.5] }, { at: [3, 3.9] }, { at: [4.9, 2] }],
    dimmer: { minimumWatts: 40 },
  },
);
const whole = (value: number): number => Math.round(value * 1e9) / 1e9;
const strip = layer("strip", 2, { watts: 12, powerFactor: 0.6 }, { switches: [{ at: [2, 3.8] }] });
const scene = tinyScene({
  room: { length: 5, width: 4, ceilingHeight: 2.7, slope: 0, towards: 0 },
  layers: [pendants, layer("none", 0, {}), strip],
});

describe("legs", () => {
  it("adds apparent power from both that are stated, and says what is not", () => {
    expect(apparentPower(pendants).voltAmperes).toBeCloseTo(30, 12);
    expect(apparentPower(strip).voltAmperes).toBeCloseTo(40, 12);
    expect(apparentPower(layer("a", 2, { watts: 12 }))).toEqual({
      voltAmperes: 24,
      withoutPower: 0,
      withoutFactor: 2,
    });
    expect(apparentPower(layer("a", 2, { powerFactor: 0.9 }))).toEqual({
      voltAmperes: 0,
      withoutPower: 2,
      withoutFactor: 0,
    });
  });

  it("letters the layers that hold luminaires, and counts their places", () => {
    const { layers } = loadReport(scene);
    expect(layers.map(({ leg, layer: name, switchedFrom }) => [leg, name, switchedFrom])).toEqual([
      ["a", "pendants", 3],
      ["b", "strip", 1],
    ]);
    expect(layers[0].dimmer?.outcome).toBe("below its least load");
    const many = switchingLegs(Array.from({ length: 28 }, (_, i) => layer(`${i}`, 1, {})));
    expect([25, 26, 27].map((i) => many[i].leg)).toEqual(["z", "aa", "ab"]);
  });

  it("pairs the ends of several places", () => {
    expect([0, 1, 2].map((i) => switchKind(i, 3))).toEqual(["two-way", "intermediate", "two-way"]);
    expect([0, 1].map((i) => switchKind(i, 2))).toEqual(["two-way", "two-way"]);
    expect(switchKind(0, 1)).toBe("one-way");
  });
});

it("draws each switch at its place, with its leg, and the dimmer once", () => {
  const { marks } = setOutPlan(scene, setOut(scene, "mm", String), 50, { dimension: String });
  const drawn = marks.filter(({ depicts }) => depicts === "switch");
  const rings = drawn.flatMap((mark: PaperMark) => (mark.kind === "circle" ? [mark.centre] : []));
  const words = drawn.flatMap((mark: PaperMark) => (mark.kind === "text" ? [mark.text] : []));
  expect(words).toEqual(["S2D a", "SX a", "S2 a", "S b"]);
  const wanted = [pendants, strip].flatMap(({ switches = [] }) =>
    switches.map(({ at: [x, y] }) => [50 * x, -50 * y]),
  );
  expect(rings.map((ring) => ring.map(whole))).toEqual(wanted.map((ring) => ring.map(whole)));
  expect(drawn.filter(({ kind }) => kind === "line")).toHaveLength(4);
  const plain = { ...scene, layers: [layer("a", 1, {})] };
  const none = setOutPlan(plain, setOut(plain, "mm", String), 50, { dimension: String }).marks;
  expect(none.some(({ depicts }) => depicts === "switch")).toBe(false);
});
