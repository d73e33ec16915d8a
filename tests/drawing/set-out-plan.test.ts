/** The set-out plan and its detail: figures from the datum at their places, long pendants where they hang. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { setOut } from "../../src/app/set-out/set-out.ts";
import { type Box, overlaps, textBox } from "../../src/drawing/drawing.ts";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import type { PlanWindow } from "../../src/drawing/set-out-page.ts";
import { setOutPlan } from "../../src/drawing/set-out-plan.ts";
import { tagMarks } from "../../src/drawing/set-out-tags.ts";
import { switchMarks } from "../../src/drawing/switch-symbols.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { formatLength } from "../../src/units/length-text.ts";
import { handoverOf, kitchens } from "../support/handover.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const words = { dimension: (m: number): string => formatLength(m, "mm").replace(" mm", "") };
const setOutOf = (document: Record<string, unknown>) => {
  const [scene] = resolved(document).scenes;
  return { scene, found: setOut(scene, "mm", (m) => formatLength(m, "mm")) };
};
const points = (marks: readonly PaperMark[], depicts: string) =>
  marks.flatMap((mark) => (mark.kind === "circle" && mark.depicts === depicts ? [mark.centre] : []));

const bars = (turn: number) =>
  kitchen({
    island: { centre: [2.7, 2.1], length: 3, width: 1.1, height: 0.92, turn },
    luminaires: { bar: { beam: { flux: 1800, angle: 110 }, opening: { length: 1.2, width: 0.05 } } },
    arrangements: [{ name: "bars", layers: [{ name: "bars", luminaire: "bar", row: { count: 2 } }] }],
  });

describe("the set-out plan", () => {
  // 2026-11-29: rings of switches near one another lay over one another, and one's name over another's ring.
  it("draws switches near one another side by side, each led to its place", () => {
    const at = [0.06, 0.1, 0.13, 0.131].map((y) => ({ at: [0.1, 1 + y] }));
    const document = kitchen({
      arrangements: [
        {
          name: "a",
          layers: [
            { name: "p", luminaire: "dome", row: { count: 3, clearance: 0.85 }, switches: at.slice(0, 2) },
            {
              name: "r",
              luminaire: "spot",
              grid: { columns: 2, rows: 2, margin: 0.7 },
              switches: at.slice(2),
            },
          ],
        },
      ],
    });
    const { scene, found } = setOutOf(document);
    const { marks, perMetre } = setOutPlan(scene, found, 37.8, words);
    const rings = points(marks, "switch");
    expect(rings).toHaveLength(4);
    const gaps = rings.flatMap((a, i) =>
      rings.slice(0, i).map((b) => Math.max(Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1]))),
    );
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(8);
    const names = marks.flatMap((mark) => (mark.kind === "text" && mark.depicts === "switch" ? [mark] : []));
    for (const name of names)
      for (const [x, y] of rings)
        expect(overlaps(textBox(name), { x: x - 4, y: y - 4, width: 8, height: 8 })).toBe(false);
    // The first stands at its place; from the others a line leads there.
    expect(rings[0]).toEqual([0.1 * perMetre, -1.06 * perMetre]);
    const led = marks.flatMap((mark) =>
      mark.kind === "line" && mark.depicts === "switch" && mark.ink === "ink" ? [mark.points] : [],
    );
    expect(led).toHaveLength(3);
    for (const [i, [from, to]] of led.entries()) {
      expect(from[1]).toBeCloseTo(-at[i + 1].at[1] * perMetre, 9);
      expect(to).toEqual(rings[i + 1]);
    }
    // 2026-11-29: neither a mark nor the key said at which end of that line the switch is.
    const dots = points(marks, "switch place");
    expect(
      dots.map(([x, y]) => [x / perMetre, -y / perMetre].map((each) => Number(each.toFixed(6)))),
    ).toEqual(at.slice(1).map((each) => each.at));
    const key = (study: Json) =>
      setOutSheets(handoverOf(study)).sheets.flatMap((sheet) =>
        sheet.marks.flatMap((mark) => (mark.kind === "text" && /stands aside/.test(mark.text) ? [mark] : [])),
      ).length;
    expect(key(document)).toBe(1);
    expect(key(kitchen())).toBe(0);
  });

  it("puts a switch beside another where nothing is drawn yet", () => {
    const layer = (name: string) => ({
      name,
      luminaire: "dome",
      row: { count: 2, clearance: 0.85 },
      switches: [{ at: [1, 2] }],
    });
    const { scene } = setOutOf(kitchen({ arrangements: [{ name: "a", layers: [layer("p"), layer("q")] }] }));
    // One under the other first, 9 points apart, unless something stands there.
    const under = { x: 97, y: -192, width: 6, height: 2 };
    const second = (taken: Box[]) =>
      points(
        switchMarks({
          scene,
          perMetre: 100,
          isFullSize: false,
          at: ([x, y]) => [100 * x, -100 * y],
          window: { from: [0, 0], to: [5.4, 4.2] },
          field: { x: 0, y: -420, width: 540, height: 420 },
          taken,
        }),
        "switch",
      )[1];
    expect(second([])).toEqual([100, -191]);
    expect(second([under])).toEqual([100, -209]);
  });

  it("leads a tag away from the symbol of another box", () => {
    const { scene, found } = setOutOf(
      kitchen({
        arrangements: [
          { name: "a", layers: [{ name: "s", luminaire: "spot", at: [{ position: [1, 2, 2.7] }] }] },
        ],
      }),
    );
    const [box] = found.boxes;
    // Nothing is free beside the box itself; up to the right of it there is room for the tag, just before the other's symbol.
    const around = (half: number): Box => ({
      x: 100 - half,
      y: -200 - half,
      width: 2 * half,
      height: 2 * half,
    });
    const anchor = (other: Box) =>
      tagMarks(
        {
          scene,
          isFullSize: false,
          perMetre: 20,
          at: () => [100, -200],
          window: { from: [0, 0], to: [5.4, 4.2] },
          field: { x: 0, y: -420, width: 540, height: 420 },
          taken: [around(4), other, around(14)],
          symbols: 2,
          edges: [],
        },
        [box],
        new Set(),
      ).flatMap((mark) => (mark.kind === "text" ? [mark.anchor] : []));
    expect(anchor({ x: 300, y: -216, width: 8, height: 8 })).toEqual(["start"]);
    expect(anchor({ x: 135, y: -216, width: 8, height: 8 })).toEqual(["end"]);
  });

  it("shows where long pendants hang and are fed, at their places", () => {
    let worst = 0;
    for (const turn of [0, 17.3, 90]) {
      const { scene, found } = setOutOf(bars(turn));
      const { marks, perMetre } = setOutPlan(scene, found, 50, words);
      const drawn = points(marks, "suspension point");
      const wanted = found.boxes.flatMap((box) => box.suspensions?.points ?? []);
      expect(drawn.length).toBe(4);
      wanted.forEach(([x, y], i) => {
        worst = Math.max(worst, Math.hypot(drawn[i][0] - x * perMetre, drawn[i][1] + y * perMetre));
      });
      // Its box is where it is fed, not over its middle.
      found.boxes.forEach(({ suspensions, at: [x, y] }, i) => {
        const box = points(marks, "pendant box")[i];
        expect(suspensions?.feed).toEqual([x, y]);
        worst = Math.max(worst, Math.hypot(box[0] - x * perMetre, box[1] + y * perMetre));
      });
      // Two points at 0.4 of 1.2 m from the middle: 0.96 m apart, along the island.
      const [a, b] = wanted;
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeCloseTo(0.96, 9);
    }
    console.log(`worst error of a suspension on the plan: ${worst.toExponential(1)} points`);
    expect(worst).toBeLessThan(1e-9);
  });

  // 2026-11-28: strings dimensioned the middle of a long body; where it hangs and is fed stood in a table alone.
  it("dimensions where long pendants hang and are fed, from the datum", () => {
    let figures = 0;
    for (const turn of [0, 17.3, 90]) {
      const { scene, found } = setOutOf(bars(turn));
      const { marks } = setOutPlan(scene, found, 50, words);
      const wanted = found.boxes.flatMap(({ suspensions }) =>
        suspensions === undefined ? [] : [...suspensions.points, suspensions.feed],
      );
      for (const axis of ["x", "y"] as const) {
        const drawn = marks.flatMap((mark) =>
          mark.kind === "text" && mark.depicts.startsWith("dimension ") && mark.depicts.endsWith(` ${axis}`)
            ? [mark.text]
            : [],
        );
        for (const point of wanted) {
          expect(drawn).toContain(words.dimension(Math.round(point[axis === "x" ? 0 : 1] * 1000) / 1000));
          figures++;
        }
      }
      // Across a row along the walls they are on the pendants' own string: no second one of the same figures.
      const own = found.strings.filter(({ what }) => what === "suspensions");
      expect(own.map(({ axis }) => axis)).toEqual(turn === 0 ? ["x"] : turn === 90 ? ["y"] : ["x", "y"]);
    }
    console.log(`${figures} figures of suspensions and feeds on the plan`);
    expect(figures).toBe(36);
  });

  it("counts from the datum in a detail too, and lets nothing out of its window", () => {
    let figures = 0;
    fc.assert(
      fc.property(kitchens, (document) => {
        const { scene, found } = setOutOf(document);
        const window: PlanWindow = { from: [0.61, 0.4], to: [2.9, 2.7] };
        const perMetre = 90;
        const { marks } = setOutPlan(scene, found, perMetre, words, { window });
        for (const { what, axis, stations, dims } of found.strings) {
          const k = axis === "x" ? 0 : 1;
          // Of boxes only those that the window shows: a figure's line to another would end at nothing.
          const shown = found.boxes.filter(
            ({ kind, at: [x, y] }) =>
              `${kind}s`.startsWith(what.slice(0, 7)) &&
              x >= window.from[0] &&
              x <= window.to[0] &&
              y >= window.from[1] &&
              y <= window.to[1],
          );
          const inside = stations
            .map((exact, i) => ({ exact, printed: dims.positions[i + 1] }))
            .filter(({ exact }) => exact >= window.from[k] && exact <= window.to[k])
            .filter(
              ({ printed }) => what === "island" || shown.some((box) => Math.abs(box[axis] - printed) < 1e-9),
            );
          const drawn = marks.flatMap((mark) =>
            mark.kind === "text" && mark.depicts === `dimension ${what} ${axis}` ? [mark.text] : [],
          );
          expect(drawn).toEqual(inside.map(({ printed }) => words.dimension(printed)));
          figures += drawn.length;
          const ticks = marks.flatMap((mark) =>
            mark.kind === "line" && mark.depicts === "dimension tick"
              ? [((mark.points[0][k] + mark.points[1][k]) / 2) * (axis === "x" ? 1 : -1)]
              : [],
          );
          for (const { exact } of inside)
            expect(
              Math.min(...ticks.map((at) => Math.abs(at - (exact - window.from[k]) * perMetre))),
            ).toBeLessThan(1e-6);
        }
        const [w, h] = [2.29 * perMetre, 2.3 * perMetre];
        for (const mark of marks) {
          if (mark.kind !== "line" || !/island|cabinet|wall|joist/.test(mark.depicts)) continue;
          for (const [x, y] of mark.points)
            expect(x >= -1e-6 && x <= w + 1e-6 && -y >= -1e-6 && -y <= h + 1e-6).toBe(true);
        }
      }),
      { numRuns: 30 },
    );
    console.log(`${figures} figures in details, each from the datum`);
    expect(figures).toBeGreaterThan(30);
  });

  it("adds a detail where the plan of a large room is too small to be read at the island", () => {
    const titles = (room: { length: number; width: number }) =>
      setOutSheets(handoverOf(kitchen({ room: { ...room, ceilingHeight: 2.7 } }))).sheets.flatMap(
        ({ marks }) =>
          marks.flatMap((mark) => (mark.depicts === "view title" && mark.kind === "text" ? [mark.text] : [])),
      );
    expect(titles({ length: 5.4, width: 4.2 })).toEqual([]);
    expect(titles({ length: 11, width: 7 })).toEqual([expect.stringMatching(/^Island, 1:\d+$/)]);
  });

  it("draws doors with their leaves: hinges left or right seen from inside, into the room or out of it", () => {
    // Wall 0 is at the foot of the plan: from inside one looks down at it, its far end (greater x) on the left.
    const leaf = (swing: string) => {
      const { scene, found } = setOutOf(
        kitchen({
          room: {
            length: 5.4,
            width: 4.2,
            ceilingHeight: 2.7,
            doors: [{ wall: 0, from: 1, width: 0.8, swing }],
          },
        }),
      );
      const { marks } = setOutPlan(scene, found, 100, words);
      const lines = marks.flatMap((mark) =>
        mark.kind === "line" && mark.depicts === "door" ? [mark.points] : [],
      );
      const [hinge, tip] = lines.find((points) => points.length === 2) ?? [];
      return [hinge?.[0], tip?.[0], Math.round(tip?.[1] ?? 0)];
    };
    expect(leaf("in-left")).toEqual([180, 180, -80]);
    expect(leaf("in-right")).toEqual([100, 100, -80]);
    expect(leaf("out-left")).toEqual([180, 180, 90]);
    expect(leaf("none")).toEqual([100, 180, 5]);
  });
});
