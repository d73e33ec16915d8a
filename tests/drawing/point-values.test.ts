/** Numbers on the plan: the value of the point they stand on, none over another, the least always among them. */
import { describe, expect, it } from "vitest";
import { overlaps, textBox } from "../../src/drawing/drawing.ts";
import { pointValues } from "../../src/drawing/point-values.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { rectanglePlane, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

describe("point values", () => {
  it.each([
    [12, 5],
    [48, 20],
    [120, 50],
  ])("of %i × %i points stand where their light is, clear of one another", (columns, rows) => {
    const plane = rectanglePlane("top", [1, 2, 0.9], [2.4, 1], columns, rows);
    const values = Float64Array.from({ length: columns * rows }, (_, i) => 200 + ((i * 7919) % 997));
    const page = ([x, y]: readonly [number, number]) => [400 * x, -400 * y] as const;
    const marks = pointValues(plane, values, "lx", page);
    const boxes = marks.map(textBox);
    for (const [i, mark] of marks.entries()) {
      const at = [mark.at[0] / 400, (mark.at[1] - 11 * 0.36) / -400];
      let nearest = 0;
      for (let k = 0; k < values.length; k++) {
        const far = (j: number) => Math.hypot(plane.points[3 * j] - at[0], plane.points[3 * j + 1] - at[1]);
        if (far(k) < far(nearest)) nearest = k;
      }
      expect(mark.text).toBe(values[nearest].toFixed(0));
      expect(boxes.slice(0, i).some((box) => overlaps(box, boxes[i]))).toBe(false);
    }
    const strong = marks.filter((mark) => mark.strong);
    expect(strong.map((mark) => mark.text)).toEqual([Math.min(...values).toFixed(0)]);
    if (columns === 12) expect(marks).toHaveLength(60);
    console.log(`${marks.length} of ${values.length} values on a top of 960 × 400 units`);
  });

  it("are a second plan of the sheet where they are asked for", () => {
    const study = tinyStudy([tinyScene()]);
    const [plain, numbered] = [{}, { values: true }].map((options) =>
      isoluxSheet(study, judged(study), options),
    );
    expect(plain).not.toContain("points that are judged");
    expect(numbered).toContain("60 of 60 points");
    const [{ assessment }] = judged(study);
    for (const value of assessment.planes[0].illuminance) expect(numbered).toContain(`>${value.toFixed(0)}<`);
  });
});
