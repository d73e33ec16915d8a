/** What a calculation answers: fields, patches, energy balance, and by what method with what bounds. */

import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";
import type { Interreflection } from "./interreflection/interreflection-stage.ts";
import type { Quality } from "./quality.ts";
import type { CalculationResult, PlaneField } from "./result.ts";

/** `light` is undefined where interreflected light was not asked for or not possible. */
export function assembledResult(
  scene: Scene,
  planes: PlaneField[],
  light: Interreflection | undefined,
  chosen: CalculationOptions,
  quality: Quality,
  nearFieldError: number,
  { tooMany, tooNear }: { readonly tooMany: boolean; readonly tooNear: number },
): CalculationResult {
  const method = {
    quality: chosen.quality,
    nearFieldError,
    ...(tooNear === 0 ? {} : { pointsTooNear: tooNear }),
    people: chosen.people,
    penumbraError: chosen.occlusion ? quality.penumbraError : undefined,
  };
  if (light === undefined) {
    const interreflection = tooMany ? "too many surfaces" : "none";
    return { planes, method: { ...method, interreflection, patches: 0, residual: 0 } };
  }
  const lost = Math.abs(light.balance.imbalance);
  const least = quality.leastInterreflectionBound;
  const bounds = light.planes.map(({ divisionDifference }) => least + divisionDifference / 2);
  const bound = Math.max(least, ...bounds);
  return {
    planes: planes.map((field, index) => ({
      ...field,
      interreflectionBound: bounds[index],
      layers: field.layers.map((layer, l) => ({
        ...layer,
        interreflected: light.planes[index].layers[l].slice(),
      })),
    })),
    balance: light.balance,
    patches: {
      surface: light.patches.surface.slice(),
      centre: light.patches.centre.slice(),
      area: light.patches.area.slice(),
      layers: scene.layers.map(({ name }, l) => ({
        layer: name,
        illuminance: light.illuminance[l].slice(),
        exitance: light.exitance[l].slice(),
      })),
    },
    method: {
      ...method,
      interreflection: "calculated",
      ...(lost <= bound ? {} : { unaccounted: lost }),
      patches: light.patches.count,
      residual: light.residual,
      interreflectionBound: bound,
      gatherSpacing: quality.gatherSpacing,
      interpolationError: light.planes.reduce((worst, { interpolationError: e }) => Math.max(worst, e), 0),
    },
  };
}
