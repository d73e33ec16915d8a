/** Figures of the elevation keep clear of people and of what hangs. 2026-11-29: on a phone the clearance lay over the guest's face, the
 * ceiling's height over a cord, and the height of the guest's eye ran through the cook. */
import { expect, it } from "vitest";
import {
  type Box,
  boxAround,
  type Mark,
  overlaps,
  type TextMark,
  textBox,
} from "../../src/drawing/drawing.ts";
import { elevation } from "../../src/drawing/elevation.ts";
import { elevationExtent } from "../../src/drawing/elevation-scale.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { wording } from "../../src/words/wording.ts";
import { kitchen, resolved } from "../support/studies.ts";

const PEOPLE = [
  { name: "cook", stature: 1.72, at: [2.3, 2.83], facing: 270, posture: "leaning" },
  { name: "guest", stature: 1.64, at: [3.2, 1.32], facing: 90, posture: "seated" },
];

function boxes(marks: readonly Mark[]): Box[] {
  return marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts !== "eye line" ? [boxAround(mark.points)] : [],
  );
}

it("writes no figure over a person or a drop", () => {
  const [scene] = resolved(kitchen({ people: PEOPLE })).scenes;
  for (const width of [326, 358, 420, 700, 1000]) {
    const scale = sheetScale(islandAxes(scene), width, { largest: 280 });
    const { marks, luminaires } = elevation(scene, scale, wording(), elevationExtent(scene, scale));
    const people = boxes(marks.filter(({ depicts }) => depicts === "person"));
    const hung = luminaires.flatMap((each) => boxes(each.marks));
    expect(people.length).toBeGreaterThan(1);
    expect(hung.length).toBeGreaterThan(5);
    const over = marks.filter((mark): mark is TextMark => {
      if (mark.kind !== "text") return false;
      const isOfPeople = / above top$/.test(mark.text) || mark.depicts === "eye height";
      const avoided = isOfPeople ? people : mark.depicts === "ceiling height" ? hung : [];
      return avoided.some((box) => overlaps(box, textBox(mark)));
    });
    expect(over.map(({ text }) => `${width} px: ${text}`)).toEqual([]);
    expect(marks.filter(({ depicts }) => depicts === "eye height")).toHaveLength(2);
  }
});
