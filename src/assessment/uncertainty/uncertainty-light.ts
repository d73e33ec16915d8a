/** What uncertainties ask of the engine that calculated a scene, and of one whose memory their drafts may turn over. */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import type { DirectSources } from "../../engine/direct/direct-sources.ts";
import type { LightEngine } from "../../engine/light-engine.ts";
import type { CalculationOptions } from "../../scene/calculation-options.ts";
import type { Scene } from "../../scene/scene.ts";

export interface UncertaintyLight {
  /** By the engine for drafts, which should remember its form factors between calls. */
  readonly calculate: Calculate;
  /** As of `LightEngine`, with the options of the calculation. */
  reflectanceChanges(
    scene: Scene,
    groups: readonly ReadonlySet<number>[],
    weights: readonly number[],
    observer?: Observer,
  ): Float64Array[][];
  /** What the engines know of the luminaires, which need not be found again. */
  readonly sources: DirectSources;
}

/** @param options with which `engine` calculated */
export function uncertaintyLight(
  engine: LightEngine,
  options: Partial<CalculationOptions>,
  drafts: LightEngine,
): UncertaintyLight {
  return {
    calculate: (...asked) => drafts.calculate(...asked),
    reflectanceChanges: (scene, groups, weights, observer) =>
      engine.reflectanceChanges(scene, groups, weights, options, observer),
    sources: engine.sources,
  };
}
