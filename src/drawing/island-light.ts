/** The light on the whole top as it is drawn on a plan: bands, isolux lines and hatching in the page's units. */

import { rectangle } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import { gridMetres, gridToRoom } from "../scene/grid-metres.ts";
import type { Scene } from "../scene/scene.ts";
import type { Target } from "../scene/target.ts";
import type { Mark } from "./drawing.ts";
import { islandAxes } from "./island-axes.ts";
import { type PlanLight, type PlanLightInput, planLight } from "./plan-light.ts";
import type { PlanFrame } from "./plan-page.ts";
import type { SheetScale } from "./sheet-scale.ts";

/** What else is drawn, and where the plan lies on the page. */
export interface IslandLightInput extends Omit<PlanLightInput, "outline" | "targets" | "place"> {
  readonly grid: PlaneGrid;
  readonly scale: SheetScale;
  readonly frame: PlanFrame;
}

export function islandLight(
  { targets }: { readonly targets: ReadonlyMap<string, Target> },
  scene: Scene,
  { grid, scale, frame, ...rest }: IslandLightInput,
): PlanLight {
  const axes = islandAxes(scene);
  const toGrid = gridMetres(grid);
  const onGrid = (point: Vec2): Vec2 => toGrid(axes.toRoom(point));
  return planLight({
    ...rest,
    outline: outlineOf(scene, grid, onGrid),
    targets: targetAreas(targets, scene).map(({ outline, level }) => ({
      outline: outline.map(onGrid),
      level,
    })),
    place: gridToPage(scene, grid, scale, frame),
  });
}

/** From a grid's own sides through room and island to the page; an affine map, taken from three points. */
export function gridToPage(
  scene: Scene,
  grid: PlaneGrid,
  scale: SheetScale,
  frame: PlanFrame,
): (point: Vec2) => Vec2 {
  const axes = islandAxes(scene);
  const toRoom = gridToRoom(grid);
  const page = (point: Vec2): Vec2 => {
    const [x, y] = toRoom(point);
    const [along, across] = axes.toIsland([x, y]);
    return [scale.x(along), frame.y(across)];
  };
  const [o, pu, pv] = [page([0, 0]), page([1, 0]), page([0, 1])];
  const [ux, uy, vx, vy] = [pu[0] - o[0], pu[1] - o[1], pv[0] - o[0], pv[1] - o[1]];
  return ([s, t]) => [o[0] + s * ux + t * vx, o[1] + s * uy + t * vy];
}

/** What counts of the plane, in the grid's metres: the island's outline, else the whole grid. */
function outlineOf(scene: Scene, grid: PlaneGrid, onGrid: (point: Vec2) => Vec2): readonly Vec2[] {
  if (grid.region !== undefined && scene.island !== undefined) return scene.island.outline.map(onGrid);
  return rectangle(0, 0, Math.hypot(...grid.u), Math.hypot(...grid.v));
}

/** Zones on the main top with a target for the average or least illuminance, in the island's axes. */
function targetAreas(
  targets: ReadonlyMap<string, Target>,
  scene: Scene,
): { readonly outline: readonly Vec2[]; readonly level: number }[] {
  return scene.zones.flatMap(({ outline, target, height }) => {
    const criteria = target === undefined ? undefined : targets.get(target);
    const light = criteria?.requirements.find((requirement) => requirement.quantity === "illuminance");
    // A basin's floor or a raised bar is another plane than the one drawn.
    const sameLevel = scene.island === undefined || Math.abs(height - scene.island.height) < 0.001;
    return light === undefined || !sameLevel ? [] : [{ outline, level: light.value }];
  });
}

/** The lines of marks, as what words keep clear of. */
export function lineObstacles(marks: readonly Mark[]): Vec2[][] {
  return marks.flatMap((mark) => {
    if (mark.kind !== "line") return [];
    return [mark.closed ? [...mark.points, mark.points[0]] : [...mark.points]];
  });
}
