/** EULUMDAT: symmetry, lamp sets, absolute data, areas. Expected values are worked by hand from the text; the
 * form is that of Stockmar, EULUMDAT/2 (1998). */
import { describe, expect, it } from "vitest";
import type { Photometry } from "../../../src/photometry/photometry.ts";
import { intensityAt } from "../../../src/photometry/reference-lookup.ts";
import { radians } from "../../../src/units/quantities.ts";
import { errorOf, eulumdat, readGood, warningsOf } from "../../support/photometric-text.ts";

const at = ({ distribution }: Photometry, C: number, gamma: number) =>
  intensityAt(distribution, radians(C), radians(gamma));

describe("symmetry", () => {
  const planes = [0, 45, 90, 135, 180, 225, 270, 315];
  /** Each stored plane holds its own C angle at γ 45, in cd per 1000 lm of 1000 lm. */
  const file = (isym: number, stored: readonly number[]) =>
    eulumdat({ isym, planes, table: stored.flatMap((C) => [500, C, 0]), lines: { 23: 0 } });
  const found = (photometry: Photometry) => [...planes, 360].map((C) => at(photometry, C, 45));

  it("0 stores all planes", () => {
    const photometry = readGood(file(0, planes));
    expect(photometry.distribution.symmetry).toBe("none");
    expect(found(photometry)).toEqual([0, 45, 90, 135, 180, 225, 270, 315, 0]);
    expect(photometry.distribution.horizontal.at(-1)).toBe(2 * Math.PI);
  });

  it("1 stores one plane, however many are listed", () => {
    const photometry = readGood(file(1, [7]));
    expect(photometry.distribution.symmetry).toBe("rotational");
    expect(found(photometry)).toEqual([7, 7, 7, 7, 7, 7, 7, 7, 7]);
    expect(readGood(eulumdat({ planes: [0] })).distribution.horizontal).toHaveLength(1);
  });

  it("2 stores C0 to C180", () => {
    const photometry = readGood(file(2, [0, 45, 90, 135, 180]));
    expect(photometry.distribution.symmetry).toBe("mirrored in C0–C180");
    expect(found(photometry)).toEqual([0, 45, 90, 135, 180, 135, 90, 45, 0]);
  });

  it("3 stores C270 first, through C0 to C90", () => {
    const photometry = readGood(file(3, [270, 315, 360, 45, 90]));
    expect(photometry.distribution.symmetry).toBe("mirrored in C90–C270");
    expect(found(photometry)).toEqual([360, 45, 90, 45, 360, 315, 270, 315, 360]);
  });

  it("4 stores C0 to C90", () => {
    const photometry = readGood(file(4, [0, 45, 90]));
    expect(photometry.distribution.symmetry).toBe("quadrant");
    expect(found(photometry)).toEqual([0, 45, 90, 45, 0, 45, 90, 45, 0]);
  });

  it("is read from the listed angles, even or not", () => {
    const uneven = eulumdat({
      isym: 3,
      planes: [0, 10, 90, 180, 200, 270],
      table: [270, 0, 10, 90].flatMap((C) => [500, C, 0]),
    });
    expect(at(readGood(uneven), 5, 45)).toBeCloseTo(5, 9);
    expect(at(readGood(uneven), 170, 45)).toBeCloseTo(10, 9);
  });

  it("needs the planes it mirrors in", () => {
    expect(
      errorOf(eulumdat({ isym: 4, planes: [0, 60, 120, 180, 240, 300], table: [1, 1, 1, 1, 1, 1] })),
    ).toMatch(/^eulumdat-missing-plane /);
    expect(errorOf(eulumdat({ lines: { 3: 5 } }))).toBe("eulumdat-bad-number 3:1");
  });
});

describe("lamps", () => {
  const sets = [
    [1, "small", 1000, "2700K", "80", 9],
    [3, "large", 4500, "4000K", "90", 33],
  ];

  it("give the flux of the set, not multiplied by the number of lamps", () => {
    const photometry = readGood(eulumdat({ sets, lines: { 23: 0 } }), { lampSet: 1 });
    expect(at(photometry, 0, 0)).toBe(300 * 4.5);
    expect(photometry.lampSets).toHaveLength(2);
    expect(photometry).toMatchObject({ lampSet: 1, ratedFlux: 4500, watts: 33, absolute: false });
    expect(photometry.lampSets[1]).toEqual({
      count: 3,
      type: "large",
      flux: 4500,
      watts: 33,
      colourTemperature: "4000K",
      colourRendering: "90",
    });
  });

  it("come first if not chosen, and must exist if they are", () => {
    expect(readGood(eulumdat({ sets })).ratedFlux).toBe(1000);
    expect(errorOf(eulumdat({ sets }), { lampSet: 2 })).toMatch(/^lamp-set-unknown /);
    expect(errorOf(eulumdat({ sets }), { lampSet: -1 })).toMatch(/^lamp-set-unknown /);
    expect(errorOf(eulumdat({ sets }), { lampSet: 0.5 })).toMatch(/^lamp-set-unknown /);
  });

  it("of negative number mean absolute photometry, with the same arithmetic", () => {
    const photometry = readGood(eulumdat({ sets: [[-1, "LED", 2000, "", "", 20]], lines: { 23: 0 } }));
    expect(photometry).toMatchObject({ absolute: true, ratedFlux: 2000 });
    expect(photometry.lampSets[0].count).toBe(1);
    expect(at(photometry, 0, 0)).toBe(600);
  });

  it("can be replaced by another flux, unless the data are absolute", () => {
    const photometry = readGood(eulumdat(), { flux: 500 });
    expect(at(photometry, 0, 0)).toBe(150);
    expect(photometry.lampSets[0].flux).toBe(500);
    expect(errorOf(eulumdat({ sets: [[-1, "LED", 2000, "", "", 20]] }), { flux: 500 })).toBe(
      "relamp-absolute 29:1",
    );
  });

  it("without flux need one from the caller", () => {
    const dark = eulumdat({ sets: [[1, "LED", 0, "", "", 20]] });
    expect(errorOf(dark)).toBe("eulumdat-no-flux 29:1");
    expect(at(readGood(dark, { flux: 1000 }), 0, 0)).toBe(300);
    expect(at(readGood(eulumdat({ sets: [] }), { flux: 1000 }), 0, 0)).toBe(300);
  });
});

describe("luminous area", () => {
  const opening = (lines: Record<number, number>) => readGood(eulumdat({ lines })).opening;
  it.each([
    ["width 0 is round", { 16: 250, 17: 0 }, { shape: "disc", length: 0.25, width: 0.25, height: 0 }],
    [
      "round with sides",
      { 16: 250, 17: 0, 18: 40 },
      { shape: "cylinder", length: 0.25, width: 0.25, height: 0.04 },
    ],
    [
      "length lies along C90–C270",
      { 16: 1200, 17: 60 },
      { shape: "rectangle", length: 0.06, width: 1.2, height: 0 },
    ],
    ["nothing is a point", { 16: 0, 17: 0 }, { shape: "point", length: 0, width: 0, height: 0 }],
    [
      "of four sides the highest counts",
      { 16: 600, 17: 600, 18: 10, 19: 20, 20: 80, 21: 40 },
      { shape: "box", length: 0.6, width: 0.6, height: 0.08 },
    ],
    ["no length is a line", { 16: 0, 17: 600 }, { shape: "rectangle", length: 0.6, width: 0.001, height: 0 }],
  ])("%s", (_, lines, expected) => {
    expect(opening(lines)).toEqual(expected);
  });
});

describe("what else bears on the light", () => {
  it("a conversion factor multiplies, with a warning", () => {
    const text = eulumdat({ lines: { 23: 0, 24: "0,5" } });
    expect(at(readGood(text), 0, 0)).toBe(150);
    expect(warningsOf(text)).toEqual(["eulumdat-conversion"]);
    expect(at(readGood(eulumdat({ lines: { 24: 0 } })), 0, 0)).toBe(300);
  });

  it("a tilt during measurement and an odd range of γ are told", () => {
    expect(warningsOf(eulumdat({ lines: { 25: 15 } }))).toContain("eulumdat-tilt");
    expect(warningsOf(eulumdat({ vertical: [0, 45, 140] }))).toContain("eulumdat-vertical-range");
  });

  it("the light output ratio is held against the flux integral", () => {
    // 2π ∫ I sin γ dγ over 300 → 200 → 0 cd/klm at 0°, 45°, 90°: each cell by parts, ∫ (a + bγ) sin γ dγ.
    const cell = (i: number, j: number, from: number, to: number) => {
      const slope = (j - i) / (to - from);
      return i * Math.cos(from) - j * Math.cos(to) + slope * (Math.sin(to) - Math.sin(from));
    };
    const q = Math.PI / 4;
    const ratio = (2 * Math.PI * (cell(300, 200, 0, q) + cell(200, 0, q, 2 * q))) / 10;
    expect(warningsOf(eulumdat({ lines: { 23: ratio.toFixed(2) } }))).toEqual([]);
    expect(warningsOf(eulumdat({ lines: { 23: (ratio + 1.9).toFixed(2) } }))).toEqual([]);
    expect(warningsOf(eulumdat({ lines: { 23: (ratio + 2.1).toFixed(2) } }))).toEqual(["flux-mismatch"]);
    expect(warningsOf(eulumdat({ lines: { 23: (ratio - 2.1).toFixed(2) } }))).toEqual(["flux-mismatch"]);
  });
});

it("reads the housing's size as it is stated, lengthwise along C90–C270, the diameter of a round one there", () => {
  const housing = (length: number, width: number, height: number) =>
    readGood(eulumdat({ planes: [0], lines: { 13: length, 14: width, 15: height } })).housing;
  expect(housing(1230, 240, 35)).toEqual({ length: 0.24, width: 1.23, height: 0.035 });
  expect(housing(400, 0, 120)).toEqual({ length: 0, width: 0.4, height: 0.12 });
});
