/**
 * The direct light of a scene as if nothing stood in the way: the first light of a page, before what is needed
 * for shadows and interreflection has been loaded.
 *
 * Known error: bodies and people cast no shadow and no surface reflects; see `light-engine.ts` for the answer.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { Scene } from "../../scene/scene.ts";
import type { CalculationResult } from "../result.ts";
import { addDirectLight, contributionFloor } from "./direct-light.ts";
import { OpeningSources } from "./opening-sources.ts";

/** Direct illuminance (lx) of every layer at every point of every plane, at full output and initial. `sources` know of shades where a
 * luminaire is from lamp and shade. */
export function unobstructedLight(
  scene: Scene,
  nearFieldError: number,
  observer?: Observer,
  sources: OpeningSources = new OpeningSources(),
): CalculationResult {
  const lit = scene.layers.map(({ luminaires }) =>
    luminaires.map((placed) => sources.placed(placed, nearFieldError)),
  );
  return {
    planes: scene.planes.map((plane) => {
      throwIfCancelled(observer);
      const floor = contributionFloor(plane, lit.flat());
      const layers = scene.layers.map(({ name }, l) => {
        const direct = new Float64Array(plane.points.length / 3);
        for (const placed of lit[l]) addDirectLight(placed, plane, floor, direct, observer);
        return { layer: name, direct, interreflected: new Float64Array(direct.length) };
      });
      return { plane: plane.name, layers };
    }),
    method: {
      quality: "quick",
      unobstructed: true,
      interreflection: "none",
      nearFieldError,
      patches: 0,
      residual: 0,
      people: false,
    },
  };
}
