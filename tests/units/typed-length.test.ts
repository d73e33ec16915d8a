/** Bare numbers in a field: in the unit on screen, or in the other where that would be absurd beside what stands there. */
import { describe, expect, it } from "vitest";
import type { LengthUnit } from "../../src/units/length-text.ts";
import { readTypedLength } from "../../src/units/typed-length.ts";

const metresOf = (text: string, unit: LengthUnit, standing?: number): number => {
  const read = readTypedLength(text, unit, standing);
  if (!read.ok) throw new Error(read.problem);
  return read.metres;
};

describe("a bare number", () => {
  it("is metres where millimetres would be absurd, and says so", () => {
    expect(readTypedLength("3.6", "mm", 4.8)).toEqual({
      ok: true,
      metres: 3.6,
      text: "3.6 m",
      isInOtherUnit: true,
      otherwise: { metres: 3.6 * 0.001, text: "3.6 mm" },
    });
    expect(metresOf("2,7", "mm", 2.4)).toBeCloseTo(2.7, 12);
    expect(metresOf("1", "mm", 0.85)).toBe(1);
    expect(metresOf("3.6", "mm")).toBe(3.6);
    expect(metresOf("3.6", "mm", 0)).toBe(3.6);
    // Of an empty field.
    expect(metresOf("1", "mm")).toBe(1);
    expect(metresOf("120", "mm")).toBeCloseTo(0.12, 12);
  });

  it("is in the unit on screen where that can be meant", () => {
    for (const [text, unit, standing, metres] of [
      ["850", "mm", 0.6, 0.85],
      ["4500", "mm", 4.8, 4.5],
      ["40", "mm", 0.6, 0.04],
      ["6", "mm", 0.004, 0.006],
      ["1.5", "mm", 0.004, 0.0015],
      ["25", "mm", 0, 0.025],
      ["0", "mm", 4.8, 0],
      ["-20", "mm", 0.1, -0.02],
      ["2.4", "m", 3, 2.4],
      ["33 1/2", "ft-in", 0.85, 33.5 * 0.0254],
      ["33½", "ft-in", 0.85, 33.5 * 0.0254],
      ["94", "ft-in", 2.4, 94 * 0.0254],
    ] as const) {
      const read = readTypedLength(text, unit, standing);
      expect(read, `${text} in ${unit} over ${standing} m`).not.toHaveProperty("otherwise");
      expect(metresOf(text, unit, standing)).toBeCloseTo(metres, 12);
    }
  });

  it("is millimetres on a screen of metres, and feet over feet, where they alone make sense", () => {
    expect(metresOf("850", "m", 0.8)).toBeCloseTo(0.85, 12);
    expect(metresOf("2700", "m")).toBeCloseTo(2.7, 12);
    expect(metresOf("15", "ft-in", 4.8)).toBeCloseTo(15 * 0.3048, 12);
    expect(metresOf("9", "ft-in", 0.85)).toBeCloseTo(9 * 0.0254, 12);
  });
});

describe("a bare number in a field whose usual lengths are known", () => {
  const room = { from: 1, to: 100 };
  const place = { from: 0.005, to: 4.5 };

  it("offers no other reading that is not usual there", () => {
    expect(readTypedLength("4.2", "mm", 4.8, room)).toEqual({
      ok: true,
      metres: 4.2,
      text: "4.2 m",
      isInOtherUnit: true,
    });
    expect(readTypedLength("15", "ft-in", 4.8, room)).not.toHaveProperty("otherwise");
    expect(readTypedLength("8", "mm", 2.7, { from: 0.005, to: 12 })).toHaveProperty("otherwise.text", "8 mm");
  });

  it("is in the unit on screen where the other is not usual, however little it is", () => {
    expect(readTypedLength("25", "mm", 2.7, place)).toEqual({ ok: true, metres: 0.025, text: "25 mm" });
    expect(readTypedLength("0", "mm", 2.7, place)).toEqual({ ok: true, metres: 0, text: "0 mm" });
  });

  it("is refused where it is usual in neither, with what is", () => {
    expect(readTypedLength("0.3", "mm", 4.8, room)).toEqual({
      ok: false,
      problem: "Neither 0.3 mm nor 0.3 m is usual here",
      expected: "1000 mm to 100000 mm, or a length with its unit",
    });
    // What is typed with a unit is left to the study's own check, and so is what is near what stands there.
    expect(metresOf("0.3 m", "mm", 4.8)).toBe(0.3);
    expect(readTypedLength("300", "mm", 4.8, room)).toMatchObject({ ok: true, metres: 0.3 });
  });
});

describe("a text with a unit", () => {
  it("is taken as it is, and what is no length is refused with the reason", () => {
    expect(readTypedLength("3.6 mm", "mm", 4.8)).toEqual({ ok: true, metres: 3.6 * 0.001, text: "3.6 mm" });
    expect(metresOf("8-6-1/2", "mm", 3)).toBeCloseTo(102.5 * 0.0254, 12);
    expect(readTypedLength("wide", "mm", 3)).toMatchObject({ ok: false, problem: "It is not a length" });
    expect(readTypedLength("1,200", "mm", 3)).toMatchObject({ ok: false });
    expect(readTypedLength("1/0", "ft-in", 3)).toMatchObject({ ok: false });
  });
});
