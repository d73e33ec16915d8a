/** Light as the preview reads it under the pointer, interreflected light from its fields, beside the engine's own. */
import type { WebGLRenderer } from "three";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { type FlatSurface, flatSurface } from "../../src/engine/surfaces/surface-lattice.ts";
import { SURFACE_LIGHT, surfaceLight } from "../../src/engine/surfaces/surface-light.ts";
import { Occluders } from "../../src/engine/visibility/occluders.ts";
import { boxOfPoints } from "../../src/geometry/box.ts";
import { dot, subtract, type Vec2, type Vec3 } from "../../src/geometry/vector.ts";
import { LightCache } from "../../src/preview/light-cache.ts";
import { readingOn } from "../../src/preview/surface-reading.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { pointsOnSurfaces } from "../support/points-on-surfaces.ts";
import { randomStream } from "../support/random-stream.ts";

/** How often the engine is asked for each point, in other company: its answers are the same. */
const ASKED = 2;
/** And this far from it on four sides (m), half the least distance of the field's nodes and more: near an edge its
 * answers step from patch to patch of the neighbouring surface, each of which it holds to be evenly bright. */
const BESIDE = 0.015;
/** Points stay this far from what stands on the surface (m), and surfaces' edges this far from points. */
const CLEAR = 0.05;
const EDGE = 0.004;
const HALF_A_PER_CENT = 0.005;
/** Readings this far from the engine's answer in the point (of its whole light) are held against those beside it too. */
const FAR = 0.0025;

export interface Shown {
  readonly points: number;
  /** Worst difference of interreflected light from the nearest of the engine's answers, of the engine's whole light. */
  readonly worst: number;
  /** Share of points where it is over half a per cent. */
  readonly over: number;
  /** Without its answers beside the point: worst, percentiles, the share of points over half a per cent. */
  readonly raw: number;
  readonly percentile99: number;
  readonly median: number;
  readonly rawOver: number;
  /** Largest difference among the engine's own answers, of its whole light. */
  readonly repeat: number;
  /** Worst by surface, largest first. */
  readonly bySurface: readonly (readonly [string, number])[];
  readonly worstAt: {
    readonly surface: string;
    readonly place: readonly number[];
    readonly shown: number;
    readonly engine: readonly number[];
    readonly whole: number;
  };
  /** Largest share of the whole light that is interreflected, and the least: that the test tests something. */
  readonly shares: readonly [number, number];
  readonly nodes: number;
  readonly milliseconds: number;
}

export function shownLight(renderer: WebGLRenderer, scene: Scene, people: boolean, count = 500): Shown {
  const engine = new LightEngine();
  let nodes = 0;
  const start = performance.now();
  const surfaces = surfaceLight(
    scene,
    (asked, ...rest) => {
      for (const { points } of asked.planes) nodes += points.length / 3;
      return engine.calculate(asked, ...rest);
    },
    { ...SURFACE_LIGHT, calculation: { people } },
  );
  const milliseconds = performance.now() - start;
  const cache = new LightCache(renderer);
  cache.take({ scene, surfaces, people });
  cache.finish();
  const sets = pointsAway(scene, count, people);
  const weights = scene.layers.map(({ dim }) => dim * scene.maintenance);
  const flats = scene.surfaces.map(flatSurface);
  const lightOf = (of: typeof sets, turn: number, beside: Vec2) => {
    const planes = of.map(({ surface, points }) => ({
      name: `${surface}`,
      role: "probe" as const,
      quantity: "planar" as const,
      points: turned(moved(points, flats[surface], beside), turn),
      normal: scene.surfaces[surface].normal,
      weights: new Float64Array(points.length / 3).fill(1),
    }));
    const found = engine.calculate({ ...scene, planes }, { people, quality: "full" }).planes;
    return of.map(({ points }, s) => {
      const sum = (key: "direct" | "interreflected"): Float64Array =>
        turnedBack(
          Float64Array.from({ length: points.length / 3 }, (_, k) =>
            found[s].layers.reduce((all, layer, l) => all + weights[l] * layer[key][k], 0),
          ),
          turn,
        );
      return { direct: sum("direct"), interreflected: sum("interreflected") };
    });
  };
  // The same points from another place in the list.
  const answers = Array.from({ length: ASKED }, (_, turn) => lightOf(sets, turn, [0, 0]));
  const compared = sets.flatMap(({ surface, points }, s) =>
    Array.from({ length: points.length / 3 }, (_, k) => {
      const place = Array.from(points.subarray(3 * k, 3 * k + 3));
      const reading = readingOn(cache, scene, place as unknown as Vec3);
      if (reading === undefined) throw new Error(`no reading at ${place}`);
      const shown = reading.interreflected;
      const here = answers.map((answer) => answer[s].interreflected[k]);
      const whole = here[0] + answers[0][s].direct[k];
      return { surface, place, shown, here, whole, raw: Math.abs(shown - here[0]) / whole };
    }),
  );
  // The engine's range can only bring a reading nearer: where it is near already, what lies beside is not asked for.
  const far = compared.filter(({ raw }) => raw > FAR);
  const farSets = [...new Set(far.map(({ surface }) => surface))].map((surface) => {
    const places = far.filter((each) => each.surface === surface).flatMap(({ place }) => place);
    return { surface, points: Float64Array.from(places) };
  });
  const besides = (
    [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const
  ).map((beside) => lightOf(farSets, 0, beside).flatMap(({ interreflected }) => Array.from(interreflected)));
  const errors = compared.map((each) => {
    const { surface, place, shown, here, whole, raw } = each;
    const isFar = raw > FAR;
    const asked = [...here, ...(isFar ? besides.map((beside) => beside[far.indexOf(each)]) : [])];
    const [least, most] = [Math.min(...asked), Math.max(...asked)];
    return {
      surface: `${scene.surfaces[surface].name} ${surface}`,
      place,
      shown,
      asked,
      whole,
      share: whole > 0 ? here[0] / whole : 0,
      net: Math.max(0, shown - most, least - shown) / whole,
      raw,
      repeat: (Math.max(...here) - Math.min(...here)) / whole,
    };
  });
  cache.dispose();
  const [first] = [...errors].sort((a, b) => b.net - a.net);
  const raw = errors.map((each) => each.raw).sort((a, b) => a - b);
  const bySurface = new Map<string, number>();
  for (const { surface, net } of errors) bySurface.set(surface, Math.max(net, bySurface.get(surface) ?? 0));
  return {
    points: errors.length,
    worst: first.net,
    over: errors.filter(({ net }) => net > HALF_A_PER_CENT).length / errors.length,
    rawOver: raw.filter((each) => each > HALF_A_PER_CENT).length / raw.length,
    raw: raw[raw.length - 1],
    percentile99: raw[Math.floor(0.99 * raw.length)],
    median: raw[raw.length >> 1],
    repeat: Math.max(...errors.map(({ repeat }) => repeat)),
    bySurface: [...bySurface].sort((a, b) => b[1] - a[1]),
    worstAt: {
      surface: first.surface,
      place: first.place,
      shown: first.shown,
      engine: first.asked,
      whole: first.whole,
    },
    shares: [Math.min(...errors.map(({ share }) => share)), Math.max(...errors.map(({ share }) => share))],
    nodes,
    milliseconds,
  };
}

/** Points on all surfaces but under what stands on them, which is nobody's picture. */
function pointsAway(scene: Scene, count: number, people: boolean) {
  const blockers = scene.blockers.filter(({ kind }) => kind !== "person" || people);
  const standing = new Occluders(blockers);
  const every = [...blockers.keys()];
  // People are boxes of eight corners each.
  const boxes = blockers
    .filter(({ kind }) => kind === "person")
    .flatMap(({ mesh: { positions } }) =>
      Array.from({ length: positions.length / 24 }, (_, i) =>
        boxOfPoints(positions.subarray(24 * i, 24 * i + 24)),
      ),
    );
  const within = (p: Vec3): boolean =>
    boxes.some((box) => p.every((x, k) => x > box[k] - 0.01 && x < box[k + 3] + 0.01));
  return pointsOnSurfaces(scene.surfaces, count, 5, randomStream(11)).map(({ surface, points }) => {
    const n = scene.surfaces[surface].normal;
    const kept: number[] = [];
    for (let k = 0; k < points.length; k += 3) {
      const p: Vec3 = [points[k], points[k + 1], points[k + 2]];
      const [from, to] = [1e-4, CLEAR].map((t) => p.map((x, c) => x + t * n[c]));
      const passed = standing.transmittance(from[0], from[1], from[2], to[0], to[1], to[2], every);
      if (passed === 1 && !within(p)) kept.push(...p);
    }
    return { surface, points: Float64Array.from(kept) };
  });
}

/** Points moved along their surface, no nearer to its bounds than {@link EDGE}. */
function moved(
  points: Float64Array,
  { origin, u, v, length, width }: FlatSurface,
  [du, dv]: Vec2,
): Float64Array {
  if (du === 0 && dv === 0) return points;
  const out = points.slice();
  for (let k = 0; k < points.length; k += 3) {
    const d = subtract([points[k], points[k + 1], points[k + 2]], origin);
    const x = Math.min(length - EDGE, Math.max(EDGE, dot(d, u) + BESIDE * du)) - dot(d, u);
    const y = Math.min(width - EDGE, Math.max(EDGE, dot(d, v) + BESIDE * dv)) - dot(d, v);
    for (let c = 0; c < 3; c++) out[k + c] += x * u[c] + y * v[c];
  }
  return out;
}

function turned(points: Float64Array, turn: number): Float64Array {
  const by = 3 * turn;
  return Float64Array.from(points, (_, i) => points[(i + by) % points.length]);
}

function turnedBack(values: Float64Array, turn: number): Float64Array {
  return Float64Array.from(values, (_, i) => values[(i - turn + turn * values.length) % values.length]);
}
