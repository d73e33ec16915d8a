/** Sides drawn on the floor plan: they stop where something stops them, and leave everything else where it is in the room. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { moveItem } from "../../site/edits/kitchen-moves.ts";
import { sizeItem } from "../../site/edits/kitchen-sizes.ts";
import type { NamedEdit } from "../../site/edits/named-edit.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { shapeTop } from "../../site/edits/top-shape.ts";
import { StudyHistory } from "../../site/store/history.ts";
import type { Json } from "../../site/store/pointer.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { checkStudy } from "../../src/study/study.ts";

const study = example as unknown as RawStudy;

function after(raw: RawStudy, edit: NamedEdit | undefined): RawStudy {
  const history = new StudyHistory(raw as unknown as Json);
  history.change(edit?.name ?? "", edit?.edits ?? []);
  orThrow(checkStudy(history.document));
  return history.document as unknown as RawStudy;
}

/** Of a rectangle of the unturned top, in the room (m). */
function placeInRoom({ island, room }: RawStudy, zone: number): number[] {
  const { from, size } = (island?.zones?.[zone] ?? {}) as unknown as { from: number[]; size: number[] };
  const centre = (island?.centre ?? [Number(room.length) / 2, Number(room.width) / 2]) as number[];
  const [x, y] = [0, 1].map(
    (a) => centre[a] - Number(a === 0 ? island?.length : island?.width) / 2 + from[a],
  );
  return [x, y, x + size[0], y + size[1]].map((each) => Math.round(each * 1e4) / 1e4);
}

it("draws a cupboard's side and stops at the wall", () => {
  const [index] = (study.bodies ?? []).flatMap(({ name }, i) => (name === "tall larder" ? [i] : []));
  const box = study.bodies?.[index].box as unknown as number[][];
  const wider = after(study, sizeItem(study, { kind: "body", index }, 0, 0.2)).bodies?.[index].box;
  expect(wider).toEqual([[Math.round((box[0][0] - 0.2) * 1e4) / 1e4, box[0][1], box[0][2]], box[1]]);
  const stopped = after(study, sizeItem(study, { kind: "body", index }, 1, 50)).bodies?.[index].box;
  expect(stopped?.[1][0]).toBeCloseTo(Number(study.room.length), 3);
  const least = after(study, sizeItem(study, { kind: "body", index }, 0, -50)).bodies?.[index].box;
  expect(Number(least?.[1][0]) - Number(least?.[0][0])).toBeCloseTo(0.05, 3);
});

it("draws a turned cupboard along its own axis, the far side at rest", () => {
  const turned = {
    ...study,
    bodies: [
      {
        name: "bench",
        box: [
          [1, 1, 0],
          [2, 1.4, 0.9],
        ],
        turn: 30,
      },
    ],
  } as unknown as RawStudy;
  const sized = after(turned, sizeItem(turned, { kind: "body", index: 0 }, 1, 0.2));
  const [a, b] = (sized.bodies?.[0].box ?? []) as unknown as number[][];
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
  const left = (box: number[][]): number[] => {
    const half = (box[1][0] - box[0][0]) / 2;
    return [(box[0][0] + box[1][0]) / 2 - c * half, (box[0][1] + box[1][1]) / 2 - s * half];
  };
  const before = left([
    [1, 1],
    [2, 1.4],
  ]);
  left([a, b]).forEach((each, axis) => {
    expect(each).toBeCloseTo(before[axis], 3);
  });
  expect(b[0] - a[0]).toBeCloseTo(1.2, 3);
});

it("draws the ends of a window within its wall", () => {
  const [opening] = study.room.openings ?? [];
  const shorter = after(study, sizeItem(study, { kind: "opening", index: 0 }, 0, -0.1)).room.openings?.[0];
  expect(shorter?.from).toBeCloseTo(Number(opening.from) + 0.1, 4);
  expect(shorter?.length).toBeCloseTo(Number(opening.length) - 0.1, 4);
  const wide = after(study, sizeItem(study, { kind: "opening", index: 0 }, 0, 50)).room.openings?.[0];
  expect(wide?.from).toBe(0);
});

it("lengthens the island at one end: zones stay in the room, and one that ended there ends there still", () => {
  const plain = { ...study, island: { ...study.island, centre: [2.1, 1.8] } } as unknown as RawStudy;
  const before = [0, 1, 2].map((zone) => placeInRoom(plain, zone));
  for (const [side, edge] of [
    [3, 0],
    [1, 2],
  ] as const) {
    const longer = after(plain, sizeItem(plain, { kind: "island", index: 0 }, side, 0.2));
    expect(longer.island?.length).toBeCloseTo(2.6, 4);
    before.forEach((was, zone) => {
      const is = placeInRoom(longer, zone);
      const end = edge === 0 ? 2.1 - 1.2 : 2.1 + 1.2;
      const wanted = was.map((each, i) =>
        i === edge && Math.abs(each - end) < 1e-6 ? each + (edge === 0 ? -0.2 : 0.2) : each,
      );
      for (const [i, each] of is.entries()) expect(each).toBeCloseTo(wanted[i], 4);
    });
  }
});

it("moves one edge of an L, T or U, and stops before an arm is gone", () => {
  for (const shape of ["L", "T", "U"] as const) {
    const shaped = after(study, shapeTop(study, shape));
    const corners = shaped.island?.outline?.length ?? 0;
    for (let edge = 0; edge < corners; edge++)
      for (const by of [0.05, -0.05, 9, -9]) {
        const sized = after(shaped, sizeItem(shaped, { kind: "island", index: 0 }, edge, by));
        const ring = sized.island?.outline as unknown as number[][];
        expect(ring.length).toBe(corners);
        expect(Math.min(...ring.map(([x]) => x))).toBe(0);
        expect(Math.max(...ring.map(([, y]) => y))).toBeCloseTo(Number(sized.island?.width), 4);
        ring.forEach((corner, i) => {
          const next = ring[(i + 1) % corners];
          expect(Math.abs(next[0] - corner[0]) + Math.abs(next[1] - corner[1])).toBeGreaterThan(0.25);
        });
      }
  }
});

it("draws the overhang from none to all but the least base", () => {
  const over = { ...study, island: { ...study.island, overhang: { side: "y-", depth: 0.3 } } } as RawStudy;
  const depth = (by: number) =>
    after(over, sizeItem(over, { kind: "island", index: 0 }, -1, by)).island?.overhang?.depth;
  expect(depth(0.1)).toBe(0.2);
  expect(depth(5)).toBe(0);
  expect(depth(-5)).toBeCloseTo(1.1 - 0.2, 4);
});

it("moves a zone drawn as a polygon, within the top", () => {
  const polygon = [
    [0.5, 0.5],
    [1, 0.5],
    [1, 1],
  ];
  const own = {
    ...study,
    island: { ...study.island, zones: [{ name: "corner", polygon }] },
  } as unknown as RawStudy;
  const moved = after(own, moveItem(own, { kind: "zone", index: 0 }, [-9, 0.05])).island?.zones?.[0].polygon;
  expect(moved).toEqual([
    [0, 0.55],
    [0.5, 0.55],
    [0.5, 1.05],
  ]);
});
