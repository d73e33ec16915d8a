/** Tags of boxes that stand close together on the set-out plan. */
import { expect, it } from "vitest";
import { textBox } from "../../src/drawing/drawing.ts";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const crowded = (room: readonly [number, number], rows: number, turn: number, circuit: string | undefined) =>
  kitchen({
    room: { length: room[0], width: room[1], ceilingHeight: 2.7 },
    island: { centre: [room[0] / 2, room[1] / 2], length: 2.8, width: 1.1, height: 0.92, turn },
    arrangements: [
      {
        name: "a",
        layers: [
          ...(rows === 1 ? [0] : [-0.25, 0.25]).map((across) => ({
            name: `row ${across}`,
            luminaire: "dome",
            circuit,
            row: { count: 5, spacing: 0.55, clearance: 0.85, offset: [0, across] },
          })),
          { name: "ambient", luminaire: "spot", circuit, grid: { columns: 4, rows: 3, margin: 0.7 } },
        ],
      },
    ],
  });

const leadersOf = (marks: readonly PaperMark[]) =>
  marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "leader" ? [mark.points as readonly [Vec2, Vec2]] : [],
  );

const cross = ([a, b]: readonly [Vec2, Vec2], other: readonly [Vec2, Vec2]): boolean => {
  const side = ([p, q]: readonly [Vec2, Vec2], [x, y]: Vec2) =>
    Math.sign((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]));
  return side(other, a) !== side(other, b) && side([a, b], other[0]) !== side([a, b], other[1]);
};

// 2026-11-29: below a row stood P1, P3, P2, their leaders close together.
it.each([
  ["A4", "mm"],
  ["Letter", "ft-in"],
] as const)(
  "stand in the order of their row on %s, and no leader of a single row crosses another",
  (paper, unit) => {
    let led = 0;
    for (const room of [
      [5.4, 4.2],
      [11, 7],
    ] as const)
      for (const rows of [1, 2])
        for (const turn of [0, 17, 90])
          for (const circuit of [undefined, "7b"]) {
            const { view, setOut } = setOutSheets(
              handoverOf(crowded(room, rows, turn, circuit), { paper, unit }),
            );
            const where = `${room[0]} m, ${rows} rows, turned ${turn}, circuit ${circuit}`;
            const middles = new Map(
              view.marks.flatMap((mark) => {
                if (mark.kind !== "text" || mark.depicts !== "tag") return [];
                const { x, y, width, height } = textBox(mark);
                return [[mark.text.split(" ")[0], [x + width / 2, y + height / 2]]] as const;
              }),
            );
            setOut.boxes.forEach((box, i) => {
              const before = setOut.boxes[i - 1];
              if (box.kind !== "pendant" || before === undefined || before.layer !== box.layer) return;
              const [a, b] = [before, box].map(({ tag }) => middles.get(tag) as readonly number[]);
              // Paper counts y downwards.
              const along =
                (b[0] - a[0]) * (box.at[0] - before.at[0]) - (b[1] - a[1]) * (box.at[1] - before.at[1]);
              expect(along, `${before.tag}, ${box.tag}: ${where}`).toBeGreaterThan(0);
            });
            // Where two rows leave each other no way out they may cross; the enlarged part has room.
            const leaders = rows === 1 ? leadersOf(view.marks) : [];
            led += leaders.length;
            leaders.forEach((one, i) => {
              for (const other of leaders.slice(0, i)) expect(cross(one, other), where).toBe(false);
            });
          }
    expect(led).toBeGreaterThan(20);
  },
);
