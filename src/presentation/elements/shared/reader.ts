/** Light anywhere on the top, in total and by role of layer. */
import type { ArrangementAssessment, PlaneAssessment } from "../../../assessment/assessment.ts";
import type { CalculationPlane } from "../../../scene/calculation-plane.ts";
import type { LayerRole, Scene } from "../../../scene/scene.ts";
import { type FieldSampler, fieldSampler } from "../../drawing/field-sampler.ts";
import { type IslandAxes, islandAxes } from "../../drawing/island-axes.ts";
import type { LightReading } from "./contract.ts";

export interface TopPlane {
  readonly plane: CalculationPlane;
  readonly light: PlaneAssessment;
}

/** The plane that covers the top most finely: a planar grid of no zone, facing up at the island's height. */
export function topPlane(scene: Scene, assessment: ArrangementAssessment): TopPlane | undefined {
  let best: TopPlane | undefined;
  for (const plane of scene.planes) {
    if (plane.grid === undefined || plane.quantity !== "planar" || plane.normal[2] < 0.5) continue;
    if (plane.zone !== undefined) continue;
    if (scene.island !== undefined && Math.abs(plane.grid.corner[2] - scene.island.height) > 0.02) continue;
    const light = assessment.planes.find((p) => p.name === plane.name);
    // A scene that moved on has other points than the light still in hand.
    if (light === undefined || light.illuminance.length * 3 !== plane.points.length) continue;
    if (best === undefined || plane.grid.cells.length > (best.plane.grid?.cells.length ?? 0))
      best = { plane, light };
  }
  return best;
}

export class Reader {
  readonly top: TopPlane | undefined;
  readonly axes: IslandAxes;
  readonly #sampler: FieldSampler | undefined;
  readonly #scene: Scene;
  readonly #assessment: ArrangementAssessment;

  constructor(scene: Scene, assessment: ArrangementAssessment) {
    this.#scene = scene;
    this.#assessment = assessment;
    this.axes = islandAxes(scene);
    this.top = topPlane(scene, assessment);
    this.#sampler = this.top === undefined ? undefined : fieldSampler(this.top.plane);
  }

  reads(scene: Scene, assessment: ArrangementAssessment): boolean {
    return scene === this.#scene && assessment === this.#assessment;
  }

  at(place: { readonly along: number; readonly across: number }): LightReading | undefined {
    if (this.top === undefined || this.#sampler === undefined) return undefined;
    const [x, y] = this.axes.toRoom([place.along, place.across]);
    const total = this.#sampler.sample(this.top.light.illuminance, x, y);
    if (!Number.isFinite(total)) return undefined;
    const parts = new Map<LayerRole, number>();
    for (const layer of this.top.light.layers) {
      const value =
        this.#sampler.sample(layer.direct, x, y) + this.#sampler.sample(layer.interreflected, x, y);
      parts.set(layer.role, (parts.get(layer.role) ?? 0) + value);
    }
    return { total, parts: [...parts].map(([role, value]) => ({ role, value })) };
  }
}
