/** The page of the preview's figures: the worked example at 1280 by 720, moved, rested, turned, and timed. */
import { LightEngine } from "../../src/engine/light-engine.ts";
import "../../src/presentation/preview/preview.ts";
import { PerspectiveCamera } from "three";
import { SURFACE_LIGHT, surfaceLight } from "../../src/presentation/surface-light.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { boathouseStudy } from "../support/boathouse-light.ts";

const FOLDER = "/fixtures-data/boathouse/";
const people = new URLSearchParams(location.search).get("people") !== "no";
const engine = new LightEngine();
const clearances = [0.85, 0.83, 0.81, 0.79, 0.77, 0.79, 0.81, 0.83];
const scenes: Scene[] = [];
for (const clearance of clearances) {
  const edits = { "/arrangements/0/layers/0/row/clearance": clearance };
  scenes.push((await boathouseStudy(FOLDER, edits)).scenes[0]);
}
const [scene] = scenes;
const surfaces = surfaceLight(scene, (...asked) => engine.calculate(...asked), {
  ...SURFACE_LIGHT,
  calculation: { people },
});
const element = document.createElement("candlespan-preview");
Object.assign(element, { people, date: "2026-01-15" });
document.querySelector("#stage")?.append(element);
await element.updateComplete;

const frame = (): Promise<number> => new Promise((done) => requestAnimationFrame(done));

/** Waits for the graphics processor: one pixel read back. */
function finish(): void {
  const gl = element.renderer?.getContext();
  gl?.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
}

async function still(): Promise<void> {
  while (!element.still) await frame();
  await frame();
  finish();
}

const EXPOSURE = { mean: 5, white: 60, ev100: 5 };

/** A camera at the viewpoint's own eye, turned a little by `turn` (rad). */
function cameraAt(turn: number): PerspectiveCamera {
  const camera = new PerspectiveCamera(50, 16 / 9, 0.05, 80);
  camera.up.set(0, 0, 1);
  const [x, y, z] = element.eye;
  camera.position.set(x, y, z);
  camera.lookAt(2.7 + 0.5 * Math.sin(turn), 1.9 + 0.5 * Math.cos(turn), 1.1);
  camera.updateMatrixWorld();
  return camera;
}

/** Best and median of a list (ms). */
function summed(times: readonly number[]): { best: number; median: number } {
  const sorted = [...times].sort((a, b) => a - b);
  return { best: sorted[0], median: sorted[sorted.length >> 1] };
}

async function turned(viewpoint: string, look: "appearance" | "lux", moving = true) {
  element.viewpoint = viewpoint;
  element.look = look;
  await element.updateComplete;
  await still();
  const times: number[] = [];
  for (let i = 0; i < 12; i++) {
    const start = performance.now();
    element.views[0].draw(cameraAt(0.1 * i), {
      look,
      unit: "lx",
      exposure: EXPOSURE,
      labels: false,
      moving,
    } as never);
    finish();
    times.push(performance.now() - start);
  }
  return summed(times.slice(2));
}

Object.assign(globalThis, {
  element,
  scenes,
  surfaces,
  turned,
  still,
  finish,
  frame,
  cameraAt,
  summed,
  EXPOSURE,
});
document.documentElement.dataset.ready = "true";
