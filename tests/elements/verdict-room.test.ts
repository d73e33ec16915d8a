/** The room of the verdict: the light moves no drawing. That words fit it is read from the page (tests/browser). */
import { expect, it } from "vitest";
import { textWidth } from "../../src/drawing/drawing.ts";
import { verdictRoom } from "../../src/elements/sheet/verdict-room.ts";

const LONG = ["Preparing vegetables beside the sink", "Eating with the children", "Washing the dishes"];
const BOTH = [{ quantity: "illuminance" }, { quantity: "uniformity" }];
const TARGETS = new Map([["prep", { requirements: BOTH as never }]]);

function room(names: readonly string[], width: number): number {
  return verdictRoom(
    names.map((name) => ({ name, target: "prep" })),
    TARGETS,
    width,
  );
}

/** Heights of rows that meet what is asked, as they are set (px), one beneath another: more than where some stand abreast. */
function heightOf(names: readonly string[], width: number): number {
  const [size, line] = width < 960 ? [13, 17] : [15, 21];
  return names.reduce((sum, name) => {
    const words = `✓ ${name} 685 lx (624 to 745), evenness 0.61: meets 500 lx and evenness 0.50`;
    return sum + line * Math.ceil((0.9 * textWidth(words, size)) / width);
  }, 0);
}

// 2026-11-28: of three zones with long names the third was cut at 1440 px, and the ends of all at 1024.
it("holds the rows of long names at the widths of a laptop and a tablet", () => {
  for (const width of [1032, 656])
    expect(room(LONG, width) - 36 - 17 - 8, `${width}`).toBeGreaterThanOrEqual(heightOf(LONG, width));
});

it("gives short names several abreast, and reserves no more than seven lines", () => {
  expect(room(["prep", "sink"], 1300)).toBe(room(["prep"], 1300));
  const many = (count: number) => room(Array(count).fill(LONG[0]), 656);
  expect(many(20)).toBe(many(9));
});

it("follows what is asked of a zone: less takes less", () => {
  const plain = verdictRoom([{ name: "prep" }, { name: "eating" }, { name: "washing" }], new Map(), 656);
  expect(plain).toBeLessThan(room(["prep", "eating", "washing"], 656));
});

// 2026-11-29: three lines of a verdict pushed the foot of the profile under the edge of a laptop's window.
it("keeps a line for what belongs to the headline at every width but a phone's", () => {
  expect(room(["prep"], 1032)).toBe(36 + 17 + 21 + 8);
  expect(room(["prep"], 656)).toBe(36 + 17 + 17 + 8);
  expect(room(["prep"], 358)).toBe(36 + 2 * 21 + 8);
});
