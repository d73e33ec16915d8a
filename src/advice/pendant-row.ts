/**
 * The row of pendants over the island in the numbers people speak of: how many, how wide, how far apart, how high.
 *
 * Along = the island's +x, across = its +y (m). Rim = the wider of body and opening.
 */

import { lowestPoint } from "../luminaire/extent.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { widthAlong } from "../luminaire/plan-extent.ts";
import { clearanceOf } from "../scene/arrangement.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { isPendant } from "../scene/is-pendant.ts";
import { islandToRoom, roomToIsland } from "../scene/island-frame.ts";
import type { Island, Scene } from "../scene/scene.ts";

export interface PendantRow {
  /** The layer that holds most of them, and its luminaire. */
  readonly layer: number;
  readonly luminaire: Luminaire;
  /** Whether several types or layers hang there; then no other row is worked out. */
  readonly mixed: boolean;
  readonly count: number;
  /** How many more hang over the top and stand in no row with these. */
  readonly apart: number;
  /** Centres along the island, rising. */
  readonly stations: readonly number[];
  /** Mean place across. */
  readonly across: number;
  /** Mean distance between neighbours' centres; undefined for one pendant. */
  readonly pitch?: number;
  /** Least free distance between neighbouring rims. */
  readonly gap?: number;
  /** Extent of one along and across the island. */
  readonly rim: number;
  readonly breadth: number;
  /** From the outer rims, and from the outer centres, to the end of the top: the lesser of both ends. */
  readonly end: number;
  /** The former at the left and at the right end; negative where a rim reaches beyond the top. */
  readonly ends: readonly [left: number, right: number];
  readonly endToCentre: number;
  /** Of the lowest rim above the top and above the floor. */
  readonly clearance: number;
  readonly aboveFloor: number;
  /** The same of the highest rim. */
  readonly highest: { readonly clearance: number; readonly aboveFloor: number };
  /** Longer than wide by half again and at least 0.6 m. */
  readonly linear: boolean;
  readonly island: Island;
  /** Over the middle of the row. */
  readonly ceiling: number;
}

const LINEAR = { ratio: 1.5, length: 0.6 };

/** The row of a scene; undefined without island or pendants over it. */
export function pendantRow(scene: Scene): PendantRow | undefined {
  const { island, room } = scene;
  if (island === undefined) return undefined;
  const over = scene.layers.map((each) =>
    each.luminaires.filter((placed) => isPendant(each, placed) && clearanceOf(placed, island) !== undefined),
  );
  const all = over.flat();
  if (all.length === 0) return undefined;
  const layer = over.reduce((most, each, i) => (each.length > over[most].length ? i : most), 0);
  const { luminaire } = over[layer][0];
  const placeOf = ({ frame: { origin } }: PlacedLuminaire) => roomToIsland(island, [origin[0], origin[1]]);
  const breadth = Math.max(...all.map((placed) => extentAlong(island, placed, Math.PI / 2)));
  const line = mean(over[layer].map((placed) => placeOf(placed)[1]));
  // What another layer hangs elsewhere, as over the other leg of an L, stands in no row with these.
  const row = over.flatMap((each, i) =>
    each.filter((placed) => i === layer || Math.abs(placeOf(placed)[1] - line) < breadth),
  );
  const places = row.map(placeOf).sort((a, b) => a[0] - b[0]);
  const stations = places.map(([along]) => along);
  const lowest = all.map(({ luminaire: each, frame }) => frame.origin[2] + lowestPoint(each, frame.rotation));
  const clearances = all.map((placed) => clearanceOf(placed, island) as number);
  return rowFigures(room, {
    layer,
    luminaire,
    mixed:
      over.some((each, i) => i !== layer && each.length > 0) || all.some((p) => p.luminaire !== luminaire),
    apart: all.length - row.length,
    stations,
    across: mean(places.map(([, y]) => y)),
    rim: Math.max(...row.map((placed) => extentAlong(island, placed, 0))),
    breadth,
    clearance: Math.min(...clearances),
    aboveFloor: Math.min(...lowest),
    highest: { clearance: Math.max(...clearances), aboveFloor: Math.max(...lowest) },
    island,
  });
}

/** What follows from where the pendants of a row stand and how large they are. */
export function rowFigures(
  room: Scene["room"],
  row: Omit<PendantRow, "count" | "pitch" | "gap" | "end" | "ends" | "endToCentre" | "linear" | "ceiling">,
): PendantRow {
  const { stations, rim, breadth, island } = row;
  const last = stations[stations.length - 1];
  const gaps = stations.slice(1).map((s, i) => s - stations[i]);
  const endToCentre = Math.min(stations[0], island.length - last);
  return {
    ...row,
    count: stations.length,
    ...(gaps.length === 0 ? {} : { pitch: (last - stations[0]) / gaps.length, gap: Math.min(...gaps) - rim }),
    end: endToCentre - rim / 2,
    ends: [stations[0] - rim / 2, island.length - last - rim / 2],
    endToCentre,
    linear: rim >= LINEAR.length && rim >= LINEAR.ratio * breadth,
    ceiling: ceilingAt(room, ...islandToRoom(island, [mean(stations), row.across])),
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Extent (m) of a hung luminaire in a plan direction at `angle` (rad) from the island's +x. */
export function extentAlong(island: Island, { luminaire, frame }: PlacedLuminaire, angle: number): number {
  const heading = Math.atan2(frame.rotation[1], frame.rotation[0]);
  return widthAlong(luminaire, island.turn + angle - heading);
}
