/** What of a scene is calculated to be drawn. */

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
