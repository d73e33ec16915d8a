/** Light anywhere on the top, in total and by role of layer. */
import { type IsoluxField, isoluxField, onGrid, readIsolux } from "../../app/contour-field.ts";
import type { ArrangementAssessment, PlaneAssessment } from "../../assessment/assessment.ts";
import { gridMetres } from "../../drawing/grid-metres.ts";
import { type IslandAxes, islandAxes } from "../../drawing/island-axes.ts";
import { type LayeredLight, ofRole } from "../../drawing/profile.ts";
import type { CalculationPlane, PlaneGrid } from "../../scene/calculation-plane.ts";
import type { LayerRole, Scene } from "../../scene/scene.ts";
import type { LightReading } from "./contract.ts";

export interface TopPlane {
  readonly plane: CalculationPlane;
  readonly grid: PlaneGrid;
  /** Values on `grid`: the fine ones where they were calculated (lx). */
  readonly values: Float64Array;
  /** On the grid's margin, where it was calculated. */
  readonly margin?: Float64Array;
  readonly light: PlaneAssessment;
  /** Layers on `grid`. */
  readonly fine: LayeredLight;
}

/** The plane of the whole top: a planar grid of no zone, facing up at the island's height, with its finest
 * values. Undefined while the light in hand belongs to another scene's points. */
export function topPlane(scene: Scene, assessment: ArrangementAssessment): TopPlane | undefined {
  let best: TopPlane | undefined;
  for (const plane of scene.planes) {
    const { grid } = plane;
    if (grid === undefined || !isTop(scene, plane)) continue;
    const light = assessment.planes.find((p) => p.name === plane.name);
    if (light === undefined || light.illuminance.length * 3 !== plane.points.length) continue;
    const field = finest(plane, grid, light);
    if (best === undefined || field.values.length > best.values.length) best = field;
  }
  return best;
}

/** The whole top as it is judged: the first of its planes, whose grid the figures are of. */
export function judgedTop(scene: Scene, assessment: ArrangementAssessment): PlaneAssessment | undefined {
  const plane = scene.planes.find((p) => isTop(scene, p));
  return assessment.planes.find((p) => p.name === plane?.name);
}

function isTop(scene: Scene, plane: CalculationPlane): boolean {
  const { grid } = plane;
  if (grid === undefined || plane.quantity !== "planar" || plane.normal[2] < 0.5) return false;
  // A zone may be the whole top.
  if (plane.zone !== undefined && !coversTop(scene, grid)) return false;
  return scene.island === undefined || Math.abs(grid.corner[2] - scene.island.height) <= 0.02;
}

function coversTop({ island }: Scene, grid: PlaneGrid): boolean {
  if (island === undefined) return false;
  const area = Math.hypot(...grid.u) * Math.hypot(...grid.v);
  return area > 0.98 * island.length * island.width;
}

function finest(plane: CalculationPlane, grid: PlaneGrid, light: PlaneAssessment): TopPlane {
  const { fine } = light;
  if (fine?.grid !== undefined)
    return {
      plane,
      grid: fine.grid,
      values: fine.illuminance,
      margin: fine.margin?.illuminance,
      light,
      fine,
    };
  return { plane, grid, values: light.illuminance, light, fine: light };
}

export class IlluminanceProbe {
  readonly top: TopPlane | undefined;
  readonly axes: IslandAxes;
  readonly #field: IsoluxField | undefined;
  readonly #parts = new Map<LayerRole, IsoluxField>();
  readonly #scene: Scene;
  readonly #assessment: ArrangementAssessment;

  constructor(scene: Scene, assessment: ArrangementAssessment) {
    this.#scene = scene;
    this.#assessment = assessment;
    this.axes = islandAxes(scene);
    this.top = topPlane(scene, assessment);
    this.#field = this.top && isoluxField(this.top.grid, this.top.values, this.top.margin);
  }

  reads(scene: Scene, assessment: ArrangementAssessment): boolean {
    return scene === this.#scene && assessment === this.#assessment;
  }

  at(place: { readonly along: number; readonly across: number }): LightReading | undefined {
    if (this.top === undefined || this.#field === undefined) return undefined;
    const { grid, fine } = this.top;
    const at = gridMetres(grid)(this.axes.toRoom([place.along, place.across]));
    if (!onGrid(grid, ...at)) return undefined;
    const roles = [...new Set(fine.layers.map(({ role }) => role))];
    const parts = roles.map((role) => ({
      role,
      value: readIsolux(this.#part(role, this.top as TopPlane), ...at),
    }));
    return { total: readIsolux(this.#field, ...at), parts };
  }

  #part(role: LayerRole, { grid, fine }: TopPlane): IsoluxField {
    let field = this.#parts.get(role);
    if (field === undefined) {
      field = isoluxField(grid, ofRole(fine, role), fine.margin && ofRole(fine.margin, role));
      this.#parts.set(role, field);
    }
    return field;
  }
}
