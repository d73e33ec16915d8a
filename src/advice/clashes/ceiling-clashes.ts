/**
 * Boxes in the ceiling against one another, tall bodies, joists and keep-outs.
 *
 * Box: 4 in (102 mm) across; a canopy or a housing wider than it counts where it is known. A body whose top stands 1.9 m high or more is
 * tall: a downlight within its own diameter of one is half hidden by it. All common practice, no source.
 */

import { depthInside, type Polygon } from "../../geometry/polygon.ts";
import { polygonGap } from "../../geometry/polygon-gap.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { planExtents } from "../../luminaire/plan-extent.ts";
import type { BoxInPlace } from "../../scene/box-places.ts";
import { disc, planOutline, TOUCHING } from "../../scene/luminaire-pieces.ts";
import type { Scene } from "../../scene/scene.ts";
import { METRES_PER_INCH } from "../../units/quantities.ts";
import type { Clash } from "./clash.ts";

/** Width of the usual ceiling box (m). */
export const BOX_WIDTH = 4 * METRES_PER_INCH;
/** Width of a joist nobody stated (m): 45 mm; common practice, no source. */
export const JOIST_WIDTH = 0.045;
const TALL = 1.9;

/** What a box takes of the ceiling's plan (m, room): the housing of what sits in it, the canopy or box of what hangs. */
export function ceilingFootprint({ kind, placed, at }: BoxInPlace): Polygon {
  const { luminaire } = placed;
  if (kind === "recessed" && Math.max(...planExtents(luminaire)) > BOX_WIDTH) return planOutline(placed);
  return disc(at[0], at[1], Math.max(BOX_WIDTH, luminaire.canopy?.diameter ?? 0) / 2);
}

/** Radius (m) of the circle about the box that holds what it takes. */
function reachOf({ at: [x, y] }: BoxInPlace, footprint: Polygon): number {
  return Math.max(...footprint.map((corner) => Math.hypot(corner[0] - x, corner[1] - y)));
}

export function boxClashes(boxes: readonly BoxInPlace[]): Clash[] {
  const footprints = boxes.map(ceilingFootprint);
  // Hundreds of boxes are ten thousands of pairs, of which few are near enough to be measured.
  const reaches = boxes.map((box, i) => reachOf(box, footprints[i]));
  return boxes.flatMap((a, i) =>
    boxes.slice(i + 1).flatMap((b, k): Clash[] => {
      if (a.kind === "fixed" || b.kind === "fixed") return [];
      const [from, to] = [a.at, b.at];
      if (Math.hypot(to[0] - from[0], to[1] - from[1]) > reaches[i] + reaches[i + 1 + k]) return [];
      const clear = polygonGap(footprints[i], footprints[i + 1 + k]);
      if (clear >= -TOUCHING) return [];
      return [{ kind: "boxes", between: [a.tag, b.tag], clear, remedy: { kind: "move apart", by: -clear } }];
    }),
  );
}

export function tallBodies({ bodies = [] }: Scene): NonNullable<Scene["bodies"]> {
  return bodies.filter(({ top }) => top >= TALL);
}

/** How far from a tall body the middle of a box stays (m). */
export function tallReach({ kind, placed }: BoxInPlace): number {
  return kind === "recessed" ? Math.max(...planExtents(placed.luminaire)) || BOX_WIDTH : BOX_WIDTH / 2;
}

export function tallBodyClashes(scene: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  const tall = tallBodies(scene);
  return boxes.flatMap((box) =>
    tall.flatMap(({ name, outline }): Clash[] => {
      if (box.kind === "fixed") return [];
      const clear = -depthInside(box.at, outline) - tallReach(box);
      if (clear >= -TOUCHING) return [];
      return [
        { kind: "box and body", between: [box.tag, name], clear, remedy: { kind: "move apart", by: -clear } },
      ];
    }),
  );
}

/** Least distance from a joist's centreline to the middle of a box (m). */
function clearOfJoist({ width }: NonNullable<Scene["room"]["joists"]>): number {
  return (width ?? JOIST_WIDTH) / 2 + BOX_WIDTH / 2;
}

/** Signed shifts (m, away from the wall the joists are counted from) that free a box; undefined where it is free. */
export function joistShifts(
  { joists }: Scene["room"],
  [x, y]: Vec2,
): { readonly back: number; readonly forth: number; readonly clear: number } | undefined {
  if (joists === undefined) return undefined;
  const across = joists.along === "x" ? y : x;
  const clearance = clearOfJoist(joists);
  // The first joist is the first: none stand before it.
  const k = Math.max(0, Math.round((across - joists.first) / joists.spacing));
  const off = across - (joists.first + k * joists.spacing);
  const clear = Math.abs(off) - clearance;
  return clear >= -1e-9 ? undefined : { back: -clearance - off, forth: clearance - off, clear };
}

/** How far the boxes of a shifted row reach into others, each as the circle round it, summed (m). */
function overlapOf(row: readonly BoxInPlace[], others: readonly BoxInPlace[], [dx, dy]: Vec2): number {
  const radius = (box: BoxInPlace): number => reachOf(box, ceilingFootprint(box));
  const circles = others.map((box) => ({ at: box.at, r: radius(box) }));
  let sum = 0;
  for (const box of row) {
    const own = radius(box);
    for (const { at, r } of circles)
      sum += Math.max(0, own + r - Math.hypot(box.at[0] + dx - at[0], box.at[1] + dy - at[1]));
  }
  return sum;
}

/** Boxes on joists, with one shift for the whole row of each layer: the least that frees every box of it. */
export function joistClashes({ room }: Scene, all: readonly BoxInPlace[]): Clash[] {
  if (room.joists === undefined) return [];
  const from = room.joists.along === "x" ? "wall 0" : "wall 3";
  const layers = new Map<number, BoxInPlace[]>();
  for (const box of all)
    if (box.kind !== "fixed") layers.set(box.layer, [...(layers.get(box.layer) ?? []), box]);
  return [...layers.values()].flatMap((row) => {
    const others = all.filter((box) => box.kind !== "fixed" && !row.includes(box));
    const before = overlapOf(row, others, [0, 0]);
    const shift = rowShift(
      room,
      row.map(({ at }) => at),
      undefined,
      (by) => overlapOf(row, others, by) > before + TOUCHING,
    );
    const boxes = row.map(({ tag }) => tag);
    return row.flatMap((box): Clash[] => {
      const own = joistShifts(room, box.at);
      if (own === undefined) return [];
      const alone = -own.back < own.forth ? own.back : own.forth;
      return [
        {
          kind: "joist",
          between: [box.tag],
          clear: own.clear,
          remedy:
            shift === undefined
              ? { kind: "move box", by: alone, from, boxes }
              : { kind: "shift together", by: shift, from, boxes },
        },
      ];
    });
  });
}

/**
 * The least common shift (m) that frees every box of a row from the joists, rounded outwards to whole grains; undefined where none
 * does within the room. One that is `worse` is taken only where every other is. Candidates are the shifts that bring one box to the edge of what it needs: the least common one is among them.
 */
export function rowShift(
  room: Scene["room"],
  row: readonly Vec2[],
  grain = 0.001,
  worse: (by: Vec2) => boolean = () => false,
): number | undefined {
  const { joists } = room;
  if (joists === undefined) return undefined;
  const axis = joists.along === "x" ? 1 : 0;
  const moved = ([x, y]: Vec2, by: number): Vec2 => (axis === 0 ? [x + by, y] : [x, y + by]);
  const outwards = (by: number): number => Math.sign(by) * Math.ceil(Math.abs(by) / grain - 1e-6) * grain;
  const clearance = clearOfJoist(joists);
  const candidates = row.flatMap((at) => {
    const k = Math.round((at[axis] - joists.first) / joists.spacing);
    return [-2, -1, 0, 1, 2].flatMap((step) => {
      const off = joists.first + Math.max(0, k + step) * joists.spacing - at[axis];
      return [outwards(off - clearance), outwards(off + clearance)];
    });
  });
  candidates.push(0);
  candidates.sort((a, b) => Math.abs(a) - Math.abs(b) || b - a);
  const extent = axis === 0 ? room.length : room.width;
  const isInside = (at: number): boolean => at >= BOX_WIDTH / 2 && at <= extent - BOX_WIDTH / 2;
  let least: number | undefined;
  for (const by of candidates) {
    if (!row.every((at) => isInside(at[axis] + by) && joistShifts(room, moved(at, by)) === undefined))
      continue;
    if (!worse(moved([0, 0], by))) return by;
    least ??= by;
  }
  return least;
}

/** The keep-outs that a box at (x, y) reaches into, with how far as a negative distance (m). */
export function keepOutsMet(
  { keepOuts = [] }: Scene["room"],
  [x, y]: Vec2,
): readonly { readonly name: string; readonly clear: number }[] {
  return keepOuts
    .map(({ name, outline }) => ({ name, clear: -depthInside([x, y], outline) - BOX_WIDTH / 2 }))
    .filter(({ clear }) => clear < -TOUCHING);
}

export function keepOutClashes({ room }: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  return boxes.flatMap(({ kind, tag, at }) =>
    (kind === "fixed" ? [] : keepOutsMet(room, at)).map(
      ({ name, clear }): Clash => ({
        kind: "keep-out",
        between: [tag, name],
        clear,
        remedy: { kind: "move apart", by: -clear },
      }),
    ),
  );
}
