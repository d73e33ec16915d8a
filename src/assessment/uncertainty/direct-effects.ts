/**
 * What one standard uncertainty of a luminaire's place, angle or lobe does to its direct light, nothing in the way:
 *
 *   place, angle   (E(+σ) − E(−σ)) / 2, along or about each axis
 *   lobe           the same for its parameter t, and what bends away from that line: (E(+σ) + E(−σ)) / 2 − E(0)
 *
 * Known error: shadows and interreflected light keep their figures, as a lobe keeps its flux; near a shade whose light is
 * known as surfaces, the change of its lobe is that of its opening.
 */

import { mat3 } from "gl-matrix";
import { addDirectLight } from "../../engine/direct/direct-light.ts";
import type { DirectSources } from "../../engine/direct/direct-sources.ts";
import type { Frame } from "../../geometry/frame.ts";
import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { reshapedLuminaire } from "../../luminaire/reshaped.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { InputBands } from "./input-bands.ts";

/** Near-field bound asked of moved luminaires: a difference of two figures must not see their nodes change. */
const NEAR_FIELD_ERROR = 5e-4;

/** Of all luminaires of one type together (lx). */
export interface TypeEffects {
  /** All of its light. */
  readonly light: Float64Array;
  readonly lobe: Float64Array;
  readonly bend: Float64Array;
  /** About the luminaire's local x and y. */
  readonly alignment: readonly [Float64Array, Float64Array];
}

interface PlaceEffect {
  readonly kind: "position" | "height" | "hung angle";
  readonly effect: Float64Array;
}

export class DirectEffects {
  readonly #sources: DirectSources;
  readonly #reshaped = new Map<Luminaire, readonly [low: Luminaire, own: Luminaire, high: Luminaire]>();

  constructor(sources: DirectSources) {
    this.#sources = sources;
  }

  direct(placed: PlacedLuminaire, plane: CalculationPlane): Float64Array {
    const out = new Float64Array(plane.weights.length);
    addDirectLight(this.#sources.placed(placed, NEAR_FIELD_ERROR), plane, 0, out);
    return out;
  }

  ofType(count: number): TypeEffects {
    const zero = (): Float64Array => new Float64Array(count);
    return { light: zero(), lobe: zero(), bend: zero(), alignment: [zero(), zero()] };
  }

  /** Adds one luminaire's part in lobe and alignment. @param weight dimming and maintenance */
  addToType(type: TypeEffects, placed: PlacedLuminaire, plane: CalculationPlane, weight: number): void {
    const { luminaire, frame } = placed;
    const three = this.#lobes(luminaire).map((each) => this.direct({ luminaire: each, frame }, plane));
    const [low, own, high] = three;
    for (let i = 0; i < own.length; i++) {
      type.lobe[i] += (weight * (high[i] - low[i])) / 2;
      type.bend[i] += weight * ((high[i] + low[i]) / 2 - own[i]);
    }
    const sigma = EVIDENCE[luminaire.evidence].alignment / 2;
    if (sigma === 0) return;
    type.alignment.forEach((out, axis) => {
      const change = this.#halfChange(placed, plane, weight, (sign) => {
        const rotation = product(frame.rotation, rotationAbout(axis, sign * sigma));
        return { ...frame, rotation };
      });
      for (let i = 0; i < out.length; i++) out[i] += change[i];
    });
  }

  /** Position along x and y, height, and angle about x and y of the room, each of one luminaire alone. */
  ofPlace(
    placed: PlacedLuminaire,
    plane: CalculationPlane,
    weight: number,
    bands: InputBands,
  ): readonly PlaceEffect[] {
    const { frame } = placed;
    const moved = [0, 1, 2].map((axis): PlaceEffect => {
      const sigma = (axis === 2 ? bands.height : bands.position) / 2;
      const effect = this.#halfChange(placed, plane, weight, (sign) => {
        const origin: [number, number, number] = [frame.origin[0], frame.origin[1], frame.origin[2]];
        origin[axis] += sign * sigma;
        return { ...frame, origin };
      });
      return { kind: axis === 2 ? "height" : "position", effect };
    });
    const leant = [0, 1].map((axis): PlaceEffect => {
      const effect = this.#halfChange(placed, plane, weight, (sign) => {
        const rotation = product(rotationAbout(axis, (sign * bands.hungAngle) / 2), frame.rotation);
        return { ...frame, rotation };
      });
      return { kind: "hung angle", effect };
    });
    return [...moved, ...leant];
  }

  #halfChange(
    { luminaire }: PlacedLuminaire,
    plane: CalculationPlane,
    weight: number,
    frameAt: (sign: number) => Frame,
  ): Float64Array {
    const low = this.direct({ luminaire, frame: frameAt(-1) }, plane);
    const high = this.direct({ luminaire, frame: frameAt(1) }, plane);
    return high.map((value, i) => (weight * (value - low[i])) / 2);
  }

  /** The lobe one standard uncertainty below, as it is, and above. */
  #lobes(luminaire: Luminaire): readonly Luminaire[] {
    const { lobe } = EVIDENCE[luminaire.evidence];
    const at = (t: number): Luminaire => reshapedLuminaire(luminaire, t);
    const three = this.#reshaped.get(luminaire) ?? ([at(-lobe), at(0), at(lobe)] as const);
    this.#reshaped.set(luminaire, three);
    return three;
  }
}

/** Column-major. */
function rotationAbout(axis: number, angle: number): Float64Array {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return axis === 0
    ? Float64Array.of(1, 0, 0, 0, c, s, 0, -s, c)
    : Float64Array.of(c, 0, -s, 0, 1, 0, s, 0, c);
}

function product(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(9);
  mat3.multiply(out, a, b);
  return out;
}
