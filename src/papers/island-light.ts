/** The light on the whole top as it is drawn on a plan: bands, isolux lines and hatching in the page's units. */

import type { IsoluxField } from "../app/contour-field.ts";
import { targetOf } from "../assessment/assess.ts";
import type { Box, Mark } from "../drawing/drawing.ts";
import { islandAxes } from "../drawing/island-axes.ts";
import { type PlanLight, planLight } from "../drawing/plan-light.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import { gridMetres, gridToRoom } from "../scene/grid-metres.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";

export interface IslandLightInput {
  readonly grid: PlaneGrid;
  readonly field: IsoluxField;
  readonly unit: IlluminanceUnit;
  /** From the island's axes (m) to the page. */
  page(point: Vec2): Vec2;
  /** Words already on the page. */
  readonly taken: readonly Box[];
  /** Marks whose lines words keep clear of. */
  readonly obstacles: readonly Mark[];
}

export function islandLight(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
  { grid, field, unit, page, taken, obstacles }: IslandLightInput,
): PlanLight {
  const axes = islandAxes(scene);
  const toGrid = gridMetres(grid);
  const toRoom = gridToRoom(grid);
  const onGrid = (point: Vec2): Vec2 => toGrid(axes.toRoom(point));
  return planLight({
    field,
    outline: outlineOf(scene, grid, onGrid),
    targets: targetAreas(study, scene).map(({ outline, level }) => ({ outline: outline.map(onGrid), level })),
    unit,
    place: (point) => {
      const [x, y] = toRoom(point);
      return page(axes.toIsland([x, y]));
    },
    taken,
    obstacles: lineObstacles(obstacles),
  });
}

/** What counts of the plane, in the grid's metres: the island's outline, else the whole grid. */
function outlineOf(scene: Scene, grid: PlaneGrid, onGrid: (point: Vec2) => Vec2): readonly Vec2[] {
  if (grid.region !== undefined && scene.island !== undefined) return scene.island.outline.map(onGrid);
  const [length, width] = [Math.hypot(...grid.u), Math.hypot(...grid.v)];
  return [
    [0, 0],
    [length, 0],
    [length, width],
    [0, width],
  ];
}

/** Zones on the main top with a target for the average or least illuminance, in the island's axes. */
function targetAreas(
  study: Pick<ResolvedStudy, "targets">,
  scene: Scene,
): { readonly outline: readonly Vec2[]; readonly level: number }[] {
  return scene.zones.flatMap(({ outline, target, height }) => {
    const criteria = target === undefined ? undefined : targetOf(study, target);
    const light = criteria?.requirements.find((requirement) => requirement.quantity === "illuminance");
    // A basin's floor or a raised bar is another plane than the one drawn.
    const sameLevel = scene.island === undefined || Math.abs(height - scene.island.height) < 0.001;
    return light === undefined || !sameLevel ? [] : [{ outline, level: light.value }];
  });
}

function lineObstacles(marks: readonly Mark[]): Vec2[][] {
  return marks.flatMap((mark) => {
    if (mark.kind !== "line") return [];
    return [mark.closed ? [...mark.points, mark.points[0]] : [...mark.points]];
  });
}
