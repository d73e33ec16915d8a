/** Rings and figures of tolerances on a plan: at their size, inside the drawing, none over another. */
import { expect, it } from "vitest";
import { overlaps, textBox, within } from "../../src/drawing/drawing.ts";
import { type DrawnTolerance, toleranceMarks } from "../../src/drawing/tolerance-marks.ts";

const PER_METRE = 250;
const drawing = { x: 0, y: 0, width: 700, height: 330 };
const at = (x: number, radius: number, more: Partial<DrawnTolerance> = {}): DrawnTolerance => ({
  position: [x, 0.6, 1.8],
  radius,
  lower: { distance: 0.06, beyond: "falls short" },
  higher: { distance: 0.2 },
  ...more,
});

it("draws each ring at its radius, and says what is known and what is only as far as was looked", () => {
  const page = ([x, y]: readonly [number, number]) => [x * PER_METRE, 300 - y * PER_METRE] as const;
  const length = (m: number) => `${Math.round(1000 * m)} mm`;
  const rings = [
    at(0.6, 0.19, { beyond: { verdict: "falls short", direction: 0 } }),
    at(1.4, 0.3),
    at(2.2, 0),
  ];
  const marks = toleranceMarks(rings, page, PER_METRE, length, drawing);
  const drawn = marks.flatMap((mark) => (mark.kind === "line" ? [mark] : []));
  expect(drawn).toHaveLength(2);
  let worst = 0;
  drawn.forEach(({ points }, i) => {
    const [cx, cy] = page([rings[i].position[0], rings[i].position[1]]);
    for (const [x, y] of points)
      worst = Math.max(worst, Math.abs(Math.hypot(x - cx, y - cy) / PER_METRE - rings[i].radius));
  });
  console.log(`worst error of a ring's radius: ${(1000 * worst).toExponential(1)} mm`);
  expect(worst).toBeLessThan(1e-9);
  const words = marks.flatMap((mark) => (mark.kind === "text" ? [mark] : []));
  expect(words.map(({ text }) => text)).toEqual(
    ["190 mm off", "≥ 300 mm off", "≥ 0 mm off"].flatMap((off) => [off, "60 mm lower", "≥ 200 mm higher"]),
  );
  const boxes = words.map(textBox);
  expect(boxes.every((box) => within(box, drawing))).toBe(true);
  expect(boxes.some((box, i) => boxes.some((other, j) => j > i + 2 && overlaps(box, other)))).toBe(false);
});

it("rings no farther than to what a pendant would meet", () => {
  const page = ([x, y]: readonly [number, number]) => [x * PER_METRE, 300 - y * PER_METRE] as const;
  const obstacle = (distance: number) => ({ obstacle: { distance } }) as Partial<DrawnTolerance>;
  for (const [met, off] of [
    [0.12, 0.12],
    [0.5, 0.3],
  ] as const) {
    const [ring] = toleranceMarks([at(1.4, 0.3, obstacle(met))], page, PER_METRE, String, drawing);
    if (ring.kind !== "line") throw new Error("no ring");
    const [cx, cy] = page([1.4, 0.6]);
    for (const [x, y] of ring.points) expect(Math.hypot(x - cx, y - cy) / PER_METRE).toBeCloseTo(off, 9);
  }
});
