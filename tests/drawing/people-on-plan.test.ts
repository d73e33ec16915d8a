/** People seen from above: where they are drawn, what is drawn of them, and how those too far are named. */
import { describe, expect, it } from "vitest";
import type { Box, LineMark, Mark, TextMark } from "../../src/drawing/drawing.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { peopleOnPlan, roomForPeople } from "../../src/drawing/people-on-plan.ts";
import { planFrame } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { METRIC, wording } from "../../src/words/wording.ts";
import { ISLAND, type Json, kitchen, resolved } from "../support/studies.ts";

const PARTS = { zones: false, people: true, dimensions: true };
/** The island lies at x 1.5 … 3.9 m, y 1.55 … 2.65 m. */
const AT_FAR_EDGE = { name: "cook", stature: 1.7, at: [2.3, 2.9], facing: 270, posture: "leaning" };
const AT_NEAR_EDGE = { name: "guest", stature: 1.64, at: [3.2, 1.2], facing: 90, posture: "seated" };

function sceneWith(people: readonly Json[], more: Json = {}): Scene {
  return resolved(kitchen({ people, ...more })).scenes[0];
}

function drawn(scene: Scene, width = 900, reach?: number) {
  const axes = islandAxes(scene);
  const scale = sheetScale(axes, width);
  const frame = planFrame(scene, scale, { ...PARTS, ...(reach === undefined ? {} : { reach }) });
  const at = ([along, across]: Vec2): Vec2 => [scale.x(along), frame.y(across)];
  const people = peopleOnPlan({ scene, axes, scale, frame, words: wording(METRIC), at }, reach);
  return { ...people, axes, scale, frame, room: roomForPeople({ scene, axes, scale }, reach) };
}

const lines = (marks: readonly Mark[], depicts: string): LineMark[] =>
  marks.filter((mark): mark is LineMark => mark.kind === "line" && mark.depicts === depicts);
const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.filter((mark): mark is TextMark => mark.kind === "text");
const pointsOf = (marks: readonly LineMark[]): Vec2[] => marks.flatMap(({ points }) => [...points]);
function boundsOf(points: readonly Vec2[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

describe("a figure", () => {
  it("has its head where the eye is: 10 mm behind the face, seen as an oval of 0.19 m by 0.15 m", () => {
    const scene = sceneWith([AT_FAR_EDGE]);
    const { over, beside, axes, scale, frame } = drawn(scene);
    const head = boundsOf(pointsOf([...lines(over, "head"), ...lines(beside, "head")]));
    const [along, across] = axes.toIsland(scene.people[0].eye);
    // Facing the near edge: the head lies behind the eye, away from it.
    expect(head.x + head.width / 2).toBeCloseTo(scale.x(along), 0);
    expect(head.y + head.height / 2).toBeCloseTo(frame.y(across + 0.106), 0);
    expect(head.width / scale.perMetre).toBeCloseTo(0.154, 2);
    expect(head.height / scale.perMetre).toBeCloseTo(0.192, 2);
    // Its nose, beyond it, towards the near edge: down the page.
    const nose = boundsOf(pointsOf([...lines(over, "facing"), ...lines(beside, "facing")]));
    expect(nose.y + nose.height).toBeGreaterThan(head.y + head.height);
  });

  it("turns with whom it shows: shoulders across the way faced", () => {
    for (const [facing, across] of [
      [270, false],
      [0, true],
    ] as const) {
      const scene = sceneWith([{ ...AT_FAR_EDGE, facing, posture: "standing", at: [2.6, 3.1] }]);
      const { over, beside, scale } = drawn(scene);
      const trunk = boundsOf(pointsOf([...lines(over, "person"), ...lines(beside, "person")]));
      const [wide, deep] = across ? [trunk.height, trunk.width] : [trunk.width, trunk.height];
      expect(wide / scale.perMetre).toBeCloseTo(0.44, 1);
      expect(wide).toBeGreaterThan(deep);
    }
  });

  it("leaves out what its head covers of its shoulders", () => {
    // Leaning, the head goes farther forward than the shoulders, over their outline.
    const scene = sceneWith([{ ...AT_FAR_EDGE, posture: "leaning", at: [2.6, 3.1] }]);
    const { over, beside, scale } = drawn(scene);
    const head = boundsOf(pointsOf([...lines(over, "head"), ...lines(beside, "head")]));
    const [hx, hy] = [head.x + head.width / 2, head.y + head.height / 2];
    const deepest = Math.min(
      ...pointsOf([...lines(over, "person"), ...lines(beside, "person")]).map(([x, y]) =>
        Math.hypot((x - hx) / (head.width / 2), (y - hy) / (head.height / 2)),
      ),
    );
    // Up to the first covered point of the outline, a 64th of its way round: at most 22 mm.
    console.log(`shoulders come to ${deepest.toFixed(2)} of the head's radius`);
    expect(deepest).toBeLessThan(1);
    expect(deepest).toBeGreaterThan(1 - (0.022 * scale.perMetre) / (head.width / 2));
  });

  it("is drawn in ink over the top and quietly beside it, joined where it crosses the edge", () => {
    const { over, beside, axes, scale, frame } = drawn(sceneWith([AT_FAR_EDGE]));
    const isOver = ([x, y]: Vec2): boolean =>
      scale.along(x) > 0 && scale.along(x) < axes.length && y > frame.y(axes.width) && y < frame.y(0);
    const on = [...lines(over, "head"), ...lines(over, "person")];
    const off = [...lines(beside, "head"), ...lines(beside, "person")];
    expect(on.length).toBeGreaterThan(0);
    expect(off.length).toBeGreaterThan(0);
    for (const { points, ink } of on) {
      expect(ink).toBe("ink");
      // One point at either end may lie across the edge, so that the parts meet.
      for (const point of points.slice(1, -1)) expect(isOver(point)).toBe(true);
    }
    for (const { points, ink } of off) {
      expect(ink).toBe("quiet");
      for (const point of points.slice(1, -1)) expect(isOver(point)).toBe(false);
    }
  });

  it("is the same in an island turned in its room, seen from the island", () => {
    const straight = sceneWith([{ ...AT_FAR_EDGE, at: [2.7, 2.9], posture: "standing" }]);
    const turned = sceneWith([{ ...AT_FAR_EDGE, at: [1.9, 2.1], facing: 0, posture: "standing" }], {
      island: { ...ISLAND, turn: 90 },
    });
    const [a, b] = [straight, turned].map((scene) => {
      const { over, beside } = drawn(scene);
      return boundsOf(pointsOf([...lines(over, "head"), ...lines(beside, "head")]));
    });
    for (const key of ["x", "y", "width", "height"] as const) expect(a[key]).toBeCloseTo(b[key], 6);
  });
});

describe("names", () => {
  it("stand beside the shoulders, within what others keep clear of", () => {
    const { over, beside, taken } = drawn(sceneWith([AT_FAR_EDGE, AT_NEAR_EDGE]));
    const names = texts([...over, ...beside]);
    expect(names.map(({ text }) => text).sort()).toEqual(["cook", "guest"]);
    for (const { at } of names)
      expect(
        taken.some(
          ({ x, y, width, height }) =>
            at[0] >= x - 1 && at[0] <= x + width + 1 && at[1] >= y - 1 && at[1] <= y + height + 1,
        ),
      ).toBe(true);
    // A head and a name each.
    expect(taken).toHaveLength(4);
  });

  it("of those too far to be drawn say how far from which edge, and which way they face", () => {
    const { over, beside } = drawn(
      sceneWith([
        { ...AT_FAR_EDGE, name: "there", at: [2.3, 3.9], facing: 270, posture: "standing" },
        { ...AT_NEAR_EDGE, name: "here", at: [2.9, 0.4], posture: "standing" },
      ]),
    );
    const words = texts([...over, ...beside]).map(({ text }) => text);
    expect(words).toHaveLength(2);
    // 3.9 − 2.65 and 1.55 − 0.4 from the edges to between the feet; the head's lean is none.
    expect(words.find((text) => text.startsWith("there"))).toMatch(/^there, 1[\d ,.]+ m+ from the far edge$/);
    expect(words.find((text) => text.startsWith("here"))).toMatch(/^here, 1[\d ,.]+ m+ from the near edge$/);
    expect(lines([...over, ...beside], "facing")).toHaveLength(2);
    expect(lines([...over, ...beside], "head")).toHaveLength(0);
  });

  it("never meet on their line: a further row takes those that would, at the sheet's right edge turned about", () => {
    const far = [2.2, 2.3, 2.5, 3.7].map((x, i) => ({
      ...AT_FAR_EDGE,
      name: `person number ${i}`,
      at: [x, 3.9],
      posture: "standing",
    }));
    for (const width of [360, 520, 900, 1600]) {
      const { beside, scale, frame, room } = drawn(sceneWith(far), width);
      const named = texts(beside);
      const boxes = named.map(({ at, anchor, text, size }) => {
        // About the width of a character: never less.
        const wide = 0.45 * size * text.length;
        return { x: anchor === "end" ? at[0] - wide : at[0], y: at[1], wide };
      });
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1))
          if (Math.abs(a.y - b.y) < 1) expect(a.x + a.wide < b.x || b.x + b.wide < a.x).toBe(true);
        expect(a.y).toBeLessThan(frame.height);
        expect(a.x).toBeGreaterThan(0);
        expect(a.x + a.wide).toBeLessThan(scale.width);
        // Room kept at the foot holds every row.
        expect(a.y).toBeGreaterThan(frame.height - 8 - room.names);
      });
      expect(named.length).toBe(
        far.filter(({ at }) => at[0] - 1.5 >= scale.from && at[0] - 1.5 <= scale.to).length,
      );
    }
  });

  it("are whatever a study says, drawn as they are: no markup is made of them here", () => {
    const name = '<script>"&';
    const { over, beside } = drawn(sceneWith([{ ...AT_FAR_EDGE, name }]));
    expect(texts([...over, ...beside]).map(({ text }) => text)).toEqual([name]);
  });
});

describe("room for people", () => {
  it("is what they need: shoulders beyond the edge they stand at, none for those not beside the top", () => {
    const none = drawn(sceneWith([])).room;
    expect(none).toEqual({ above: 0, below: 0, clear: Number.POSITIVE_INFINITY, names: 0 });
    const far = drawn(sceneWith([AT_FAR_EDGE]));
    expect(far.room.above).toBeGreaterThan(0.12 * far.scale.perMetre);
    expect(far.room.below).toBe(0);
    const near = drawn(sceneWith([AT_NEAR_EDGE]));
    expect(near.room.above).toBe(0);
    expect(near.room.below).toBeGreaterThan(near.room.clear);
    const elsewhere = drawn(sceneWith([{ ...AT_FAR_EDGE, at: [5.2, 3] }])).room;
    expect(elsewhere).toEqual(none);
  });

  it("holds every line of everyone drawn, whatever the width", () => {
    for (const width of [340, 700, 1200]) {
      const { over, beside, frame } = drawn(sceneWith([AT_FAR_EDGE, AT_NEAR_EDGE]), width);
      for (const [, y] of pointsOf([...over, ...beside].filter((mark) => mark.kind === "line"))) {
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(frame.height);
      }
    }
  });

  it("is less where people are drawn only near the top: the others are named", () => {
    const people = [{ ...AT_FAR_EDGE, at: [2.3, 3.2], posture: "standing" }];
    const wide = drawn(sceneWith(people), 900, 0.8);
    const tight = drawn(sceneWith(people), 900, 0.34);
    expect(wide.room.above).toBeGreaterThan(0);
    expect(wide.room.names).toBe(0);
    expect(tight.room.above).toBe(0);
    expect(tight.room.names).toBeGreaterThan(0);
    expect(tight.frame.height).toBeLessThan(wide.frame.height);
  });
});
