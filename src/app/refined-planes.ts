/** Fine grids with the points on their very edge: what contours and fine figures are calculated on. */

import { type FineField, planesOfZones } from "../assessment/assess.ts";
import { maintainedLayers, totalOf } from "../assessment/layer-light.ts";
import type { PlaneField } from "../engine/result.ts";
import { dot, subtract, type Vec3 } from "../geometry/vector.ts";
import { FINE_CELL, fineGrid } from "../scene/calculation-grid.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";
import type { Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import { isoluxField } from "./isolux-field.ts";
import type { PlaneContour } from "./judged-arrangement.ts";
import { marginPlane } from "./margin-plane.ts";

/** Planes larger than this are rooms, not tops; contours and fine minima are for tops (m²). */
const LARGEST_FINE = 12;

export interface RefinedPlanes {
  /** In pairs: a fine grid, then its edge. */
  readonly planes: readonly CalculationPlane[];
  /** Fine grids by the name of the plane they refine. @param fields light on {@link planes}, in their order */
  fines(fields: readonly PlaneField[]): ReadonlyMap<string, FineField>;
  /** @param scene whose dimmers and maintenance weigh the light */
  contours(scene: Scene, fields: readonly PlaneField[]): readonly PlaneContour[];
}

/** The whole top and the planes on which a verdict rests, by their index: words and papers tell fine figures of these alone. */
export function finelyTold(scene: Scene): ReadonlySet<number> {
  return new Set([topPlane(scene), ...planesOfZones(scene).map(({ plane }) => plane)]);
}

/** Those that are finely told. With them whatever lies in the same level: what is gathered there stands for them too, and no figure
 * depends on how it is told. */
export function refinedForWords(scene: Scene): RefinedPlanes {
  const levels = [...finelyTold(scene)].flatMap((index) => scene.planes[index] ?? []);
  return refinedPlanes(scene.planes.filter((plane) => levels.some((level) => liesIn(plane, level))));
}

function liesIn({ points, normal }: CalculationPlane, level: CalculationPlane): boolean {
  const along = dot(normal, level.normal);
  const [a, b] = [points, level.points].map(([x, y, z]): Vec3 => [x, y, z]);
  return along > 1 - 1e-9 && Math.abs(dot(subtract(a, b), normal)) < 1e-6;
}

interface RefinedPlane {
  readonly of: string;
  readonly fine: CalculationPlane;
  readonly grid: PlaneGrid;
  readonly margin: CalculationPlane;
}

/** By the plane, which all arrangements of a kitchen share, and then by the cell. */
const REFINED = new WeakMap<CalculationPlane, Map<number, RefinedPlane | undefined>>();

/** @param cell largest side of a cell (m); the finest by default */
export function refinedPlanes(of: readonly CalculationPlane[], cell = FINE_CELL): RefinedPlanes {
  const refined = of.flatMap((plane) => {
    const cells = REFINED.get(plane) ?? new Map<number, RefinedPlane | undefined>();
    REFINED.set(plane, cells);
    if (!cells.has(cell)) cells.set(cell, refinedPlane(plane, cell));
    return cells.get(cell) ?? [];
  });
  return {
    planes: refined.flatMap(({ fine, margin }) => [fine, margin]),
    fines: (fields) =>
      new Map(
        refined.map(({ of: name, fine, margin }, i) => [
          name,
          { plane: fine, field: fields[2 * i], margin: { plane: margin, field: fields[2 * i + 1] } },
        ]),
      ),
    contours: (scene, fields) =>
      refined.map(({ of: plane, fine, grid, margin }, i) =>
        contour(plane, fine.points, grid, [
          maintained(scene, fine, fields[2 * i]),
          maintained(scene, margin, fields[2 * i + 1]),
        ]),
      ),
  };
}

function refinedPlane(plane: CalculationPlane, cell: number): RefinedPlane | undefined {
  const fine = area(plane) <= LARGEST_FINE ? fineGrid(plane, cell) : undefined;
  if (fine?.grid === undefined) return undefined;
  return { of: plane.name, fine, grid: fine.grid, margin: marginPlane({ ...fine, grid: fine.grid }) };
}

function contour(
  plane: string,
  points: Float64Array,
  grid: PlaneGrid,
  [inside, margin]: readonly [Float64Array, Float64Array],
): PlaneContour {
  return { plane, points, grid, field: isoluxField(grid, inside, margin) };
}

function maintained(scene: Scene, { points }: CalculationPlane, field: PlaneField): Float64Array {
  return totalOf(maintainedLayers(scene, field), points.length / 3);
}

function area({ weights }: CalculationPlane): number {
  let sum = 0;
  for (const weight of weights) sum += weight;
  return sum;
}
