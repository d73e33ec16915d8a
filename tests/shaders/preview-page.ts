/** The preview of the worked example: `?arrangement=1&other=2&look=lux&mode=evening`; `light=no` without its interreflected light. */
import { PerspectiveCamera } from "three";
import { LightEngine } from "../../src/engine/light-engine.ts";
import "../../src/preview/preview.ts";
import { SKETCHED_LIGHT, surfaceLight } from "../../src/engine/surfaces/surface-light.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { sceneGlb } from "../../src/preview/export-glb.ts";
import type { Look } from "../../src/preview/kitchen-view.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { boathouseStudy } from "../support/boathouse-light.ts";

const query = new URLSearchParams(location.search);
document.documentElement.dataset.mode = query.get("mode") ?? "day";
const people = query.get("people") !== "no";
const study = await boathouseStudy("/fixtures-data/boathouse/", JSON.parse(query.get("edits") ?? "{}"));
const engine = new LightEngine();

function sideOf(index: number) {
  const scene: Scene = study.scenes[index];
  if (query.get("light") === "no") return { scene };
  const surfaces = surfaceLight(scene, (...asked) => engine.calculate(...asked), {
    ...SKETCHED_LIGHT,
    calculation: { people },
  });
  return { scene, surfaces };
}

const element = document.createElement("candlespan-preview");
const other = query.get("other");
Object.assign(element, {
  side: sideOf(Number(query.get("arrangement") ?? 0)),
  ...(other === null ? {} : { other: sideOf(Number(other)) }),
  people,
  look: query.get("look") ?? "appearance",
  viewpoint: query.get("viewpoint") ?? "entrance",
  unit: query.get("unit") ?? "lx",
  date: "2026-01-15",
  inputs: "pendants: measured, ambient: measured",
});
const fallback = document.createElement("p");
fallback.slot = "fallback";
fallback.textContent = "The plan stands here.";
element.append(fallback);
document.querySelector("#stage")?.append(element);

async function still(): Promise<void> {
  while (!element.still) await new Promise((done) => requestAnimationFrame(done));
}

async function glb(index = 0): Promise<number[]> {
  return [...(await sceneGlb(study.scenes[index]))];
}

/** The first side from an eye (m) at a stated exposure, row by row from below: red of each pixel, 0…255. */
function drawnFrom(eye: Vec3, target: Vec3, look: Look = "appearance"): { width: number; red: number[] } {
  const { renderer, views } = element;
  if (renderer === undefined) throw new Error("no picture");
  const gl = renderer.getContext();
  const { drawingBufferWidth: width, drawingBufferHeight: height } = gl;
  const camera = new PerspectiveCamera(50, width / height, 0.05, 80);
  camera.up.set(0, 0, 1);
  camera.position.set(...eye);
  camera.lookAt(...target);
  const exposure = { mean: 5, white: 60, ev100: 5 };
  views[0].draw(camera, { look, unit: "lx", exposure, labels: false, moving: false });
  const pixels = new Uint8Array(4 * width * height);
  gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
  return { width, red: Array.from({ length: width * height }, (_, i) => pixels[4 * i]) };
}

Object.assign(globalThis, { element, study, sideOf, still, glb, drawnFrom });
document.documentElement.dataset.ready = "true";
