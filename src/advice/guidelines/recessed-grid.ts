/** Recessed luminaires as a grid: columns along the room's x, rows along y, how far apart, how far from the walls (m). */

import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { RoomShape, Scene } from "../../scene/scene.ts";

export interface RecessedGrid {
  readonly layer: number;
  readonly luminaire: Luminaire;
  readonly count: number;
  readonly columns: readonly number[];
  readonly rows: readonly number[];
  /** Mean distance between neighbouring columns and rows; the greater of both. */
  readonly spacing: number;
  /** From the walls to the outer centres; the least of the four. */
  readonly margin: number;
  /** Mean mounting height. */
  readonly height: number;
  readonly room: RoomShape;
}

/** Places within this of each other are in line (m). */
const IN_LINE = 0.02;

/** The grid of the first recessed layer; undefined where its luminaires form none. */
export function recessedGrid(scene: Scene): RecessedGrid | undefined {
  const layer = scene.layers.findIndex(
    ({ role, luminaires }) => role === "recessed" && luminaires.length > 1,
  );
  if (layer < 0) return undefined;
  const { luminaires } = scene.layers[layer];
  const origins = luminaires.map(({ frame }) => frame.origin);
  const columns = lines(origins.map(([x]) => x));
  const rows = lines(origins.map(([, y]) => y));
  if (columns.length * rows.length !== origins.length) return undefined;
  const { room } = scene;
  return {
    layer,
    luminaire: luminaires[0].luminaire,
    count: origins.length,
    columns,
    rows,
    spacing: Math.max(step(columns), step(rows)),
    margin: Math.min(
      columns[0],
      rows[0],
      room.length - columns[columns.length - 1],
      room.width - rows[rows.length - 1],
    ),
    height: origins.reduce((sum, [, , z]) => sum + z, 0) / origins.length,
    room,
  };
}

function lines(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, i) => i === 0 || value - sorted[i - 1] > IN_LINE);
}

function step(places: readonly number[]): number {
  return places.length < 2 ? 0 : (places[places.length - 1] - places[0]) / (places.length - 1);
}
