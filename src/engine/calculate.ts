/**
 * The one public calculation: the light of every layer at every point of every plane of a scene.
 */

import type { Observer } from "../diagnostics/cancelled.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { Scene } from "../scene/scene.ts";
import { LightEngine } from "./light-engine.ts";
import type { CalculationResult } from "./result.ts";

/** Calculates the light of every layer at every point of every plane of a scene. */
export type Calculate = (
  scene: Scene,
  options?: Partial<CalculationOptions>,
  observer?: Observer,
) => CalculationResult;

/** Illuminance (lx) of every layer at every point of every plane, direct and interreflected apart, at full
 * output and initial. Throws only `Cancelled`, when the observer asks for it. Who calculates again and again
 * keeps a {@link LightEngine}, which remembers what a change does not touch. */
export const calculate: Calculate = (scene, options, observer) =>
  new LightEngine().calculate(scene, options, observer);
