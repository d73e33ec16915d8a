/**
 * What every calculation of light is asked: the light of every layer at every point of every plane of a scene.
 */

import type { Observer } from "../diagnostics/cancelled.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";
import type { CalculationResult } from "./result.ts";

/** Calculates the light of every layer at every point of every plane of a scene. */
export type Calculate = (
  scene: Scene,
  options?: Partial<CalculationOptions>,
  observer?: Observer,
) => CalculationResult;
