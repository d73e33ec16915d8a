/** The light on the plan: labels never collide, the hatch covers exactly what is below target. */

import { describe, expect, it } from "vitest";
import { isoluxField } from "../../src/app/isolux-field.ts";
import { marginPlane } from "../../src/app/margin-plane.ts";
import { luxColour } from "../../src/drawing/light-scale.ts";
import { labelLines } from "../../src/drawing/line-labels.ts";
import { boxesMeet, corners, lineMeetsBox } from "../../src/drawing/oriented-box.ts";
import { type PlanLight, planLight } from "../../src/drawing/plan-light.ts";
import { escapeText, planLightSvg } from "../../src/drawing/svg-text.ts";
import { isInside } from "../../src/geometry/polygon.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import type { PlaneGrid } from "../../src/scene/calculation-plane.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

const top = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 96, 40);
const grid = top.grid as PlaneGrid;
const margin = marginPlane({ ...top, grid });

/** Three pendants as bell-shaped pools on a floor of light; `patchy` makes them narrow. */
function pools(x: number, y: number, width: number): number {
  let e = 60;
  for (const centre of [0.4, 1.2, 2])
    e += 900 * Math.exp(-((x - centre) ** 2 + (y - 0.5) ** 2) / (2 * width ** 2));
  return e;
}

function drawn(
  width: number,
  targets: { outline: Vec2[]; level: number }[] = [],
  unit: "lx" | "fc" = "lx",
): PlanLight {
  const at = (points: Float64Array): Float64Array =>
    Float64Array.from({ length: points.length / 3 }, (_, i) =>
      pools(points[3 * i], points[3 * i + 1], width),
    );
  return planLight({
    field: isoluxField(grid, at(top.points), at(margin.points)),
    outline: [
      [0, 0],
      [2.4, 0],
      [2.4, 1],
      [0, 1],
    ],
    targets,
    unit,
    place: ([x, y]) => [x * 400, 400 - y * 400],
    taken: [{ x: 8, y: 380, width: 30, height: 14 }],
  });
}

describe("labels on isolux lines", () => {
  it("never collide: not with one another, nor a word, nor another line, nor the outline", () => {
    let count = 0;
    for (const width of [0.12, 0.2, 0.35, 0.6]) {
      const light = drawn(width);
      count += light.labels.length;
      light.labels.forEach((label, i) => {
        for (const other of light.labels.slice(i + 1)) expect(boxesMeet(label.box, other.box)).toBe(false);
        expect(boxesMeet(label.box, { centre: [23, 387], width: 30, height: 14, turn: 0 })).toBe(false);
        for (const corner of corners(label.box)) expect(isInside(corner, light.outline)).toBe(true);
        const crossing = light.lines.filter(
          ({ points, level }) =>
            `${level}` !== label.text &&
            points.some((p, k) => k > 0 && lineMeetsBox(points[k - 1], p, label.box)),
        );
        expect(crossing).toEqual([]);
        expect(Math.abs(label.turn)).toBeLessThanOrEqual(90);
      });
    }
    expect(count).toBeGreaterThan(20);
  });

  it("finds a collision where there is one", () => {
    const a = { centre: [0, 0], width: 20, height: 8, turn: 30 } as const;
    expect(boxesMeet(a, { centre: [9, 6], width: 20, height: 8, turn: 30 })).toBe(true);
    expect(boxesMeet(a, { centre: [0, 12], width: 20, height: 8, turn: 30 })).toBe(false);
    expect(lineMeetsBox([-20, 0], [20, 0], a)).toBe(true);
    expect(lineMeetsBox([-20, 12], [20, 12], a)).toBe(false);
  });

  it("keep clear of a line that passes close by", () => {
    const square: Vec2[] = [
      [0, 0],
      [500, 0],
      [500, 500],
      [0, 500],
    ];
    const level: Vec2[] = [
      [10, 250],
      [490, 250],
    ];
    // Below the first line by four units over all but its left end.
    const near: Vec2[] = [
      [90, 254],
      [490, 254],
    ];
    const [alone] = labelLines([{ text: "500", points: level }], square, [], 11);
    const [label] = labelLines(
      [
        { text: "500", points: level },
        { text: "", points: near },
      ],
      square,
      [],
      11,
    );
    expect(alone.at[0] + alone.box.width / 2).toBeGreaterThan(90);
    expect(label.at[0] + label.box.width / 2).toBeLessThan(90);
  });

  it("leaves a line too short or too bent without a word", () => {
    const square: Vec2[] = [
      [0, 0],
      [500, 0],
      [500, 500],
      [0, 500],
    ];
    const dot: Vec2[] = Array.from({ length: 13 }, (_, i) => [
      250 + 6 * Math.cos((i * Math.PI) / 6),
      250 + 6 * Math.sin((i * Math.PI) / 6),
    ]);
    expect(labelLines([{ text: "500", points: dot }], square, [], 11)).toEqual([]);
  });
});

describe("below target", () => {
  it("is hatched exactly where the light is below it, by the even-odd rule", () => {
    const zone: Vec2[] = [
      [0, 0],
      [1.4, 0],
      [1.4, 1],
      [0, 1],
    ];
    const light = drawn(0.25, [{ outline: zone, level: 500 }]);
    const [areas] = light.below;
    let wrong = 0;
    let tried = 0;
    for (let x = 0.013; x < 2.4; x += 0.037)
      for (let y = 0.011; y < 1; y += 0.029) {
        const value = pools(x, y, 0.25);
        if (Math.abs(value - 500) < 5) continue;
        const page: Vec2 = [x * 400, 400 - y * 400];
        const isBelow = areas.every((rings) => rings.filter((ring) => isInside(page, ring)).length % 2 === 1);
        tried++;
        if (isBelow !== (x < 1.4 && value < 500)) wrong++;
      }
    expect(tried).toBeGreaterThan(1500);
    expect(wrong).toBe(0);
  });

  it("draws nothing when nothing is below, all when all is", () => {
    const zone: Vec2[] = [
      [0, 0],
      [2.4, 0],
      [2.4, 1],
      [0, 1],
    ];
    expect(drawn(0.25, [{ outline: zone, level: 30 }]).below).toEqual([]);
    expect(drawn(0.25, [{ outline: zone, level: 9000 }]).below[0][1].length).toBe(1);
  });

  it("gives a target that is no step its own line and word", () => {
    const zone: Vec2[] = [
      [0, 0],
      [2.4, 0],
      [2.4, 1],
      [0, 1],
    ];
    const light = drawn(0.35, [{ outline: zone, level: 430 }]);
    expect(light.lines.some((line) => line.strong && line.level === 430)).toBe(true);
    expect(light.labels.some((label) => label.text === "430")).toBe(true);
  });
});

describe("as SVG", () => {
  it("labels in foot-candles are the unit's own round steps", () => {
    const labels = drawn(0.35, [], "fc").labels.map((label) => Number(label.text));
    expect(labels.length).toBeGreaterThan(2);
    for (const label of labels) expect([7, 10, 15, 20, 30, 50, 75, 100]).toContain(label);
  });

  it("escapes what a study may hold", () => {
    expect(escapeText(`<script>"&'\u0000\ud800x`)).toBe("&lt;script&gt;&quot;&amp;&#39;  x");
    expect(planLightSvg(drawn(0.2), "a")).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe("lines that say enough", () => {
  const plain = (value: (x: number, y: number) => number, isShaded = true): PlanLight => {
    const at = (points: Float64Array): Float64Array =>
      Float64Array.from({ length: points.length / 3 }, (_, i) => value(points[3 * i], points[3 * i + 1]));
    return planLight({
      field: isoluxField(grid, at(top.points), at(margin.points)),
      outline: [
        [0, 0],
        [2.4, 0],
        [2.4, 1],
        [0, 1],
      ],
      targets: [],
      unit: "lx",
      between: true,
      place: ([x, y]) => [x * 300, 300 - y * 300],
      taken: [],
      // Three long luminaires over most of the top: no line is clear of them.
      avoided: [20, 260, 500].map((x) => ({ x, y: 20, width: 200, height: 260 })),
      ...(isShaded ? { tones: 28 } : {}),
    });
  };
  const levelsOf = (light: PlanLight): Set<string> => new Set(light.labels.map(({ text }) => text));

  it("label at least three levels where the greatest is 1.5 times the least, whatever hangs over them", () => {
    for (const ratio of [1.5, 2, 4, 20])
      for (const level of [30, 300, 3000]) {
        const light = plain(
          (x, y) => level * ratio ** (Math.cos((x - 1.2) / 0.9) * Math.cos((y - 0.5) / 0.5)),
        );
        expect(levelsOf(light).size, `${level} lx, 1 to ${ratio}`).toBeGreaterThanOrEqual(3);
        for (const [i, label] of light.labels.entries())
          for (const other of light.labels.slice(i + 1)) expect(boxesMeet(label.box, other.box)).toBe(false);
      }
  });

  it("give way to one figure and the word even, and to nothing in the dark", () => {
    const even = plain((x) => 690 + 10 * x);
    expect(even.lines).toEqual([]);
    expect([...levelsOf(even)]).toEqual(["702 lx, even"]);
    const dark = plain(() => 0);
    expect(dark.lines).toEqual([]);
    expect(dark.labels).toEqual([]);
    expect(dark.bands).toHaveLength(1);
  });

  it("have the light shaded on between them, every tone of the absolute scale", () => {
    const light = plain((x) => 400 + 190 * x);
    expect(light.bands.length).toBeGreaterThan(20);
    expect(new Set(light.bands.map(({ colour }) => colour)).size).toBeGreaterThan(20);
    expect(light.bands.length).toBeGreaterThan(3 * light.lines.length);
  });

  it("bound bands in the colour of the middle of what they cover, by ratio", () => {
    const light = plain((x) => 400 * 2 ** (x / 2.4), false);
    const levels = [...new Set(light.lines.map(({ level }) => level))].sort((a, b) => a - b);
    expect(levels.length).toBeGreaterThan(3);
    // The level that a colour stands for, from the ramp itself.
    const shownBy = (colour: string): number => {
      const same = Array.from({ length: 4000 }, (_, i) => 300 * 4 ** (i / 4000)).filter(
        (level) => luxColour(level) === colour,
      );
      return Math.sqrt(same[0] * (same.at(-1) ?? Number.NaN));
    };
    const ends = [400, ...levels, 800];
    expect(light.bands).toHaveLength(levels.length + 1);
    light.bands.forEach(({ colour }, i) => {
      // Levels of one colour lie within 1 % of one another; the field reaches as far past the ends.
      expect(Math.abs(shownBy(colour) / Math.sqrt(ends[i] * ends[i + 1]) - 1)).toBeLessThan(0.015);
    });
  });
});
