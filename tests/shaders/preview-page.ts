/** The preview of the worked example: `?arrangement=1&other=2&look=lux&mode=evening`; `light=no` without its interreflected light. */
import { LightEngine } from "../../src/engine/light-engine.ts";
import "../../src/preview/preview.ts";
import { SKETCHED_LIGHT, surfaceLight } from "../../src/engine/surfaces/surface-light.ts";
import { sceneGlb } from "../../src/preview/export-glb.ts";
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

Object.assign(globalThis, { element, study, sideOf, still, glb });
document.documentElement.dataset.ready = "true";
