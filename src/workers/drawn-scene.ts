/** What of a scene is calculated to be drawn, and what of it crosses to the page. */

import type { Luminaire } from "../luminaire/luminaire.ts";
import { fineGrid } from "../scene/calculation-grid.ts";
import type { Scene } from "../scene/scene.ts";

/** Cells of the grid the light is drawn on (m). */
const DRAWN_CELL = 0.05;

/** The scene with a finer grid of the whole top beside the one that is judged, for isolux lines; and while the
 * hand moves, without the planes nobody looks at. */
export function forDrawing(scene: Scene, topAlone: boolean): Scene {
  const { island } = scene;
  const atTop = (plane: Scene["planes"][number]): boolean =>
    plane.grid !== undefined &&
    plane.quantity === "planar" &&
    plane.normal[2] > 0.99 &&
    island !== undefined &&
    Math.abs(plane.grid.corner[2] - island.height) < 0.02;
  const kept = topAlone
    ? scene.planes.filter((plane) => plane.zone !== undefined || atTop(plane))
    : scene.planes;
  const top = kept.find((plane) => plane.zone === undefined && atTop(plane)) ?? kept.find(atTop);
  const fine = top === undefined ? undefined : fineGrid(top, DRAWN_CELL);
  if (fine === undefined) return { ...scene, planes: kept };
  const { zone: _zone, ...plane } = fine;
  return { ...scene, planes: [...kept, { ...plane, name: `${plane.name}, fine` }] };
}

const crossing = new WeakMap<Luminaire, Luminaire>();

/** Traced shades carry functions, which cannot cross between threads and which no drawing needs. One copy a
 * luminaire, so that all its places still share it. */
export function withoutFunctions(scene: Scene): Scene {
  const layers = scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => {
      let luminaire = crossing.get(placed.luminaire);
      if (luminaire === undefined) {
        const { emission } = placed.luminaire;
        const { opening } = emission;
        const plain = emission.kind === "opening" ? emission : { kind: "opening" as const, opening };
        luminaire = { ...placed.luminaire, emission: plain };
        for (const [key, value] of Object.entries(luminaire)) {
          if (holdsFunction(value)) delete (luminaire as unknown as Record<string, unknown>)[key];
        }
        crossing.set(placed.luminaire, luminaire);
      }
      return { ...placed, luminaire };
    }),
  }));
  return { ...scene, layers };
}

function holdsFunction(value: unknown): boolean {
  if (typeof value === "function") return true;
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return false;
  return Object.values(value).some(holdsFunction);
}
