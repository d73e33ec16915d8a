/** A calculation as it is told: fields, patches, energy balance, and by what method with what bounds. */

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
  const near =
    tooNear === 0
      ? ""
      : `; ${tooNear === 1 ? "one point lies" : `${tooNear} points lie`} too near an opening for the bound to hold`;
  // Beams so narrow that patches miss them, and luminaires in solids or through walls, leave light unaccounted for.
  const lost = light === undefined ? 0 : Math.abs(light.balance.imbalance);
  const unbalanced =
    lost <= quality.interreflectionBound
      ? ""
      : `; ${(100 * lost).toFixed(lost < 0.1 ? 1 : 0)} % of the light is unaccounted for, so interreflected light is not within its bound`;
  if (light === undefined) {
    return {
      planes,
      method: {
        ...method,
        description:
          "direct light from luminous openings by weighted nodes" +
          (tooMany ? "; without interreflected light: more surfaces than it is calculated for" : "") +
          near,
        patches: 0,
        residual: 0,
      },
    };
  }
  return {
    planes: planes.map((field, index) => ({
      ...field,
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
      description:
        "direct light from luminous openings by weighted nodes; interreflected light by radiosity between graded" +
        " patches and final gather" +
        near +
        unbalanced,
      patches: light.patches.count,
      residual: light.residual,
      interreflectionBound: quality.interreflectionBound,
      gatherSpacing: quality.gatherSpacing,
      interpolationError: light.planes.reduce((worst, { interpolationError: e }) => Math.max(worst, e), 0),
      bodyExchangeDifference: light.bodyExchangeDifference,
    },
  };
}
