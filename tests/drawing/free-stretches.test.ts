/** Lines stop short of words. 2026-11-29: the reading's line ran through "max 790" and "2400 mm", eye lines through "850 mm above top". */
import { expect, it } from "vitest";
import { boxAround, overlaps, segment, type TextMark, text, textBox } from "../../src/drawing/drawing.ts";
import { elevation } from "../../src/drawing/elevation.ts";
import { cutAtWords, uprightStretches } from "../../src/drawing/free-stretches.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { wording } from "../../src/words/wording.ts";
import { kitchen, resolved } from "../support/studies.ts";

it("leaves an upright line whole but where it meets a box", () => {
  expect(uprightStretches(50, 100, [{ x: 60, y: 10, width: 20, height: 10 }])).toEqual([[0, 100]]);
  expect(
    uprightStretches(50, 100, [
      { x: 40, y: 60, width: 20, height: 50 },
      { x: 40, y: 10, width: 20, height: 10 },
      { x: 45, y: 15, width: 20, height: 10 },
    ]),
  ).toEqual([
    [0, 8.5],
    [26.5, 58.5],
  ]);
});

it("cuts level lines of one kind at words that stand on them, and no other", () => {
  const eye = segment(0, 50, 300, 50, "eye line", "quiet", 0.75, { dash: "eye line" });
  const other = segment(0, 50, 300, 50, "grid line");
  const word = text([100, 54], "850 mm", "dimension");
  const cut = cutAtWords([eye, other, word], "eye line");
  expect(cut).toHaveLength(4);
  expect(cut.filter(({ depicts }) => depicts === "grid line")).toEqual([other]);
  const box = textBox(word);
  for (const mark of cut)
    if (mark.kind === "line" && mark.depicts === "eye line")
      expect(overlaps(boxAround(mark.points), box)).toBe(false);
});

it("draws no eye line through a word of the elevation", () => {
  const people = [
    { name: "cook", stature: 1.72, at: [2.3, 2.83], facing: 270, posture: "leaning" },
    { name: "guest", stature: 1.64, at: [3.2, 1.32], facing: 90, posture: "seated" },
  ];
  const [scene] = resolved(kitchen({ people })).scenes;
  for (const width of [358, 656, 1032]) {
    const { marks } = elevation(scene, sheetScale(islandAxes(scene), width, { largest: 280 }), wording());
    const words = marks.filter((mark): mark is TextMark => mark.kind === "text").map(textBox);
    const lines = marks.filter((mark) => mark.kind === "line" && mark.depicts === "eye line");
    expect(lines.length).toBeGreaterThan(1);
    for (const mark of lines)
      if (mark.kind === "line")
        expect(
          words.some((box) => overlaps(boxAround(mark.points), box)),
          `${width} px`,
        ).toBe(false);
  }
});
