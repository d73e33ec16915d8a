/**
 * Light around the task: what lies next to it, walls and ceiling, the fronts of wall units and the floor of the aisles.
 *
 * Immediate surround by task level (lx): 750 and more → 500, 500 → 300, 300 → 200, 200 → 150, up to 150 the same;
 * U₀ of the surround at least 0.40 (EN 12464-1, from memory). Walls above 50 lx and ceiling above 30 lx (EN 12464-1:2011,
 * read). All written for work places, taken here as a measure against a bright island in a dark room.
 *
 * Walls and ceiling are means over their patches, a few per cent at the quick calculation.
 */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import { maintainedLayers, totalOf } from "../assessment/layer-light.ts";
import { statistics } from "../assessment/statistics.ts";
import { surfaceMean } from "../assessment/surface-means.ts";
import type { CalculationResult, PlaneField } from "../engine/result.ts";
import { depthInside } from "../geometry/polygon.ts";
import type { Scene, Zone } from "../scene/scene.ts";
import { type SurroundPlane, surroundPlanes } from "./surround-planes.ts";

const STEPS: readonly (readonly [task: number, surround: number])[] = [
  [750, 500],
  [500, 300],
  [300, 200],
  [200, 150],
];

export const WALLS_LEAST = 50;
export const CEILING_LEAST = 30;
/** Width of the band around a task (m). */
const BAND = 0.5;

/** Illuminance (lx) that EN 12464-1 asks of the half metre around a task of the given illuminance. */
export function surroundIlluminance(task: number): number {
  return STEPS.find(([level]) => task >= level)?.[1] ?? Math.min(task, 150);
}

/** Light on the front of a wall unit or on the floor of an aisle, dimmed and maintained (lx). */
export interface SurroundReading extends Pick<SurroundPlane, "kind" | "of"> {
  readonly average: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly points: number;
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
  /** Absent where it was not calculated. */
  readonly readings?: readonly SurroundReading[];
}

/** @param fields light calculated on `surroundPlanes(scene)`, in their order */
export function surround(
  scene: Scene,
  result: CalculationResult,
  { zones }: Pick<ArrangementAssessment, "zones">,
  fields?: readonly PlaneField[],
): Surround {
  const walls = surfaceMean(scene, result, "illuminance", (part) => part.startsWith("wall"));
  const ceiling = surfaceMean(scene, result, "illuminance", (part) => part === "ceiling");
  const dim = zones.flatMap((task) => {
    const target = task.checks.find(({ quantity }) => quantity === "illuminance")?.target;
    const own = zoneOf(scene, task.name);
    if (target === undefined || own === undefined) return [];
    const least = surroundIlluminance(target);
    return zones
      .filter((other) => other !== task && other.statistics.average < least)
      .filter(({ name }) => {
        const near = zoneOf(scene, name);
        return near !== undefined && apart(own, near) <= BAND;
      })
      .map((other) => ({
        zone: other.name,
        beside: task.name,
        asked: least,
        found: other.statistics.average,
      }));
  });
  const readings = fields === undefined ? undefined : readingsOf(scene, fields);
  return {
    ...(walls === undefined ? {} : { walls }),
    ...(ceiling === undefined ? {} : { ceiling }),
    dim,
    ...(readings === undefined ? {} : { readings }),
  };
}

/** A zone of the top; planes elsewhere are tasks of their own, whose surround is not the top. */
function zoneOf({ zones }: Pick<Scene, "zones">, name: string): Zone | undefined {
  return zones.find((zone) => zone.name === name);
}

/** Between two outlines (m); corners of the one against sides of the other, which is exact unless they cross. */
function apart({ outline: a }: Zone, { outline: b }: Zone): number {
  return Math.min(...a.map((p) => -depthInside(p, b)), ...b.map((p) => -depthInside(p, a)));
}

function readingsOf(scene: Scene, fields: readonly PlaneField[]): SurroundReading[] {
  return surroundPlanes(scene).map(({ kind, of, plane: { weights } }, i): SurroundReading => {
    const light = totalOf(maintainedLayers(scene, fields[i]), weights.length);
    const { average, minimum, maximum, points } = statistics(light, weights);
    return { kind, of, average, minimum, maximum, points };
  });
}
