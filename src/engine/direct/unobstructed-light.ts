/**
 * The direct light of a scene as if nothing stood in the way, from few places: the first light of a page, before what
 * is needed for near fields, shadows and interreflection has been loaded.
 *
 *   E = Σ_k I(ω_k) w(ω_k) / (N d_k²),   k over N = 9 places spread evenly over the opening's plan, one of a point
 *
 * Known error: 0.8 % under a Lambertian disc at two and a half times its width, 2 % at one and a half; bodies and
 * people cast no shadow and no surface reflects. It carries no band; see `light-engine.ts` for the answer.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { intensityTowards } from "../../photometry/reference-lookup.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { Scene } from "../../scene/scene.ts";
import type { CalculationResult } from "../result.ts";
import { LocalPoint } from "./local-point.ts";
import { Receiver } from "./receiver.ts";

/** Places along an extent, as shares of it: the middles of its thirds. */
const THIRDS = [-1 / 3, 0, 1 / 3];

/** Direct illuminance (lx) of every layer at every point of every plane, at full output and initial. */
export function unobstructedLight(scene: Scene, observer?: Observer): CalculationResult {
  return {
    planes: scene.planes.map((plane) => ({
      plane: plane.name,
      layers: scene.layers.map(({ name, luminaires }) => {
        const direct = new Float64Array(plane.points.length / 3);
        for (const placed of luminaires) {
          throwIfCancelled(observer);
          addFromPlaces(placed, plane, direct);
        }
        return { layer: name, direct, interreflected: new Float64Array(direct.length) };
      }),
    })),
    method: {
      quality: "quick",
      unobstructed: true,
      interreflection: "none",
      nearFieldError: 0,
      patches: 0,
      residual: 0,
      people: false,
    },
  };
}

function addFromPlaces(
  { luminaire, frame }: PlacedLuminaire,
  plane: CalculationPlane,
  E: Float64Array,
): void {
  const { distribution, emission } = luminaire;
  const { length, width } = emission.opening;
  const places = (length === 0 ? [0] : THIRDS).flatMap((s) =>
    (width === 0 ? [0] : THIRDS).map((t) => [s * length, t * width] as const),
  );
  const receiver = new Receiver(plane.quantity, plane.normal, frame.rotation);
  const local = new LocalPoint(frame.origin, frame.rotation);
  for (let i = 0; i < E.length; i++) {
    local.set(plane.points, i);
    let sum = 0;
    for (const [ex, ey] of places) {
      const x = local.x - ex;
      const y = local.y - ey;
      const dd = x * x + y * y + local.z * local.z;
      const weight = receiver.weight(x, y, local.z, dd);
      if (weight > 0) sum += (intensityTowards(distribution, x, y, local.z) * weight) / (dd * Math.sqrt(dd));
    }
    E[i] += sum / places.length;
  }
}
