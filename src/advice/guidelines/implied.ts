/**
 * The arrangement a rule implies: this one with the one number the rule pulls at moved the least way into its range.
 *
 * A change of count shares the top into equal bays; a pitch that leaves no room for all keeps as many as fit; a width
 * scales the pendant as a whole. Rows stand about the middle of the island.
 */

import { highestPoint, lowestPoint } from "../../luminaire/extent.ts";
import { scaledLuminaire } from "../../luminaire/scaled.ts";
import { gridStations } from "../../scene/arrangement.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import { islandToRoom, topHeightAt } from "../../scene/island-frame.ts";
import type { Scene } from "../../scene/scene.ts";
import { hungRow, stationsAbout, withLuminaires, withPlaces } from "../../scene/with-hanging.ts";
import type { PendantRow } from "../pendant-row.ts";
import type { ImpliedRow } from "./guideline-card.ts";
import type { RecessedGrid } from "./recessed-grid.ts";
import type { Range, Want } from "./rule.ts";

const NEGLIGIBLE = 1e-6;
const MOST = 12;
/** 6 in. */
const LEAST_END = 0.1524;

/** This row in the numbers of a card. */
export function rowAsHung({ count, pitch, clearance, rim }: PendantRow): ImpliedRow {
  return { count, pitch: pitch ?? 0, clearance, width: rim };
}

/** The row a want implies; undefined where no such row can hang over the top. */
export function impliedRow(row: PendantRow, want: Want): ImpliedRow | undefined {
  const now = rowAsHung(row);
  const { length } = row.island;
  switch (want.variable) {
    case "clearance": {
      const clearance = clamped(now.clearance, want);
      return clearance > 0 ? { ...now, clearance } : undefined;
    }
    case "count": {
      const count = nearestCount(now.count, want);
      if (count === undefined || count * now.width > length + NEGLIGIBLE) return undefined;
      return count === now.count ? now : { ...now, count, pitch: count === 1 ? 0 : length / count };
    }
    case "pitch": {
      const pitch = clamped(now.pitch, want);
      if (!(pitch > 0) || pitch < now.width - NEGLIGIBLE) return undefined;
      return { ...now, pitch, count: Math.min(now.count, fitting(length, now.width, pitch)) };
    }
    case "width": {
      const width = clamped(now.width, want);
      return width > NEGLIGIBLE ? { ...now, width } : undefined;
    }
    default:
      return undefined;
  }
}

/** How many of a width fit a length at a pitch, with the least free end any rule allows. */
export function fitting(length: number, width: number, pitch: number): number {
  return Math.max(1, Math.floor((length - 2 * LEAST_END - width) / pitch + 1 + 1e-4));
}

/** The scene with its pendants hung so; the scene itself when nothing changes, undefined when they would reach the
 * ceiling or several types hang there. */
export function sceneOfRow(scene: Scene, row: PendantRow, implied: ImpliedRow): Scene | undefined {
  const now = rowAsHung(row);
  if (same(now, implied)) return scene;
  if (row.mixed) return undefined;
  const { island, luminaire, layer } = row;
  const rotation = scene.layers[layer].luminaires[0].frame.rotation;
  const sized = row.rim > 0 ? scaledLuminaire(luminaire, implied.width / row.rim) : luminaire;
  const hung = hungRow(island, sized, rotation, {
    places: stationsOf(row, implied).map((x) => [x, row.across] as const),
    clearance: implied.clearance,
  });
  if (reachesCeiling(scene, row, implied)) return undefined;
  return withLuminaires(scene, layer, hung);
}

/** Whether a row hung so would reach the ceiling anywhere: scaled bodies reach in proportion. */
export function reachesCeiling(scene: Scene, row: PendantRow, implied: ImpliedRow): boolean {
  const { island, luminaire, layer } = row;
  const rotation = scene.layers[layer].luminaires[0].frame.rotation;
  const scale = row.rim > 0 ? implied.width / row.rim : 1;
  const tall = scale * (highestPoint(luminaire, rotation) - lowestPoint(luminaire, rotation));
  return stationsOf(row, implied).some((along) => {
    const place = [along, row.across] as const;
    const [x, y] = islandToRoom(island, place);
    return topHeightAt(island, place) + implied.clearance + tall > ceilingAt(scene.room, x, y);
  });
}

/** Where only the height or the size changes, the places stay, however irregular they are. */
function stationsOf(row: PendantRow, { count, pitch }: ImpliedRow): readonly number[] {
  const now = rowAsHung(row);
  const stays = count === now.count && Math.abs(pitch - now.pitch) < NEGLIGIBLE;
  return stays ? row.stations : stationsAbout(row.island.length / 2, count, pitch);
}

/** The scene with its recessed grid respaced (equal bays) or its outer rows moved; undefined where it cannot be. */
export function sceneOfRecessed(
  scene: Scene,
  grid: RecessedGrid,
  want: Want,
):
  | { readonly scene: Scene; readonly columns: number; readonly rows: number; readonly margin?: number }
  | undefined {
  const { room, columns, rows, layer } = grid;
  const heightAt = (x: number, y: number) => Math.min(grid.height, ceilingAt(room, x, y));
  const placed = (xs: readonly number[], ys: readonly number[]): Scene =>
    withPlaces(
      scene,
      layer,
      ys.flatMap((y) => xs.map((x) => [x, y, heightAt(x, y)] as const)),
    );
  if (want.variable === "recessed spacing") {
    const spacing = clamped(grid.spacing, want);
    if (spacing === grid.spacing) return { scene, columns: columns.length, rows: rows.length };
    if (!(spacing > 0)) return undefined;
    const count = (side: number) => Math.max(1, Math.round(side / spacing));
    const [nx, ny] = [count(room.length), count(room.width)];
    if (nx * ny > MOST * MOST) return undefined;
    const xs = gridStations(0, room.length, nx) ?? [];
    const ys = gridStations(0, room.width, ny) ?? [];
    return { scene: placed(xs, ys), columns: nx, rows: ny };
  }
  const margin = clamped(grid.margin, want);
  if (margin === grid.margin) return { scene, columns: columns.length, rows: rows.length, margin };
  const xs = gridStations(0, room.length, columns.length, margin);
  const ys = gridStations(0, room.width, rows.length, margin);
  if (xs === undefined || ys === undefined) return undefined;
  return { scene: placed(xs, ys), columns: columns.length, rows: rows.length, margin };
}

function clamped(value: number, { low, high, at }: Range): number {
  if (at !== undefined && (value < low - NEGLIGIBLE || value > high + NEGLIGIBLE)) return at;
  // A hair inside, so that the implied arrangement is found to agree.
  const hair = Math.min(NEGLIGIBLE, (high - low) / 2);
  return value < low - NEGLIGIBLE ? low + hair : value > high + NEGLIGIBLE ? high - hair : value;
}

function nearestCount(now: number, want: Want): number | undefined {
  let best: number | undefined;
  for (let n = 1; n <= MOST; n++) {
    if (n < want.low || n > want.high || (want.odd === true && n % 2 === 0)) continue;
    if (best === undefined || Math.abs(n - now) <= Math.abs(best - now)) best = n;
  }
  return best;
}

function same(a: ImpliedRow, b: ImpliedRow): boolean {
  return (
    a.count === b.count &&
    Math.abs(a.pitch - b.pitch) < NEGLIGIBLE &&
    Math.abs(a.clearance - b.clearance) < NEGLIGIBLE &&
    Math.abs(a.width - b.width) < NEGLIGIBLE
  );
}
