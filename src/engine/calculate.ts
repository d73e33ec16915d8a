/**
 * The one public calculation: the light of every layer at every point of every plane of a scene.
 */

import type { Observer } from "../diagnostics/cancelled.ts";
import { type CalculationOptions, DEFAULT_OPTIONS } from "../scene/calculation-options.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { Layer, Scene } from "../scene/scene.ts";
import { addDirectLight, addNearFieldBand, contributionFloor } from "./direct/direct-light.ts";
import type { CalculationResult, LayerField } from "./result.ts";

/** Calculates the light of every layer at every point of every plane of a scene. */
export type Calculate = (
  scene: Scene,
  options?: Partial<CalculationOptions>,
  observer?: Observer,
) => CalculationResult;

/** Illuminance (lx) of every layer at every point of every plane, direct and interreflected apart, at full
 * output and initial. Throws only `Cancelled`, when the observer asks for it. */
export const calculate: Calculate = (scene, options, observer) => {
  const chosen: CalculationOptions = { ...DEFAULT_OPTIONS, ...options };
  const planes = scene.planes.map((plane, index) => {
    observer?.progress?.("direct light", index / scene.planes.length);
    return { plane: plane.name, layers: directFields(plane, scene.layers, chosen, observer) };
  });
  observer?.progress?.("direct light", 1);
  return {
    planes,
    method: {
      quality: chosen.quality,
      description: "direct light from luminous openings by weighted nodes",
      nearFieldError: chosen.nearFieldError,
      patches: 0,
      residual: 0,
      people: chosen.people,
    },
  };
};

function directFields(
  plane: CalculationPlane,
  layers: readonly Layer[],
  { nearFieldError }: CalculationOptions,
  observer: Observer | undefined,
): LayerField[] {
  const count = plane.points.length / 3;
  const floor = contributionFloor(
    plane,
    layers.flatMap(({ luminaires }) => luminaires),
    nearFieldError,
  );
  return layers.map(({ name, luminaires }) => {
    const direct = new Float64Array(count);
    for (const placed of luminaires) addDirectLight(placed, plane, nearFieldError, floor, direct, observer);
    const field = { layer: name, direct, interreflected: new Float64Array(count) };
    const uncertain = luminaires.filter(
      ({ luminaire: { emission } }) => emission.kind === "opening" && emission.uncertain === true,
    );
    if (uncertain.length === 0) return field;
    const nearFieldBand = new Float64Array(count);
    for (const placed of uncertain) addNearFieldBand(placed, plane, nearFieldError, floor, nearFieldBand);
    return { ...field, nearFieldBand };
  });
}
