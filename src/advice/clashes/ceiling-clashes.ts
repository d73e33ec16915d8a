/**
 * Boxes in the ceiling against one another, tall bodies, joists and keep-outs.
 *
 * Box: as wide as the room states it; a canopy or a housing wider than it counts where it is known. A body whose top stands 1.9 m high or more is
 * tall: a downlight within its own diameter of one is half hidden by it. All common practice, no source.
 */

import { planPlacement } from "../../geometry/plan-placement.ts";
import { depthInside, ellipse, type Polygon } from "../../geometry/polygon.ts";
import { leastOutside, polygonGap, type Span } from "../../geometry/polygon-gap.ts";
import { convexPieces } from "../../geometry/polygon-pieces.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { cutOutOutline, cutOutSides } from "../../luminaire/cut-out.ts";
import { planExtents } from "../../luminaire/plan-extent.ts";
import { type BoxInPlace, boxWidth } from "../../scene/box-places.ts";
import { planOutline, TOUCHING } from "../../scene/luminaire-pieces.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Clash } from "./clash.ts";

/** Width of a joist nobody stated (m): 45 mm; common practice, no source. */
export const JOIST_WIDTH = 0.045;
const TALL = 1.9;

/** What a box takes of the ceiling's plan (m, room): the housing of what sits in it, or the hole for it where that is wider, the canopy or
 * box of what hangs. */
export function ceilingFootprint({ kind, placed, at, width }: BoxInPlace): Polygon {
  const { luminaire, frame } = placed;
  if (kind === "recessed") {
    const housing = Math.max(...planExtents(luminaire));
    const { cutOut } = luminaire;
    if (cutOut !== undefined && Math.max(...cutOutSides(cutOut)) > Math.max(width, housing))
      return cutOutOutline(cutOut).map(planPlacement(at, Math.atan2(frame.rotation[1], frame.rotation[0])));
    if (housing > width) return planOutline(placed);
  }
  return ellipse(at[0], at[1], Math.max(width, luminaire.canopy?.diameter ?? 0) / 2);
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
export function tallReach({ kind, placed, width }: BoxInPlace): number {
  return kind === "recessed" ? Math.max(...planExtents(placed.luminaire)) || width : width / 2;
}

export function tallBodyClashes(scene: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  const tall = tallBodies(scene);
  return boxes.flatMap((box) =>
    tall.flatMap(({ name, outline }): Clash[] => {
      if (box.kind === "fixed") return [];
      const clear = -depthInside(box.at, outline) - tallReach(box);
      if (clear >= -TOUCHING) return [];
      return [
        { kind: "box and body", between: [box.tag, name], clear, remedy: { kind: "move away", by: -clear } },
      ];
    }),
  );
}

/** Half of what a box takes between joists (m): a canopy may lie under one, a housing in the ceiling may not. */
function betweenJoists({ joists }: Scene["room"], box: BoxInPlace): number {
  if (box.kind !== "recessed") return box.width / 2;
  const axis = joists?.along === "x" ? 1 : 0;
  return Math.max(...ceilingFootprint(box).map((corner) => Math.abs(corner[axis] - box.at[axis])));
}

/** Least distance from a joist's centreline to the middle of a box (m). @param half of the box */
function clearOfJoist({ width }: NonNullable<Scene["room"]["joists"]>, half: number): number {
  return (width ?? JOIST_WIDTH) / 2 + half;
}

/** Signed shifts (m, away from the wall the joists are counted from) that free a box; undefined where it is free. */
export function joistShifts(
  room: Scene["room"],
  [x, y]: Vec2,
  half = boxWidth(room) / 2,
): { readonly back: number; readonly forth: number; readonly clear: number } | undefined {
  const { joists } = room;
  if (joists === undefined) return undefined;
  const across = joists.along === "x" ? y : x;
  const clearance = clearOfJoist(joists, half);
  // The first joist is the first: none stand before it.
  const k = Math.max(0, Math.round((across - joists.first) / joists.spacing));
  const off = across - (joists.first + k * joists.spacing);
  const clear = Math.abs(off) - clearance;
  return clear >= -1e-9 ? undefined : { back: -clearance - off, forth: clearance - off, clear };
}

/** Boxes on joists, each with the shift that frees it alone: for when none of its row together is found. */
export function joistClashes({ room }: Scene, all: readonly BoxInPlace[]): Clash[] {
  const from = room.joists?.along === "x" ? "wall 0" : "wall 3";
  return all.flatMap((box): Clash[] => {
    const own = box.kind === "fixed" ? undefined : joistShifts(room, box.at, betweenJoists(room, box));
    if (own === undefined) return [];
    const boxes = all
      .filter(({ layer, kind }) => layer === box.layer && kind !== "fixed")
      .map(({ tag }) => tag);
    const by = -own.back < own.forth ? own.back : own.forth;
    return [
      { kind: "joist", between: [box.tag], clear: own.clear, remedy: { kind: "move box", by, from, boxes } },
    ];
  });
}

/** The least common shift (m) that frees every box of a row from the joists, rounded outwards to whole grains; undefined where none
 * does within the room. */
export function rowShift(room: Scene["room"], row: readonly Vec2[], grain = 0.001): number | undefined {
  const { joists } = room;
  if (joists === undefined) return undefined;
  const axis = joists.along === "x" ? 1 : 0;
  const width = boxWidth(room);
  const clearance = clearOfJoist(joists, width / 2);
  const extent = axis === 0 ? room.length : room.width;
  const places = row.map((at) => at[axis]);
  const shifts = [1, -1].flatMap((sign) => {
    // In grains, the ends rounded outwards, so that what is free is a whole number of them.
    const spans = places.flatMap((at) =>
      joistLines(joists, extent).map((line): Span => {
        const ends = [sign * (line - at) - clearance, sign * (line - at) + clearance].map(
          (end) => end / grain,
        );
        return [Math.floor(ends[0] + 1e-6), Math.ceil(ends[1] - 1e-6)];
      }),
    );
    const by = sign * leastOutside(spans) * grain;
    const isInside = places.every((at) => Math.abs(at + by - extent / 2) <= (extent - width) / 2);
    return isInside ? [by] : [];
  });
  return shifts.sort((a, b) => Math.abs(a) - Math.abs(b))[0];
}

/** Where the middles of the joists are (m), from the wall they are counted from. */
export function joistLines(
  { first, spacing, width = JOIST_WIDTH }: NonNullable<Scene["room"]["joists"]>,
  extent: number,
): number[] {
  const count = Math.max(0, Math.ceil((extent + width - first) / spacing));
  return Array.from({ length: count }, (_, k) => first + k * spacing);
}

/** The keep-outs that a box at (x, y) reaches into, with how far as a negative distance (m). */
export function keepOutsMet(
  room: Scene["room"],
  [x, y]: Vec2,
): readonly { readonly name: string; readonly clear: number }[] {
  const half = boxWidth(room) / 2;
  return (room.keepOuts ?? [])
    .map(({ name, outline }) => ({ name, clear: -depthInside([x, y], outline) - half }))
    .filter(({ clear }) => clear < -TOUCHING);
}

/** The keep-outs that a housing in the ceiling reaches into. */
function housingIn({ keepOuts = [] }: Scene["room"], box: BoxInPlace): ReturnType<typeof keepOutsMet> {
  const footprint = ceilingFootprint(box);
  return keepOuts
    .map(({ name, outline }) => ({
      name,
      clear: Math.min(...convexPieces(outline).map((piece) => polygonGap(footprint, piece))),
    }))
    .filter(({ clear }) => clear < -TOUCHING);
}

export function keepOutClashes({ room }: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  return boxes.flatMap((box) => {
    const { kind, tag, at } = box;
    return (kind === "fixed" ? [] : kind === "recessed" ? housingIn(room, box) : keepOutsMet(room, at)).map(
      ({ name, clear }): Clash => ({
        kind: "keep-out",
        between: [tag, name],
        clear,
        remedy: { kind: "move away", by: -clear },
      }),
    );
  });
}
