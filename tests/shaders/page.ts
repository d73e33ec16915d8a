/** The page of the shader tests: light computed by the shaders and by the engine, side by side. */
import { WebGLRenderer } from "three";
import type { Calculate } from "../../src/engine/calculate.ts";
import { DirectSources } from "../../src/engine/direct/direct-sources.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { type SurfaceLight, tracedLuminaires } from "../../src/engine/surfaces/surface-light.ts";
import { LightCache } from "../../src/preview/light-cache.ts";
import { PointLight } from "../../src/preview/point-light.ts";
import { EXACT } from "../../src/preview/preview-quality.ts";
import { sceneTexture } from "../../src/preview/scene-texture.ts";
import { readingOn } from "../../src/preview/surface-reading.ts";
import { plainLight } from "../support/plain-light.ts";
import { pointsOnSurfaces } from "../support/points-on-surfaces.ts";
import { randomStream } from "../support/random-stream.ts";
import { shownLight } from "./picture-light.ts";
import { sceneOf } from "./scenes.ts";

let renderer: WebGLRenderer | undefined;

function theRenderer(): WebGLRenderer {
  renderer ??= new WebGLRenderer();
  return renderer;
}

/** What luminaires send is found once for shaders and engine, as a study does; no light is remembered. */
const sources = new DirectSources();
const calculate: Calculate = (...asked) => new LightEngine(sources).calculate(...asked);

export interface Parity {
  readonly points: number;
  /** Seen or hidden whole: worst |GPU − engine| relative to the larger of the engine's value and 0.1 % of the most. */
  readonly whole: number;
  readonly wholePoints: number;
  /** Where an opening is partly hidden: worst difference from the engine, or from a plain sum over many samples where that is
   * nearer (the engine cuts solids out of facets, of each of which it takes the light to be even), relative to what the point
   * would have unshaded. */
  readonly penumbra: number;
  /** The same from the engine alone. */
  readonly penumbraOfEngine: number;
  readonly penumbraPoints: number;
  /** 99th percentile over all points of the error relative to the local value. */
  readonly percentile99: number;
  readonly worstAt: {
    readonly surface: string;
    readonly gpu: number;
    /** Undefined where it was not asked for. */
    readonly plain: number | undefined;
    readonly engine: number;
    readonly place: number[];
  };
  /** Points that nothing reaches, in both, and in one alone. */
  readonly dark: number;
  readonly darkInOne: number;
  readonly milliseconds: number;
}

/** Nearer to the engine than this (of the light there, a tenth of the bound), a point is not summed over samples too: the
 * sum can only bring it nearer. */
const NEAR = 0.0005;

async function parity(name: string, count = 500, people = true): Promise<Parity> {
  const scene = await sceneOf(name);
  const sets = pointsOnSurfaces(scene.surfaces, count, 5, randomStream(7));
  const planes = sets.map(({ surface, points }) => ({
    name: `${surface}`,
    role: "probe" as const,
    quantity: "planar" as const,
    points,
    normal: scene.surfaces[surface].normal,
    weights: new Float64Array(points.length / 3).fill(1),
  }));
  const options = { interreflection: false, people, nearFieldError: 0.0005 };
  const directOf = (occlusion: boolean): number[] =>
    calculate({ ...scene, planes }, { ...options, occlusion }).planes.flatMap(({ layers }) =>
      Array.from(layers[0].direct, (_, k) => layers.reduce((sum, { direct }) => sum + direct[k], 0)),
    );
  const cpu = directOf(true);
  const clear = directOf(false);
  const places: number[] = [];
  const normals: number[] = [];
  const rows: number[] = [];
  for (const { surface, points } of sets) {
    places.push(...points);
    for (let k = 0; k < points.length / 3; k++) {
      normals.push(...scene.surfaces[surface].normal);
      rows.push(surface);
    }
  }
  const light = new PointLight(theRenderer());
  light.read(sceneTexture(scene, { people, traced: tracedLuminaires(scene, sources) }));
  const start = performance.now();
  const slots = light.at(Float32Array.from(places), Float32Array.from(normals), rows, EXACT);
  const milliseconds = performance.now() - start;
  light.dispose();
  const most = Math.max(...cpu);
  const least = 1e-3 * most;
  const gpus = cpu.map((_, i) => slots[4 * i] + slots[4 * i + 1] + slots[4 * i + 2] + slots[4 * i + 3]);
  const sums = new Map<number, { readonly light: number; readonly partly: boolean }>();
  sets.forEach(({ surface }) => {
    const far = [...cpu.keys()].filter(
      (i) => rows[i] === surface && Math.abs(gpus[i] - cpu[i]) > NEAR * Math.max(cpu[i], least),
    );
    if (far.length === 0) return;
    const points = Float64Array.from(far.flatMap((i) => places.slice(3 * i, 3 * i + 3)));
    const known = plainLight(scene, points, scene.surfaces[surface].normal, people, 4096);
    far.forEach((i, k) => {
      sums.set(i, { light: known.light[k], partly: known.partly[k] });
    });
  });
  const errors = cpu.map((E, i) => {
    const gpu = gpus[i];
    const summed = sums.get(i);
    // The engine cuts out slivers that samples miss.
    const partly = summed?.partly || (E > 1e-9 * clear[i] && E < (1 - 1e-9) * clear[i]);
    const plain = partly ? summed?.light : undefined;
    const difference = Math.min(Math.abs(gpu - E), Math.abs(gpu - (plain ?? Number.POSITIVE_INFINITY)));
    return {
      local: difference / Math.max(E, least),
      judged: difference / Math.max(partly || E === 0 ? clear[i] : E, least),
      partly,
      gpu,
      plain,
      cpu: E,
      i,
    };
  });
  const byLocal = [...errors].sort((a, b) => b.local - a.local);
  const [first] = [...errors].sort((a, b) => b.judged - a.judged);
  const worst = (wanted: boolean): number =>
    errors.reduce((found, e) => (e.partly === wanted ? Math.max(found, e.judged) : found), 0);
  return {
    points: cpu.length,
    whole: worst(false),
    wholePoints: errors.filter((e) => !e.partly).length,
    penumbra: worst(true),
    penumbraOfEngine: errors.reduce(
      (most, e) => Math.max(most, e.partly ? Math.abs(e.gpu - e.cpu) / Math.max(clear[e.i], least) : 0),
      0,
    ),
    penumbraPoints: errors.filter((e) => e.partly).length,
    percentile99: byLocal[Math.floor(0.01 * byLocal.length)].local,
    worstAt: {
      surface: scene.surfaces[rows[first.i]].name,
      gpu: first.gpu,
      plain: first.plain,
      engine: first.cpu,
      place: places.slice(3 * first.i, 3 * first.i + 3),
    },
    dark: errors.filter((e) => e.gpu === 0 && e.cpu === 0).length,
    darkInOne: errors.filter((e) => (e.gpu === 0) !== (e.cpu === 0)).length,
    milliseconds,
  };
}

async function shown(name: string, people: boolean): Promise<unknown> {
  return shownLight(theRenderer(), await sceneOf(name), people);
}

/** Direct light read under the pointer from what a worker would have sent. */
async function crossed(name: string): Promise<{ readonly points: number; readonly direct: number }> {
  const scene = await sceneOf(name);
  const people = false;
  const surfaces: SurfaceLight = { interreflected: [], things: [], traced: tracedLuminaires(scene, sources) };
  const sent = structuredClone({ scene, surfaces });
  const cache = new LightCache(theRenderer());
  cache.take({ ...sent, people });
  const sets = pointsOnSurfaces(scene.surfaces, 200, 2, randomStream(19));
  const planes = sets.map(({ surface, points }) => ({
    name: `${surface}`,
    role: "probe" as const,
    quantity: "planar" as const,
    points,
    normal: scene.surfaces[surface].normal,
    weights: new Float64Array(points.length / 3).fill(1),
  }));
  const fields = calculate({ ...scene, planes }, { interreflection: false, people }).planes;
  const most = Math.max(
    ...fields.flatMap(({ layers }) => layers.flatMap(({ direct }) => Array.from(direct))),
  );
  let direct = 0;
  let count = 0;
  planes.forEach(({ points }, s) => {
    for (let k = 0; k < points.length; k += 3) {
      const E = fields[s].layers.reduce(
        (sum, layer, l) => sum + scene.layers[l].dim * scene.maintenance * layer.direct[k / 3],
        0,
      );
      const read = readingOn(cache, sent.scene, [points[k], points[k + 1], points[k + 2]]);
      if (read === undefined) throw new Error("no reading");
      count++;
      direct = Math.max(direct, Math.abs(read.direct - E) / Math.max(E, 0.01 * most));
    }
  });
  cache.dispose();
  return { points: count, direct };
}

Object.assign(globalThis, { parity, shown, crossed });
document.documentElement.dataset.ready = "true";
