/**
 * Places on the top where a meter is held, what the light there is predicted to be, and the list of what was read.
 *
 * The places are points of the calculation itself, thinned to a hand's distance, so that a prediction beside a reading
 * is the very figure of the sheet. Predictions of new light are those of the sheet divided by the maintenance factor.
 */

import { rankedPlane } from "../../src/app.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";

export interface ReadingPoint {
  /** Of the plane's points. */
  readonly index: number;
  /** m, room */
  readonly at: readonly [x: number, y: number, z: number];
  /** m, from the corner of the plane, along its sides */
  readonly along: number;
  readonly across: number;
}

export interface ReadingPlan {
  /** Index of the plane in scene and assessment. */
  readonly plane: number;
  /** m */
  readonly length: number;
  readonly width: number;
  /** Row by row, the nearest first. */
  readonly points: readonly ReadingPoint[];
}

/** A reading taken at a point with some of the layers on. */
export interface TakenReading {
  readonly at: readonly [x: number, y: number, z: number];
  /** `all`, `none`, or the name of the one layer that is on. */
  readonly lit: string;
  readonly lux: number;
}

export type LightAge = "new" | "aged";

/** Places closer together tell the meter nothing new (m). */
const APART = 0.4;

/** The grid of places on the top; undefined where there is none. */
export function readingPlan({
  scene,
  assessment,
}: Pick<LightAnswer, "scene" | "assessment">): ReadingPlan | undefined {
  const plane = rankedPlane(scene, assessment);
  const { grid, points } = scene.planes[plane] ?? {};
  if (grid === undefined || points === undefined) return undefined;
  const { columns, rows, u, v, cells } = grid;
  const [length, width] = [Math.hypot(...u), Math.hypot(...v)];
  const pointOf = new Map(Array.from(cells, (cell, index) => [cell, index]));
  const along = thinned(columns, length);
  const taken = thinned(rows, width).flatMap((row) =>
    along.flatMap((column): ReadingPoint[] => {
      const index = pointOf.get(row * columns + column);
      if (index === undefined) return [];
      const at = [points[3 * index], points[3 * index + 1], points[3 * index + 2]] as const;
      return [
        { index, at, along: ((column + 0.5) * length) / columns, across: ((row + 0.5) * width) / rows },
      ];
    }),
  );
  return { plane, length, width, points: taken };
}

/** Evenly chosen ones of `count` cells over a length. */
function thinned(count: number, length: number): number[] {
  const wanted = Math.min(count, Math.max(2, Math.round(length / APART)));
  return Array.from({ length: wanted }, (_, i) =>
    Math.min(count - 1, Math.floor(((i + 0.5) * count) / wanted)),
  );
}

/** What is predicted at a point of the plane (lx), with what is lit, for new or aged light. */
export function predictedAt(
  { scene, assessment }: Pick<LightAnswer, "scene" | "assessment">,
  plane: number,
  index: number,
  lit: string,
  age: LightAge,
): number {
  let lux = 0;
  for (const { layer, direct, interreflected } of assessment.planes[plane].layers)
    if (lit === "all" || lit === layer) lux += (direct[index] ?? 0) + (interreflected[index] ?? 0);
  return age === "aged" ? lux : lux / scene.maintenance;
}

/** The list as comma-separated text: one line a reading, places in the room. */
export function readingsText(readings: readonly TakenReading[]): string {
  const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
  const lines = readings.map(({ at, lit, lux }) => [...at, lux, quoted(lit)].join(","));
  return ["x,y,z,lx,lit", ...lines].join("\n");
}
