/** One arrangement calculated and judged with everything reports and drawings need of it. */

import { eyePlanes } from "../advice/people/eye-light.ts";
import { assess, type FineField } from "../assessment/assess.ts";
import { type VerdictOptions, verdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import type { Calculate } from "../engine/calculate.ts";
import type { LightEngine } from "../engine/light-engine.ts";
import { fineGrid } from "../scene/calculation-grid.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { marginPlane } from "./contour-field.ts";
import type { JudgedArrangement } from "./judged-arrangement.ts";

/** Planes larger than this are rooms, not tops; contours and fine minima are for tops (m²). */
const LARGEST_FINE = 12;

/** One for the light: it remembers the room's form factors and the layers that arrangements share; one for the
 * uncertainties, whose many small changes would turn over the first one's memory. */
export interface Engines {
  readonly light: LightEngine;
  readonly uncertainty: LightEngine;
}

/** `report` hears the stage in words and its fraction done. */
export function lightArrangement(
  study: ResolvedStudy,
  scene: Scene,
  options: CalculationOptions,
  engines: Engines,
  report: (stage: string, fraction: number) => void,
  verdictOptions: VerdictOptions = {},
): JudgedArrangement {
  const refined = scene.planes.flatMap((plane) => {
    const fine = area(plane) <= LARGEST_FINE ? fineGrid(plane) : undefined;
    if (fine?.grid === undefined) return [];
    return [{ of: plane.name, fine, margin: marginPlane(fine as CalculationPlane & { grid: PlaneGrid }) }];
  });
  // One calculation for all of them: the room's interreflection is the same.
  const eyes = eyePlanes(scene);
  const planes = [...scene.planes, ...refined.flatMap(({ fine, margin }) => [fine, margin]), ...eyes];
  const result = engines.light.calculate({ ...scene, planes }, options, { progress: report });
  const count = scene.planes.length;
  const fine = new Map<string, FineField & { readonly margin: FineField }>();
  refined.forEach((each, i) => {
    const field = result.planes[count + 2 * i];
    const margin = { plane: each.margin, field: result.planes[count + 2 * i + 1] };
    fine.set(each.of, { plane: each.fine, field, margin });
  });
  const own = { ...result, planes: result.planes.slice(0, count) };
  const withSources = { sources: engines.uncertainty.sources, ...verdictOptions };
  const calculate: Calculate = (...asked) => engines.uncertainty.calculate(...asked);
  return {
    scene,
    result: own,
    fine,
    assessment: assess(study, scene, own, verdictMethod(scene, own, calculate, withSources), fine),
    eyes: result.planes.slice(planes.length - eyes.length),
  };
}

function area({ weights }: CalculationPlane): number {
  let sum = 0;
  for (const weight of weights) sum += weight;
  return sum;
}
