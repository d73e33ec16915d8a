/**
 * What the zones ask for, and how far a row falls short of it, as far as evidence alone can tell.
 *
 *   shortage = Σ over requirements of max(0, asked / sure − 1),  sure of `required-margin.ts`
 */

import { normalQuantile } from "../../numerics/normal-distribution.ts";
import { natureFactor } from "../../scene/maintained.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Requirement } from "../../scene/target.ts";
import type { Kind } from "./candidate.ts";
import { type LightUncertainty, lightUncertainty, sureLight } from "./required-margin.ts";
import type { GridPart, SearchGrid } from "./search-grid.ts";
import type { StandingLight } from "./standing-light.ts";

export interface NeedsRequest {
  readonly scene: Scene;
  readonly layer: number;
  readonly kinds: readonly Kind[];
  readonly grid: SearchGrid;
  readonly light: StandingLight;
  /** What each of the grid's zones asks for, in their order. */
  readonly requirements: readonly (readonly Requirement[])[];
  readonly confidence: number;
}

/** Average and minimum of a part of the grid (lx). */
export interface PartFigures {
  readonly average: number;
  readonly minimum: number;
  /** Minimum / average where it is not their quotient: of worst cases that do not fall together. */
  readonly evenness?: number;
}

export class ZoneNeeds {
  readonly #request: NeedsRequest;
  readonly #z: number;
  readonly #uncertainties: readonly LightUncertainty[];
  readonly #others: LightUncertainty;
  readonly #fixed: readonly number[];

  constructor(request: NeedsRequest) {
    const { kinds, scene, layer, grid, light, confidence } = request;
    this.#request = request;
    this.#z = normalQuantile(confidence);
    this.#uncertainties = kinds.map(({ luminaire }) => lightUncertainty(luminaire));
    this.#others = otherUncertainty(scene, layer);
    this.#fixed = grid.zones.map((part) => figuresOf(light.fixed, part).average);
  }

  /** Relative, summed over all requirements; `figures` are asked for the zones that ask for something.
   * @param still share of the layers that stay that is in them */
  shortage(kind: number, figures: (part: number) => PartFigures, still = 1): number {
    const { requirements, scene } = this.#request;
    let shortage = 0;
    for (let part = 0; part < requirements.length; part++) {
      if (requirements[part].length === 0) continue;
      const zoneFigures = figures(part);
      for (const requirement of requirements[part]) {
        const sure = sureOf(
          requirement,
          zoneFigures,
          still * this.#fixed[part],
          this.#uncertainties[kind],
          this.#others,
          scene.maintenance,
          this.#z,
        );
        if (sure < requirement.value) shortage += requirement.value / Math.max(sure, 1e-9) - 1;
      }
    }
    return shortage;
  }
}

/** What of a figure is sure at z standard deviations, in the requirement's own nature. */
function sureOf(
  { quantity, statistic, nature }: Requirement,
  { average, minimum, evenness }: PartFigures,
  fixed: number,
  uncertainty: LightUncertainty,
  other: LightUncertainty,
  maintenance: number,
  z: number,
): number {
  if (quantity === "uniformity") return evenness ?? (average > 0 ? minimum / average : 0);
  const figure = statistic === "minimum" ? minimum : average;
  const still = average > 0 ? (figure * fixed) / average : 0;
  return (
    natureFactor({ maintenance }, nature) *
    sureLight(figure - still, uncertainty, still, other, maintenance, z)
  );
}

export function figuresOf(values: Float64Array, { which, weights }: GridPart): PartFigures {
  let sum = 0;
  let area = 0;
  let minimum = Infinity;
  for (let k = 0; k < which.length; k++) {
    const value = values[which[k]];
    sum += weights[k] * value;
    area += weights[k];
    if (value < minimum) minimum = value;
  }
  return area > 0 ? { average: sum / area, minimum } : { average: 0, minimum: 0 };
}

/** Uncertainty of the layers that stay, by flux. */
function otherUncertainty(scene: Scene, layer: number): LightUncertainty {
  let flux = 0;
  let shift = 0;
  let sigma = 0;
  scene.layers.forEach(({ luminaires }, l) => {
    if (l === layer) return;
    for (const { luminaire } of luminaires) {
      const uncertainty = lightUncertainty(luminaire);
      flux += luminaire.flux;
      shift += luminaire.flux * uncertainty.shift;
      sigma += luminaire.flux * uncertainty.sigma;
    }
  });
  return flux > 0 ? { shift: shift / flux, sigma: sigma / flux } : { shift: 0, sigma: 0 };
}
