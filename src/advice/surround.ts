/**
 * Light around the task: what lies next to it, walls and ceiling.
 *
 * Immediate surround by task level (lx): 750 and more → 500, 500 → 300, 300 → 200, 200 → 150, up to 150 the same;
 * U₀ of the surround at least 0.40 (EN 12464-1, from memory). Walls above 50 lx and ceiling above 30 lx (EN 12464-1:2011,
 * read). All written for work places, taken here as a measure against a bright island in a dark room.
 *
 * Walls and ceiling are means over their patches, a few per cent at the quick calculation.
 */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import type { CalculationResult } from "../engine/result.ts";
import { surfaceMean } from "../assessment/surface-means.ts";
import type { Scene } from "../scene/scene.ts";

const STEPS: readonly (readonly [task: number, surround: number])[] = [
  [750, 500],
  [500, 300],
  [300, 200],
  [200, 150],
];

export const WALLS_LEAST = 50;
export const CEILING_LEAST = 30;

/** Illuminance (lx) that EN 12464-1 asks of the half metre around a task of the given illuminance. */
export function surroundIlluminance(task: number): number {
  return STEPS.find(([level]) => task >= level)?.[1] ?? Math.min(task, 150);
}

export interface Surround {
  /** Mean illuminance, dimmed and maintained (lx); undefined without interreflection. */
  readonly walls?: number;
  readonly ceiling?: number;
  /** Zones beside a task that have less than its surround asks. */
  readonly dim: readonly {
    readonly zone: string;
    readonly beside: string;
    readonly asked: number;
    readonly found: number;
  }[];
}

export function surround(
  scene: Scene,
  result: CalculationResult,
  { zones }: Pick<ArrangementAssessment, "zones">,
): Surround {
  const walls = surfaceMean(scene, result, "illuminance", (part) => part.startsWith("wall"));
  const ceiling = surfaceMean(scene, result, "illuminance", (part) => part === "ceiling");
  const dim = zones.flatMap((task) => {
    const target = task.checks.find(({ quantity }) => quantity === "illuminance")?.target;
    if (target === undefined) return [];
    const least = surroundIlluminance(target);
    return zones
      .filter((other) => other !== task && other.statistics.average < least)
      .map((other) => ({
        zone: other.name,
        beside: task.name,
        asked: least,
        found: other.statistics.average,
      }));
  });
  return { ...(walls === undefined ? {} : { walls }), ...(ceiling === undefined ? {} : { ceiling }), dim };
}
