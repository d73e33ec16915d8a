/**
 * How far the luminaires of a row must stand from middle to middle to be clear of one another, and how many then fit along the top.
 *
 * Two bodies part where the shifts end at which any of their convex pieces stand in one another (`overlapSpan`). Luminaires k places apart in the row are k pitches apart.
 */

import { leastOutside, overlapSpan } from "../../geometry/polygon-gap.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { BoxInPlace } from "../../scene/box-places.ts";
import { piecesGap } from "../../scene/luminaire-pieces.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Prism } from "../../scene/solids.ts";
import type { Remedy } from "./clash.ts";

type HungBox = BoxInPlace & { readonly pieces: readonly Prism[] };

/** Off the line of a row, or apart from an equal pitch, by so much is on it (m). */
const STRAIGHT = 1e-3;
/** Of a row that runs along the top, the least cosine of the angle between them. */
const ALONG = 0.999;

/** The remedy of a layer whose luminaires stand in one line at equal distances; undefined of any other. */
export function spacedRow(scene: Scene, row: readonly HungBox[]): Remedy | undefined {
  const line = lineOf(row);
  if (line === undefined) return undefined;
  let pitch = line.pitch;
  for (let i = 0; i < row.length; i++)
    for (let j = i + 1; j < row.length; j++) {
      if (piecesGap(row[i].pieces, row[j].pieces) >= 0) continue;
      const apart = (j - i) * line.pitch + freeingShift(row[i].pieces, row[j].pieces, line.direction);
      pitch = Math.max(pitch, apart / (j - i));
    }
  const fit = fitting(scene, row, line.direction, pitch);
  return { kind: "space row", pitch, ...(fit === undefined || fit >= row.length ? {} : { fit }) };
}

/** Whether luminaires stand in one line at equal distances. */
export function isStraight(row: readonly BoxInPlace[]): boolean {
  return lineOf(row) !== undefined;
}

function lineOf(
  row: readonly BoxInPlace[],
): { readonly direction: Vec2; readonly pitch: number } | undefined {
  const places = row.map(({ placed }): Vec2 => [placed.frame.origin[0], placed.frame.origin[1]]);
  if (places.length < 2) return undefined;
  const [[x, y], [nextX, nextY]] = places;
  const pitch = Math.hypot(nextX - x, nextY - y);
  if (pitch < STRAIGHT) return undefined;
  const direction: Vec2 = [(nextX - x) / pitch, (nextY - y) / pitch];
  const isInRow = places.every(
    (at, k) =>
      Math.hypot(at[0] - x - k * pitch * direction[0], at[1] - y - k * pitch * direction[1]) < STRAIGHT,
  );
  return isInRow ? { direction, pitch } : undefined;
}

/** How far the second is moved along the line until both are clear (m). */
function freeingShift(a: readonly Prism[], b: readonly Prism[], direction: Vec2): number {
  return leastOutside(
    a.flatMap((p) =>
      b.flatMap((q) => {
        const shared = Math.min(p.top, q.top) - Math.max(p.bottom, q.bottom) > 1e-9;
        const span = shared ? overlapSpan(p.outline, q.outline, direction) : undefined;
        return span === undefined ? [] : [span];
      }),
    ),
  );
}

function extentAlong(pieces: readonly Prism[], [dx, dy]: Vec2): number {
  const along = pieces.flatMap(({ outline }) => outline.map(([x, y]) => x * dx + y * dy));
  return Math.max(...along) - Math.min(...along);
}

/** How many stand over the top at a pitch, the first and the last within its ends; undefined of a row that runs along no side of it. */
function fitting(
  { island }: Scene,
  row: readonly HungBox[],
  direction: Vec2,
  pitch: number,
): number | undefined {
  if (island === undefined) return undefined;
  const cosine = Math.abs(direction[0] * Math.cos(island.turn) + direction[1] * Math.sin(island.turn));
  const side =
    cosine > ALONG
      ? island.length
      : Math.sqrt(1 - Math.min(1, cosine) ** 2) > ALONG
        ? island.width
        : undefined;
  if (side === undefined) return undefined;
  const own = Math.max(...row.map(({ pieces }) => extentAlong(pieces, direction)));
  return own > side ? 0 : Math.floor((side - own) / pitch + 1e-6) + 1;
}
