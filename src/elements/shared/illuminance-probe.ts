/** Light anywhere on the top, in total and by role of layer. */
import { type IsoluxField, isoluxField, onGrid, readIsolux } from "../../app/isolux-field.ts";
import type { ArrangementAssessment, PlaneAssessment } from "../../assessment/assessment.ts";
import { type IslandAxes, islandAxes } from "../../drawing/island-axes.ts";
import { type LayeredLight, ofRole, roleName } from "../../drawing/profile.ts";
import type { CalculationPlane, PlaneGrid } from "../../scene/calculation-plane.ts";
import { gridMetres } from "../../scene/grid-metres.ts";
import type { LayerRole, Scene } from "../../scene/scene.ts";
import { topPlane } from "../../scene/top-plane.ts";
import type { LightReading } from "./contract.ts";

export interface TopLight {
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

/** The light of the whole top in its finest values; undefined without a grid over it, or while the light in hand belongs to another
 * scene's points. */
export function topLight(scene: Scene, assessment: ArrangementAssessment): TopLight | undefined {
  const plane = scene.planes[topPlane(scene)];
  const light = judgedTop(scene, assessment);
  if (plane?.grid === undefined || light === undefined || !isWhole(scene, plane.zone, plane.grid))
    return undefined;
  if (light.illuminance.length * 3 !== plane.points.length) return undefined;
  return finest(plane, plane.grid, light);
}

/** The whole top as it is judged: the figures are of its grid. */
export function judgedTop(scene: Scene, assessment: ArrangementAssessment): PlaneAssessment | undefined {
  const plane = scene.planes[topPlane(scene)];
  return assessment.planes.find((p) => p.name === plane?.name);
}

/** A zone's plane stands for the top only where the zone is all of it. */
function isWhole({ island }: Scene, zone: string | undefined, { u, v }: PlaneGrid): boolean {
  if (zone === undefined) return true;
  return island !== undefined && Math.hypot(...u) * Math.hypot(...v) > 0.98 * island.length * island.width;
}

function finest(plane: CalculationPlane, grid: PlaneGrid, light: PlaneAssessment): TopLight {
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
  readonly top: TopLight | undefined;
  readonly axes: IslandAxes;
  readonly #field: IsoluxField | undefined;
  readonly #parts = new Map<LayerRole, IsoluxField>();
  readonly #scene: Scene;
  readonly #assessment: ArrangementAssessment;

  constructor(scene: Scene, assessment: ArrangementAssessment) {
    this.#scene = scene;
    this.#assessment = assessment;
    this.axes = islandAxes(scene);
    this.top = topLight(scene, assessment);
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
      name: roleName(
        role,
        fine.layers.filter((layer) => layer.role === role),
      ),
      value: readIsolux(this.#part(role, this.top as TopLight), ...at),
    }));
    return { total: readIsolux(this.#field, ...at), parts };
  }

  #part(role: LayerRole, { grid, fine }: TopLight): IsoluxField {
    let field = this.#parts.get(role);
    if (field === undefined) {
      field = isoluxField(grid, ofRole(fine, role), fine.margin && ofRole(fine.margin, role));
      this.#parts.set(role, field);
    }
    return field;
  }
}
