/** The page of the preview's figures: the worked example moved, rested, turned, and timed. `?width=1280` makes its picture so wide,
 * `?people=yes` has its people stand in the light, `?turns=5` times so many pictures; without it all are drawn and none is timed. */
import "../../src/preview/preview.ts";
import { PerspectiveCamera, WebGLRenderer } from "three";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { SKETCHED_LIGHT, SURFACE_LIGHT, surfaceLight } from "../../src/engine/surfaces/surface-light.ts";
import { sumTarget } from "../../src/preview/float-texture.ts";
import { PointLight } from "../../src/preview/point-light.ts";
import { PointSet } from "../../src/preview/point-set.ts";
import { EXACT, type PreviewQuality, STILL } from "../../src/preview/preview-quality.ts";
import { sceneTexture } from "../../src/preview/scene-texture.ts";
import type { Blocker, Scene } from "../../src/scene/scene.ts";
import { boathouseStudy } from "../support/boathouse-light.ts";
import { luminaire, opening, placed, sampled } from "../support/luminaires.ts";
import { boxMesh } from "../support/solids.ts";

const FOLDER = "/fixtures-data/boathouse/";
const query = new URLSearchParams(location.search);
const people = query.get("people") === "yes";
/** Pictures timed from each viewpoint and in each look, after one that is not. */
const turns = Number(query.get("turns") ?? 0);
const stage = document.querySelector("#stage") as HTMLElement;
stage.style.width = `${query.get("width")}px`;
const frame = (): Promise<number> => new Promise((done) => requestAnimationFrame(done));

/** The worked example with its pendants at other heights: what a hand that moves them makes of it. */
async function heights(): Promise<Scene[]> {
  const scenes: Scene[] = [];
  for (const clearance of [0.85, 0.83, 0.81, 0.79, 0.77]) {
    const edits = { "/arrangements/0/layers/0/row/clearance": clearance };
    scenes.push((await boathouseStudy(FOLDER, edits)).scenes[0]);
  }
  return scenes;
}

/** Ascending (ms). */
const sorted = (times: readonly number[]): number[] => [...times].sort((a, b) => a - b);

export interface PreviewFigures {
  /** Points on surfaces that a still lights. */
  readonly nodes: number;
  /** New light and a picture of it, while a pendant moves. */
  readonly moving: readonly number[];
  /** From the scene given to the still drawn. */
  readonly still: readonly number[];
  /** A picture from another eye, by viewpoint and look; still pictures from there. */
  readonly turned: Readonly<Record<string, readonly number[]>>;
  readonly turnedAtRest: Readonly<Record<string, readonly number[]>>;
}

async function figures(): Promise<PreviewFigures> {
  const scenes = await heights();
  const engine = new LightEngine();
  const surfaces = surfaceLight(scenes[0], (...asked) => engine.calculate(...asked), {
    ...(turns > 0 ? SURFACE_LIGHT : SKETCHED_LIGHT),
    calculation: { people },
  });
  const element = document.createElement("candlespan-preview");
  Object.assign(element, { people, date: "2026-01-15", side: { scene: scenes[0], surfaces } });
  stage.append(element);
  await element.updateComplete;
  // One pixel read back waits for the graphics processor.
  const finish = (): void => {
    const gl = element.renderer?.getContext();
    gl?.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
  };
  const still = async (): Promise<void> => {
    while (!element.still) await frame();
    await frame();
    finish();
  };
  await still();
  const camera = new PerspectiveCamera(50, 16 / 9, 0.05, 80);
  camera.up.set(0, 0, 1);
  const look = (way: "appearance" | "lux", turn: number, moving: boolean): number => {
    const start = performance.now();
    camera.position.set(...element.eye);
    camera.lookAt(2.7 + 0.5 * Math.sin(turn), 1.9 + 0.5 * Math.cos(turn), 1.1);
    const exposure = { mean: 5, white: 60, ev100: 5 };
    element.views[0].draw(camera, { look: way, unit: "lx", exposure, labels: !moving, moving });
    finish();
    return performance.now() - start;
  };
  const turned: Record<string, number[]> = {};
  const turnedAtRest: Record<string, number[]> = {};
  for (const viewpoint of ["entrance", "cook", "guest", "sofa"])
    for (const way of ["appearance", "lux"] as const) {
      Object.assign(element, { viewpoint, look: way });
      await element.updateComplete;
      await still();
      const times = (moving: boolean): number[] =>
        sorted(Array.from({ length: 1 + turns }, (_, i) => look(way, 0.1 * i, moving)).slice(1));
      turned[`${viewpoint} ${way}`] = times(true);
      turnedAtRest[`${viewpoint} ${way}`] = times(false);
    }
  Object.assign(element, { viewpoint: "entrance", look: "appearance" });
  const restful: number[] = [];
  for (let i = 1; i <= Math.min(3, turns); i++) {
    const start = performance.now();
    element.side = { scene: scenes[i % scenes.length], surfaces };
    await element.updateComplete;
    await still();
    restful.push(performance.now() - start);
  }
  const nodes = element.views[0].cache.target?.atlas.cells.reduce(
    (sum, { lattice }) => sum + lattice.columns * lattice.rows,
    0,
  );
  const moving: number[] = [];
  for (let i = 0; i < 2 + 2 * turns; i++) {
    const start = performance.now();
    element.views[0].take({ scene: scenes[i % scenes.length], surfaces, people });
    moving.push(performance.now() - start + look("appearance", 0, true));
  }
  element.remove();
  return {
    nodes: nodes ?? 0,
    moving: sorted(moving.slice(2)),
    still: sorted(restful),
    turned,
    turnedAtRest,
  };
}

const disc = luminaire(
  sampled(([, , z]) => (z < 0 ? 700 * -z : 0), 15, 1, 90),
  opening("disc", 0.6),
);

/** ms for a megapixel of points on the floor under `count` discs of 0.6 m, a fineness each. */
async function megapixel(
  counts: readonly number[],
  finenesses: readonly PreviewQuality[],
): Promise<number[][]> {
  const { scenes } = await boathouseStudy(FOLDER);
  const [scene] = scenes;
  const floor = scene.surfaces.findIndex(({ part }) => part === "floor");
  const renderer = new WebGLRenderer();
  const light = new PointLight(renderer);
  const size = 1024;
  const places = new Float32Array(4 * size * size);
  const facings = new Float32Array(4 * size * size);
  for (let t = 0; t < size * size; t++) {
    places.set([(5.4 * (t % size)) / size, (4.2 * Math.floor(t / size)) / size, 0, floor], 4 * t);
    facings[4 * t + 2] = 1;
  }
  const target = sumTarget(renderer, size, size);
  const one = new Float32Array(4);
  const results = counts.map((count) => {
    const luminaires = Array.from({ length: count }, (_, i) => placed(disc, [0.4 + 0.4 * i, 1.9, 1.2]));
    const records = sceneTexture(
      { ...scene, layers: [{ ...scene.layers[0], luminaires }], blockers: [] },
      { people: false },
    );
    light.read(records);
    const regions = [{ x: 0, y: 0, width: size, height: size, row: floor }];
    const points = new PointSet({ width: size, height: size, places, facings, regions }, records);
    const times = finenesses.map((fineness) => {
      const once = (): number => {
        const start = performance.now();
        light.light(points, target, fineness);
        renderer.readRenderTargetPixels(target, 0, 0, 1, 1, one);
        return performance.now() - start;
      };
      return Math.min(once(), once(), once());
    });
    points.dispose();
    return times;
  });
  target.dispose();
  light.dispose();
  renderer.dispose();
  return results;
}

/** What one luminaire, one element and one solid cost a megapixel (ms). */
async function costs() {
  // A disc of n nodes a side has 4, 7 and 39 elements for n of 1, 2 and 4 (shaders/light/clear.glsl).
  const finenesses = [1, 2, 4].map((nodes): PreviewQuality => ({ ...STILL, nodes }));
  const [one, two, four] = await megapixel([1, 2, 4], finenesses);
  return {
    elements: [4, 7, 39],
    byLuminaires: { one, two, four },
    /** Slopes: from one to four luminaires with four elements each; from 4 to 39 elements of four luminaires. */
    luminaire: (four[0] - one[0]) / 3,
    element: (four[2] - four[0]) / (4 * 35),
  };
}

/** Share of a luminaire's light that comes through so many panes one under the other, each of which passes `share`. */
async function throughPanes(count: number, share: number): Promise<number> {
  const { scenes } = await boathouseStudy(FOLDER);
  const [scene] = scenes;
  const panes = Array.from({ length: count }, (_, i): Blocker => {
    const z = 0.3 + 0.05 * i;
    return {
      name: `pane ${i}`,
      kind: "body",
      mesh: boxMesh([0, 0, z], [5.4, 4.2, z + 0.01]),
      transmittance: share,
    };
  });
  const layers = [{ ...scene.layers[0], luminaires: [placed(disc, [2.7, 1.9, 2.4])] }];
  const floor = scene.surfaces.findIndex(({ part }) => part === "floor");
  const light = new PointLight(new WebGLRenderer());
  const [clear, through] = [[], panes].map((blockers) => {
    light.read(sceneTexture({ ...scene, layers, blockers }, { people: false }));
    return light.at(Float32Array.of(1, 0.6, 0), Float32Array.of(0, 0, 1), [floor], EXACT)[0];
  });
  light.dispose();
  return through / clear;
}

Object.assign(globalThis, { figures, costs, throughPanes });
document.documentElement.dataset.ready = "true";
