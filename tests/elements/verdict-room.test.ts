/** The room of the verdict: the light moves no drawing, and what is said is said whole. */
import { expect, it } from "vitest";
import { textWidth } from "../../src/drawing/drawing.ts";
import { verdictRoom } from "../../src/elements/sheet/verdict-room.ts";
import type { ZoneRow } from "../../src/elements/sheet/verdict-words.ts";

const LONG = ["Preparing vegetables beside the sink", "Eating with the children", "Washing the dishes"];
const MEETS = "meets 500 lx and evenness 0.50";
const OPEN =
  "too close to call against 500 lx (62 % likely to reach it) and too close to call against evenness 0.50";

function row(name: string, judged: string): ZoneRow {
  const [light, evenness] = ["685 lx (624 to 745)", "evenness 0.61"];
  return { name, light, evenness, judged, drivers: "", mark: "✓", style: "meets", usual: "" };
}

function room(names: readonly string[], judged: string, width: number, clash = "") {
  const words = {
    headline: { words: "Meets everything", aside: "", kind: "meets" as const },
    clash,
    zones: names.map((name) => row(name, judged)),
  };
  return verdictRoom(
    names.map((name) => ({ name })),
    words,
    width,
  );
}

/** Heights of the rows as they are set (px), one beneath another: more than where some stand abreast. */
function heightOf(names: readonly string[], judged: string, width: number, isDense: boolean): number {
  const [size, line] = isDense ? [13, 17] : [15, 21];
  return names.reduce((sum, name) => {
    const words = `✓ ${name} 685 lx (624 to 745), evenness 0.61: ${judged}`;
    return sum + line * Math.ceil((0.9 * textWidth(words, size)) / width);
  }, 0);
}

// 2026-11-28: of three zones with long names the third was cut at 1440 px, and the ends of all at 1024.
it("holds the rows of long names at the widths of a laptop and a tablet", () => {
  for (const width of [1032, 656]) {
    const { height, isDense } = room(LONG, MEETS, width);
    expect(height - 36 - 8, `${width}`).toBeGreaterThanOrEqual(heightOf(LONG, MEETS, width, isDense));
  }
});

it("is the same whatever the light, and sets longer words smaller", () => {
  for (const width of [1032, 656]) {
    const [plain, open] = [room(LONG, MEETS, width), room(LONG, OPEN, width)];
    expect(open.height).toBe(plain.height);
    expect(plain.isDense).toBe(false);
  }
  expect(room(LONG, OPEN, 656).isDense).toBe(true);
  expect(verdictRoom([{ name: "prep" }], undefined, 656).height).toBe(room(["prep"], MEETS, 656).height);
});

it("puts what belongs to the headline under it where it would be cut beside it", () => {
  const clash = "P1, P2: bodies stand in one another, 383 mm too near. ".repeat(3);
  expect(room(["prep"], MEETS, 1032).isAsideUnder).toBe(false);
  expect(room(["prep"], MEETS, 1032, clash).isAsideUnder).toBe(true);
  expect(room(["prep"], MEETS, 358, "P1: on a joist").isAsideUnder).toBe(true);
});

it("gives short names several abreast, and reserves no more than seven lines", () => {
  expect(room(["prep", "sink"], MEETS, 1300).height).toBe(room(["prep"], MEETS, 1300).height);
  const many = (count: number) => room(Array(count).fill(LONG[0]), MEETS, 656).height;
  expect(many(20)).toBe(many(9));
});

// 2026-11-29: three lines of a verdict pushed the foot of the profile under the edge of a laptop's window.
it("keeps a line for what belongs to the headline at every width but a phone's", () => {
  const long =
    "90 % or more is called met, 10 % or less short; more light makes it sure; the uncertainty is small";
  for (const width of [1032, 656]) {
    expect(room(["prep"], MEETS, width, long).isAsideUnder).toBe(true);
    expect(room(["prep"], MEETS, width).height).toBeGreaterThanOrEqual(36 + 17 + 21 + 8);
    expect(room(["prep"], MEETS, width, long).isDense).toBe(false);
  }
});
