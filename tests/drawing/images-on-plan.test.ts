/** Images in a polished top: each ring says which luminaire it is of and who sees it, once where several are near. */
import { expect, it } from "vitest";
import { overlaps, textBox } from "../../src/drawing/drawing.ts";
import { imagesOnPlan } from "../../src/drawing/shadow-on-plan.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";

// 2026-11-28: eleven crossed rings without a word, of which lamp and to whose eye.
it("are labelled with the tag and the person, clear of what is there", () => {
  const place = ([x, y]: Vec2): Vec2 => [100 * x, 400 - 100 * y];
  const images = [
    { spot: [1, 1, 0.9], person: "cook", tag: "P1" },
    { spot: [2, 1, 0.9], person: "cook", tag: "R3" },
    { spot: [2.02, 1.01, 0.9], person: "guest", tag: "R4" },
    { spot: [3, 1, 0.9], person: "guest", tag: "P2" },
  ] as const;
  const taken = [{ x: 295, y: 280, width: 80, height: 40 }];
  const labels = imagesOnPlan(images, place, taken).flatMap((mark) => (mark.kind === "text" ? [mark] : []));
  const words = labels.map(({ text }) => text);
  expect(words).toContain("P1 to cook");
  expect(words.filter((each) => each.startsWith("R")).length).toBeGreaterThan(0);
  const boxes = labels.map(textBox);
  boxes.forEach((box, i) => {
    for (const other of [...taken, ...boxes.slice(i + 1)]) expect(overlaps(box, other, 0)).toBe(false);
  });
});
