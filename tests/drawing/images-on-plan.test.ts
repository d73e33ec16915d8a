/** Images in a polished top: each ring says which luminaire it is of and who sees it, once where several are near. */
import { expect, it } from "vitest";
import type { BodyShadow } from "../../src/advice/body-shadow.ts";
import {
  boxAround,
  line,
  overlaps,
  segment,
  type TextMark,
  text,
  textBox,
} from "../../src/drawing/drawing.ts";
import { imagesOnPlan, shadowsOnPlan } from "../../src/drawing/shadow-on-plan.ts";
import { ellipse } from "../../src/geometry/polygon.ts";
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

// 2026-11-29: "R1 to cook" lay on the cross and the outline of a pendant.
it("are labelled clear of what is drawn of luminaires", () => {
  const ring = line(ellipse(100, 100, 60, 60, 48), "pendant", "ink", 1.5, { closed: true });
  const cross = segment(95, 100, 105, 100, "centre", "ink", 0.75);
  const pendant = {
    layer: 0,
    index: 0,
    label: "",
    marks: [ring, cross],
    handle: textBox(text([0, 0], "", "centre")),
  };
  for (let x = 20; x <= 180; x += 4) {
    const marks = imagesOnPlan(
      [{ spot: [x, 104, 0.9], person: "cook", tag: "R1" }],
      ([a, b]) => [a, b],
      [],
      [pendant],
    );
    const [label] = marks.filter((mark) => mark.kind === "text");
    expect(label?.kind, `${x}`).toBe("text");
    const box = textBox(label as TextMark);
    const points = [...ring.points, ring.points[0]];
    const struck = [...points.slice(1).map((to, i) => boxAround([points[i], to])), boxAround(cross.points)];
    expect(
      struck.some((each) => overlaps(each, box)),
      `${x}`,
    ).toBe(false);
  }
});

// 2026-11-29: of two patches of the same loss one alone had its figure.
it("gives every patch of a shadow its figure", () => {
  const rows = 12;
  const columns = 40;
  const lost = Float64Array.from({ length: rows * columns }, (_, k) => {
    const [column, row] = [k % columns, Math.floor(k / columns)];
    const near = Math.min(Math.hypot(column - 9, row - 6), Math.hypot(column - 30, row - 6));
    return near < 4 ? 0.18 : 0;
  });
  const cells = Uint32Array.from({ length: rows * columns }, (_, k) => k);
  const grid = { corner: [0, 0, 0.9], u: [4, 0, 0], v: [0, 1.2, 0], columns, rows, cells };
  const shadow = { usual: true, map: { plane: { grid }, lost } } as unknown as BodyShadow;
  const { marks } = shadowsOnPlan([shadow], ([x, y]) => [200 * x, 300 - 200 * y]);
  expect(marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))).toEqual(["−10 %", "−10 %"]);
});
