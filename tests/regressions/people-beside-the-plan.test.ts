/**
 * 2026-11-25. A guest close to the near edge was drawn through the chain of dimensions, and the names of two people
 * too far away to be drawn were written over each other: a plan handed to a client could not be read there.
 */
import { expect, it } from "vitest";
import { overlaps, type TextMark, textBox } from "../../src/drawing/drawing.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import type { Person } from "../../src/scene/scene.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticScene } from "../support/synthetic-island.ts";

const [, guest] = syntheticScene().people;

/** Someone seated with the shoulders so far from the near edge of the top, which lies at y = 1.35 m. */
function seated(name: string, x: number, away: number): Person {
  const y = 1.35 - away;
  return { ...guest, name, at: [x, y], eye: [x, y + 0.106, guest.eye[2]] };
}

function planWith(people: readonly Person[]) {
  const scene = syntheticScene({ people });
  const scale = sheetScale(islandAxes(scene), 1040, { largest: 280 });
  const parts = { zones: true, people: true, dimensions: true, reach: 0.34 };
  return { ...planObjects(scene, scale, wording(), parts), frame: planFrame(scene, scale, parts) };
}

it("keeps the chain of dimensions clear of whoever sits at the edge", () => {
  for (const away of [0.05, 0.13, 0.2]) {
    const { around, frame } = planWith([seated("guest", 2.9, away)]);
    const figure = around.flatMap((mark) =>
      mark.kind === "line" && mark.depicts === "person" ? mark.points.map(([, y]) => y) : [],
    );
    expect(figure.length).toBeGreaterThan(0);
    expect(Math.max(...figure)).toBeLessThan(frame.chain - 6);
    expect(frame.chain).toBeLessThan(frame.height);
  }
});

it("writes the names of people far away in rows where they would meet", () => {
  const { around, frame } = planWith([seated("guest", 2.9, 0.6), seated("other guest", 3.1, 0.9)]);
  const names = around.filter((mark): mark is TextMark => mark.kind === "text" && mark.depicts === "person");
  expect(names.map(({ text }) => text)).toHaveLength(2);
  expect(overlaps(textBox(names[0]), textBox(names[1]), 0)).toBe(false);
  for (const name of names) {
    const box = textBox(name);
    expect(box.y).toBeGreaterThan(frame.chain);
    expect(box.y + box.height).toBeLessThanOrEqual(frame.height);
  }
});
