/** The engine's answers for a random kitchen beside the trace's, zone by zone and point by point. */
import { LightEngine } from "../../../src/engine/light-engine.ts";
import type { PlaneField } from "../../../src/engine/result.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { POINT_BOUND, ZONE_BOUND } from "../../evidence/accuracy-cases.ts";
import { type Estimate, PathTracer } from "./path-tracer.ts";
import { type Family, type RandomKitchen, randomKitchen } from "./random-kitchen.ts";
import { TracedScene } from "./traced-scene.ts";

export interface Effort {
  /** Paths a zone, spread over its points. */
  readonly zonePaths: number;
  /** Points a zone that are looked at by themselves, and paths for each. */
  readonly points: number;
  readonly pointPaths: number;
  /** Points drawn on each opening, at a point. */
  readonly directSamples: number;
}

export const USUAL_EFFORT: Effort = {
  zonePaths: 260_000,
  points: 5,
  pointPaths: 40_000,
  directSamples: 2304,
};
export const SMALL_EFFORT: Effort = { zonePaths: 30_000, points: 3, pointPaths: 24_000, directSamples: 1024 };

/** One figure of both: lx, and the engine's deviation relative to the trace. */
export interface Comparison {
  readonly what: string;
  readonly trace: Estimate;
  readonly engine: number;
  readonly deviation: number;
  /** Within the bound and two standard errors. */
  readonly within: boolean;
}

export interface ZoneComparison {
  readonly zone: string;
  readonly interreflected: Comparison;
  readonly direct: Comparison;
  /** Total light at single points. */
  readonly points: readonly Comparison[];
  /** Direct light at the same points, relative to the total. */
  readonly pointDirect: readonly Comparison[];
}

export interface KitchenComparison {
  readonly kitchen: string;
  readonly description: string;
  readonly zones: readonly ZoneComparison[];
  readonly engineSeconds: number;
  readonly traceSeconds: number;
  readonly segments: number;
  readonly shadowRays: number;
  readonly hitsWithoutSurface: number;
  /** What the engine itself says of its interreflected light. */
  readonly statedBound: number | undefined;
  readonly imbalance: number | undefined;
}

function compared(
  what: string,
  trace: Estimate,
  engine: number,
  bound: number,
  whole = trace.mean,
): Comparison {
  const difference = engine - trace.mean;
  return {
    what,
    trace,
    engine,
    deviation: difference / whole,
    within: Math.abs(difference) <= bound * whole + 2 * trace.error,
  };
}

export function compareKitchen(
  family: Family,
  seed: number,
  index: number,
  effort: Effort,
): KitchenComparison {
  return compareScene(randomKitchen(family, seed, index), 1000 * seed + index, effort);
}

/** Any scene beside its trace. */
export function compareScene(
  { scene, options, name, description }: Pick<RandomKitchen, "scene" | "options" | "name" | "description">,
  seed: number,
  effort: Effort,
): KitchenComparison {
  const started = performance.now();
  const { planes, method, balance } = new LightEngine().calculate(scene, options);
  const calculated = performance.now();
  const traced = new TracedScene(scene, { people: options.people });
  const tracer = new PathTracer(traced, seed);
  const zones = planes.map((field) => compareZone(scene, field, tracer, effort));
  return {
    kitchen: name,
    description,
    zones,
    engineSeconds: (calculated - started) / 1000,
    traceSeconds: (performance.now() - calculated) / 1000,
    segments: tracer.segments,
    shadowRays: tracer.shadowRays,
    hitsWithoutSurface: traced.hitsWithoutSurface,
    statedBound: method.interreflectionBound,
    imbalance: balance?.imbalance,
  };
}

function compareZone(scene: Scene, field: PlaneField, tracer: PathTracer, effort: Effort): ZoneComparison {
  const plane = scene.planes.find(({ name }) => name === field.plane) as Scene["planes"][number];
  const { points, weights, normal } = plane;
  const n = weights.length;
  const direct = new Float64Array(n);
  const interreflected = new Float64Array(n);
  for (const layer of field.layers)
    for (let i = 0; i < n; i++) {
      direct[i] += layer.direct[i];
      interreflected[i] += layer.interreflected[i];
    }
  const mean = tracer.meanLight(points, weights, normal, n * effort.directSamples, effort.zonePaths);
  const weighted = (values: Float64Array) =>
    values.reduce((sum, value, i) => sum + value * weights[i], 0) / weights.reduce((a, b) => a + b, 0);
  const count = Math.min(effort.points, n);
  const chosen = Array.from({ length: count }, (_, k) => Math.floor(((k + 0.5) * n) / count));
  const single = chosen.map((i) => {
    const light = tracer.pointLight(
      points.subarray(3 * i, 3 * i + 3),
      normal,
      4 * effort.directSamples,
      effort.pointPaths,
    );
    const where = `(${[...points.subarray(3 * i, 3 * i + 3)].map((c) => c.toFixed(2)).join(", ")})`;
    return {
      total: compared(where, light.total, direct[i] + interreflected[i], POINT_BOUND),
      direct: compared(where, light.direct, direct[i], POINT_BOUND, light.total.mean),
    };
  });
  return {
    zone: plane.zone ?? plane.name,
    interreflected: compared("interreflected", mean.interreflected, weighted(interreflected), ZONE_BOUND),
    direct: compared("direct", mean.direct, weighted(direct), POINT_BOUND, mean.total.mean),
    points: single.map(({ total }) => total),
    pointDirect: single.map((point) => point.direct),
  };
}

export interface Summary {
  readonly zones: number;
  readonly zonesWithin: number;
  readonly worstZone: number;
  readonly points: number;
  readonly pointsWithin: number;
  readonly worstPoint: number;
  readonly pointsDirectWithin: number;
  readonly worstPointDirect: number;
  readonly meanZoneDeviation: number;
}

export function summaryOf(kitchens: readonly KitchenComparison[]): Summary {
  const zones = kitchens.flatMap((kitchen) => kitchen.zones);
  const light = zones.map(({ interreflected }) => interreflected);
  const points = zones.flatMap((zone) => zone.points);
  const direct = zones.flatMap((zone) => zone.pointDirect);
  const worst = (all: readonly Comparison[]) =>
    all.reduce((most, { deviation }) => (Math.abs(deviation) > Math.abs(most) ? deviation : most), 0);
  const within = (all: readonly Comparison[]) => all.filter((c) => c.within).length;
  return {
    zones: light.length,
    zonesWithin: within(light),
    worstZone: worst(light),
    points: points.length,
    pointsWithin: within(points),
    worstPoint: worst(points),
    pointsDirectWithin: within(direct),
    worstPointDirect: worst(direct),
    meanZoneDeviation: light.reduce((sum, { deviation }) => sum + deviation, 0) / light.length,
  };
}

const percent = (value: number) => `${value >= 0 ? "+" : ""}${(100 * value).toFixed(2)} %`;

/** Lines of a table: one for each zone's interreflected light, one for each point out of bounds. */
export function table({ kitchen, description, zones, statedBound, imbalance }: KitchenComparison): string[] {
  const row = (zone: string, { what, trace, engine, deviation, within }: Comparison) =>
    `${kitchen.padEnd(10)} ${zone.padEnd(8)} ${what.padEnd(20)} ${trace.mean.toFixed(2).padStart(8)} ± ${trace.error.toFixed(2).padEnd(5)}` +
    ` ${engine.toFixed(2).padStart(8)} ${percent(deviation).padStart(9)}  ${within ? "in bound" : "OUT"}`;
  return [
    `${kitchen}: ${description}; states ${percent(statedBound ?? 0)}, imbalance ${percent(imbalance ?? 0)}`,
    ...zones.flatMap((z) => [
      row(z.zone, z.interreflected),
      ...z.points.filter(({ within }) => !within).map((p) => row(z.zone, p)),
      ...z.pointDirect
        .filter(({ within }) => !within)
        .map((p) => row(z.zone, { ...p, what: `direct ${p.what}` })),
    ]),
  ];
}

export function summaryText(family: string, s: Summary): string {
  const share = (part: number, whole: number) =>
    `${part} of ${whole} (${((100 * part) / whole).toFixed(1)} %)`;
  return [
    `${family}: zones with interreflected light within 2 % + 2 s.e.: ${share(s.zonesWithin, s.zones)}, worst ${percent(s.worstZone)}, mean ${percent(s.meanZoneDeviation)}`,
    `${family}: points with total light within 1 % + 2 s.e.: ${share(s.pointsWithin, s.points)}, worst ${percent(s.worstPoint)}`,
    `${family}: points with direct light within 1 % of the total + 2 s.e.: ${share(s.pointsDirectWithin, s.points)}, worst ${percent(s.worstPointDirect)}`,
  ].join("\n");
}
