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

/** Of one luminaire on one plane, at full output and initial (lx). */
export interface LuminaireEffects {
  /** Its direct light. */
  readonly own: Float64Array;
  readonly lobe: Float64Array;
  readonly bend: Float64Array;
  /** About the luminaire's local x and y; empty where its light is known not to lean. */
  readonly alignment: readonly Float64Array[];
  /** Position along x and y, height, and angle about x and y of the room. */
  readonly place: readonly PlaceEffect[];
}

interface PlaceEffect {
  readonly kind: "position" | "height" | "hung angle";
  readonly effect: Float64Array;
}

export class DirectEffects {
  readonly #sources: DirectSources;
  readonly #bands: InputBands;
  readonly #reshaped = new Map<Luminaire, readonly [low: Luminaire, own: Luminaire, high: Luminaire]>();
  readonly #known = new Map<PlacedLuminaire, Map<CalculationPlane, LuminaireEffects>>();

  constructor(sources: DirectSources, bands: InputBands) {
    this.#sources = sources;
    this.#bands = bands;
  }

  of(placed: PlacedLuminaire, plane: CalculationPlane): LuminaireEffects {
    const planes = this.#known.get(placed) ?? new Map<CalculationPlane, LuminaireEffects>();
    const found = planes.get(plane) ?? this.#effects(placed, plane);
    this.#known.set(placed, planes.set(plane, found));
    return found;
  }

  #effects(placed: PlacedLuminaire, plane: CalculationPlane): LuminaireEffects {
    const { luminaire, frame } = placed;
    const three = this.#lobes(luminaire).map((each) => this.#direct({ luminaire: each, frame }, plane));
    const [low, middle, high] = three;
    const sigma = EVIDENCE[luminaire.evidence].alignment / 2;
    return {
      own: this.#direct(placed, plane),
      lobe: high.map((value, i) => (value - low[i]) / 2),
      bend: middle.map((value, i) => (high[i] + low[i]) / 2 - value),
      alignment:
        sigma === 0
          ? []
          : [0, 1].map((axis) =>
              this.#halfChange(placed, plane, (sign) => {
                const rotation = product(frame.rotation, rotationAbout(axis, sign * sigma));
                return { ...frame, rotation };
              }),
            ),
      place: this.#ofPlace(placed, plane),
    };
  }

  #direct(placed: PlacedLuminaire, plane: CalculationPlane): Float64Array {
    const out = new Float64Array(plane.weights.length);
    addDirectLight(this.#sources.placed(placed, NEAR_FIELD_ERROR), plane, 0, out);
    return out;
  }

  #ofPlace(placed: PlacedLuminaire, plane: CalculationPlane): readonly PlaceEffect[] {
    const { frame } = placed;
    const { height, position, hungAngle } = this.#bands;
    const moved = [0, 1, 2].map((axis): PlaceEffect => {
      const sigma = (axis === 2 ? height : position) / 2;
      const effect = this.#halfChange(placed, plane, (sign) => {
        const origin: [number, number, number] = [frame.origin[0], frame.origin[1], frame.origin[2]];
        origin[axis] += sign * sigma;
        return { ...frame, origin };
      });
      return { kind: axis === 2 ? "height" : "position", effect };
    });
    const leant = [0, 1].map((axis): PlaceEffect => {
      const effect = this.#halfChange(placed, plane, (sign) => {
        const rotation = product(rotationAbout(axis, (sign * hungAngle) / 2), frame.rotation);
        return { ...frame, rotation };
      });
      return { kind: "hung angle", effect };
    });
    return [...moved, ...leant];
  }

  #halfChange(
    { luminaire }: PlacedLuminaire,
    plane: CalculationPlane,
    frameAt: (sign: number) => Frame,
  ): Float64Array {
    const low = this.#direct({ luminaire, frame: frameAt(-1) }, plane);
    const high = this.#direct({ luminaire, frame: frameAt(1) }, plane);
    return high.map((value, i) => (value - low[i]) / 2);
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
