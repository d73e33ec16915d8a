/** What `check --json` says to a program: the contract's object, plain numbers in metres, degrees, lux, watts. */

import { familiarPlace } from "../advice/illuminance-examples.ts";
import { topPlane } from "../assessment/assess.ts";
import type { FineFigures, PlaneAssessment, Statistics } from "../assessment/assessment.ts";
import { layerPower } from "../assessment/energy.ts";
import { centreProfile, endShares, steepestGradient } from "../assessment/gradient.ts";
import { percentile } from "../assessment/statistics.ts";
import { PUBLISHED_TARGETS } from "../assessment/targets-published.ts";
import { formatIssue, formatLocation } from "../diagnostics/issue.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { clearanceOf } from "../scene/arrangement.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { bodyShadowJson } from "./body-shadow.ts";
import { findingsJson } from "./findings-json.ts";
import type { JudgedArrangement } from "./judged-arrangement.ts";

export interface CheckJsonOptions {
  readonly version: string;
  /** Whether the values on the fine grids are listed too. */
  readonly fine: boolean;
}

export function checkJson(
  study: ResolvedStudy,
  arrangements: readonly JudgedArrangement[],
  { version, fine }: CheckJsonOptions,
): unknown {
  return {
    candlespan: version,
    study: study.title,
    warnings: study.warnings.map((issue) => ({
      code: issue.code,
      message: formatIssue({ ...issue, where: {} }),
      where: formatLocation(issue.where),
    })),
    defaults: study.defaults.map(({ path, value, why }) => ({ path, value, why })),
    arrangements: arrangements.map((judged) => arrangement(judged, fine)),
  };
}

function arrangement(
  { scene, assessment, fine: grids, bodyShadows, findings }: JudgedArrangement,
  listFine: boolean,
): unknown {
  return {
    name: assessment.name,
    luminaires: scene.layers.flatMap((layer) =>
      layer.luminaires.map((placed) => luminaire(scene, layer.name, placed)),
    ),
    planes: assessment.planes.map((plane, index) => {
      const { points, normal, quantity, zone } = scene.planes[index];
      const refined = grids.get(plane.name)?.plane;
      return {
        name: plane.name,
        ...(zone === undefined ? {} : { zone }),
        quantity,
        points: triples(points),
        normal,
        layers: layersOf(scene, plane.layers),
        illuminance: Array.from(plane.illuminance),
        statistics: statisticsOf(plane.statistics),
        ...spread(scene.planes[index], plane.illuminance),
        ...(plane.fine === undefined
          ? {}
          : { fine: fineOf(plane.fine, listFine ? refined?.points : undefined, scene) }),
      };
    }),
    top: scene.planes[topPlane(scene)]?.name ?? null,
    zones: assessment.zones.map(({ name, plane, target, statistics, verdict, checks }) => ({
      name,
      plane,
      ...(target === undefined ? {} : { target }),
      statistics: statisticsOf(statistics),
      familiarPlace: familiarPlace(statistics.average),
      verdict,
      checks,
    })),
    verdict: assessment.verdict,
    energy: assessment.energy,
    ...(assessment.balance === undefined ? {} : { balance: assessment.balance }),
    ...(bodyShadows === undefined ? {} : { bodyShadows: bodyShadowJson(bodyShadows, listFine) }),
    ...(findings === undefined ? {} : findingsJson(findings)),
    method: assessment.method,
    maintenance: scene.maintenance,
  };
}

/** How the light is spread over a plane: percentiles by area, and over a grid the steepest change and the profile
 * along the centre line. */
function spread(plane: CalculationPlane, illuminance: Float64Array): object {
  const at = (p: number): number | null =>
    illuminance.length > 0 ? percentile(illuminance, plane.weights, p) : null;
  const steepest = steepestGradient(plane, illuminance);
  const profile = centreProfile(plane, illuminance);
  return {
    percentiles: { p5: at(0.05), p50: at(0.5), p95: at(0.95) },
    ...(steepest === undefined ? {} : { steepest: { luxPer100mm: steepest.value, at: steepest.at } }),
    ...(profile === undefined
      ? {}
      : {
          profile: {
            distance: Array.from(profile.distance),
            illuminance: Array.from(profile.values),
            // First and last value over the mean of the middle third.
            ends: endShares(profile) ?? null,
          },
        }),
  };
}

function luminaire(scene: Scene, layer: string, placed: PlacedLuminaire): unknown {
  const { origin } = placed.frame;
  return {
    layer,
    luminaire: placed.luminaire.name,
    position: origin,
    // Null where nothing of the top lies under the luminaire's centre.
    clearance: clearanceOf(placed, scene.island) ?? null,
  };
}

function layersOf(scene: Scene, layers: PlaneAssessment["layers"]): unknown {
  // Own keys only, whatever a layer is called.
  const named: Record<string, unknown> = Object.create(null);
  layers.forEach(({ layer, role, direct, interreflected, nearFieldBand }, i) => {
    const { dim } = scene.layers[i];
    const { watts, unknown } = layerPower(scene.layers[i]);
    named[layer] = {
      role,
      dim,
      maintenance: scene.maintenance,
      watts: unknown === 0 ? watts : null,
      direct: Array.from(direct),
      interreflected: Array.from(interreflected),
      ...(nearFieldBand === undefined ? {} : { nearFieldBand: Array.from(nearFieldBand) }),
    };
  });
  return named;
}

function fineOf(figures: FineFigures, points: Float64Array | undefined, scene: Scene): unknown {
  const { cell, columns, rows, average, minimum, maximum, uniformity } = figures;
  return {
    cell,
    columns,
    rows,
    average,
    minimum,
    maximum,
    uniformity,
    ...(points === undefined
      ? {}
      : {
          points: triples(points),
          layers: layersOf(scene, figures.layers),
          illuminance: Array.from(figures.illuminance),
        }),
  };
}

/** What `check --targets --json` prints: every published target. */
export function targetsJson(): unknown {
  return PUBLISHED_TARGETS;
}

function statisticsOf({
  average,
  minimum,
  maximum,
  uniformity,
  diversity,
  variation,
  points,
}: Statistics): unknown {
  return { average, minimum, maximum, uniformity, diversity, variation, points };
}

function triples(flat: Float64Array): number[][] {
  return Array.from({ length: flat.length / 3 }, (_, i) => [flat[3 * i], flat[3 * i + 1], flat[3 * i + 2]]);
}
