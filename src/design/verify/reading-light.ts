/**
 * What each luminaire on its own sends to each place of interest, so that any of them may be thought dimmer, dead,
 * swapped or moved without calculating the room again.
 *
 * Every luminaire is calculated as a layer of its own: direct and interreflected light apart, at full output, new.
 */

import { mat3 } from "gl-matrix";
import type { Observer } from "../../diagnostics/cancelled.ts";
import type { Calculate } from "../../engine/calculate.ts";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import { DirectSources, type PlacedSource } from "../../engine/direct/direct-sources.ts";
import { rotationOf } from "../../geometry/frame.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { CalculationOptions } from "../../scene/calculation-options.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import { luminaireBlockers } from "../../scene/luminaire-blockers.ts";
import type { Scene } from "../../scene/scene.ts";

export interface LuminaireLight {
  readonly placed: PlacedSource;
  /** Index of its layer, and its place in it, counted from 0. */
  readonly layer: number;
  readonly index: number;
  /** At the places of the readings (lx). */
  readonly direct: Float64Array;
  readonly interreflected: Float64Array;
  /** Direct light there with nothing in the way (lx). */
  readonly clear: Float64Array;
  /** On each plane of the scene (lx). */
  readonly planes: readonly { readonly direct: Float64Array; readonly interreflected: Float64Array }[];
  /** Change of direct light with the sensor's place (lx/m), along x and along y. */
  readonly slope: readonly [x: Float64Array, y: Float64Array];
}

const NUDGE = 0.01;
const NEAR_FIELD_ERROR = 5e-4;

export function readingLight(
  scene: Scene,
  places: readonly Vec3[],
  options: Partial<CalculationOptions>,
  calculate: Calculate,
  observer?: Observer,
): LuminaireLight[] {
  const all = scene.layers.flatMap(({ luminaires }, layer) =>
    luminaires.map((placed, index) => ({ placed, layer, index })),
  );
  const layers = all.map(({ placed, layer, index }) => ({
    ...scene.layers[layer],
    name: `${layer} ${index}`,
    dim: 1,
    luminaires: [placed],
  }));
  const plane = planeAt(places);
  const split: Scene = {
    ...scene,
    layers,
    planes: [plane, ...scene.planes],
    blockers: [...scene.blockers.filter(({ kind }) => kind !== "pendant"), ...luminaireBlockers(layers)],
  };
  const result = calculate(split, options, observer);
  const sources = new DirectSources();
  return all.map(({ placed: bare, layer, index }, k): LuminaireLight => {
    const placed = sources.placed(bare, NEAR_FIELD_ERROR);
    const [own, ...planes] = result.planes.map((each) => each.layers[k]);
    return {
      placed,
      layer,
      index,
      direct: own.direct,
      interreflected: own.interreflected,
      clear: unblocked(placed, places),
      planes: planes.map(({ direct, interreflected }) => ({ direct, interreflected })),
      slope: slopeOf(placed, places),
    };
  });
}

/** The readings as taken at other places: counted from the other end, or along and across exchanged. */
export interface SiteView {
  readonly kind: "other end" | "axes swapped";
  /** What was counted from the other end. */
  readonly axis?: "along" | "across" | "both";
  readonly places: readonly Vec3[];
  readonly lights: readonly LuminaireLight[];
}

/** Direct light of a luminaire moved by `by` (m) and turned (rad), as share of what it sends from its own place, times
 * what was calculated there: what stands in the way stays as it was. */
export function movedDirect(
  { placed, direct, clear }: Pick<LuminaireLight, "placed" | "direct" | "clear">,
  places: readonly Vec3[],
  by: Vec3,
  turn = 0,
): Float64Array {
  const { origin, rotation } = placed.frame;
  const moved: Vec3 = [origin[0] + by[0], origin[1] + by[1], origin[2] + by[2]];
  const after = unblocked({ ...placed, frame: { origin: moved, rotation: turned(rotation, turn) } }, places);
  return after.map((E, i) => (clear[i] > 0 ? (E * direct[i]) / clear[i] : E));
}

function turned(rotation: Float64Array, turn: number): Float64Array {
  if (turn === 0) return rotation;
  const about = rotationOf({ turn, tilt: 0, spin: 0 });
  return mat3.multiply(new Float64Array(9), about, rotation) as Float64Array;
}

function slopeOf(placed: PlacedSource, places: readonly Vec3[]): [Float64Array, Float64Array] {
  const along = (axis: 0 | 1, sign: number): Float64Array =>
    unblocked(
      placed,
      places.map(([x, y, z]): Vec3 => (axis === 0 ? [x + sign * NUDGE, y, z] : [x, y + sign * NUDGE, z])),
    );
  const rise = (axis: 0 | 1): Float64Array => {
    const before = along(axis, -1);
    return along(axis, 1).map((E, i) => (E - before[i]) / (2 * NUDGE));
  };
  return [rise(0), rise(1)];
}

/** Direct light of a luminaire (lx) with nothing in the way. */
export function unblocked(placed: PlacedSource, places: readonly Vec3[]): Float64Array {
  const out = new Float64Array(places.length);
  addDirectLight(placed, planeAt(places), 0, out);
  return out;
}

function planeAt(places: readonly Vec3[]): CalculationPlane {
  const points = new Float64Array(3 * places.length);
  places.forEach((place, i) => {
    points.set(place, 3 * i);
  });
  return {
    name: "readings",
    role: "probe",
    quantity: "planar",
    points,
    normal: [0, 0, 1],
    weights: new Float64Array(places.length).fill(1),
  };
}
