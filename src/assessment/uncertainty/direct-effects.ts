/**
 * What one standard uncertainty of a luminaire's place, angle or lobe does to its direct light, nothing in the way:
 *
 *   place, angle   (E(+σ) − E(−σ)) / 2, along or about each axis
 *   lobe           the same for its parameter t, and what bends away from that line: (E(+σ) + E(−σ)) / 2 − E(0)
 *
 * All by the nodes that the light itself needs at each point, so that their error is a share of the difference as it is of the
 * light, and no table of nodes is made for a lobe that is only compared.
 *
 * Known error: shadows and interreflected light keep their figures, as a lobe keeps its flux; near a shade whose light is
 * known as surfaces, the change of its lobe is that of its opening. Nodes: 1 % of an effect (tests).
 */

import { mat3 } from "gl-matrix";
import { contributionFloor } from "../../engine/direct/direct-light.ts";
import type { DirectSources } from "../../engine/direct/direct-sources.ts";
import { LocalPoint } from "../../engine/direct/local-point.ts";
import { Receiver } from "../../engine/direct/receiver.ts";
import type { Frame } from "../../geometry/frame.ts";
import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { reshapedLuminaire } from "../../luminaire/reshaped.ts";
import { DEFAULT_OPTIONS } from "../../scene/calculation-options.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";
import type { InputBands } from "./input-bands.ts";

/** Near-field bound of the light whose nodes are taken. */
const { nearFieldError: NEAR_FIELD_ERROR } = DEFAULT_OPTIONS;

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
    const effects = planes.get(plane) ?? this.#effects(placed, plane);
    this.#known.set(placed, planes.set(plane, effects));
    return effects;
  }

  #effects(placed: PlacedLuminaire, plane: CalculationPlane): LuminaireEffects {
    const { luminaire, frame } = placed;
    const lobes = this.#lobes(luminaire);
    const levels = this.#levels(placed, plane);
    const ofLobe =
      luminaire.emission.kind === "opening" ? levels : this.#levels({ luminaire: lobes[1], frame }, plane);
    const [low, middle, high] = lobes.map((each) => this.#direct({ luminaire: each, frame }, plane, ofLobe));
    const sigma = EVIDENCE[luminaire.evidence].alignment / 2;
    const halfChange = (frameAt: (sign: number) => Frame): Float64Array => {
      const [less, more] = [-1, 1].map((sign) =>
        this.#direct({ luminaire, frame: frameAt(sign) }, plane, levels),
      );
      return more.map((value, i) => (value - less[i]) / 2);
    };
    return {
      own: this.#direct(placed, plane, levels),
      lobe: high.map((value, i) => (value - low[i]) / 2),
      bend: middle.map((value, i) => (high[i] + low[i]) / 2 - value),
      alignment:
        sigma === 0
          ? []
          : [0, 1].map((axis) =>
              halfChange((sign) => ({
                ...frame,
                rotation: product(frame.rotation, rotationAbout(axis, sign * sigma)),
              })),
            ),
      place: this.#ofPlace(frame, halfChange),
    };
  }

  /** Of the ladder of nodes, at each point. */
  #levels(placed: PlacedLuminaire, plane: CalculationPlane): Uint8Array {
    const own = this.#sources.placed(placed, NEAR_FIELD_ERROR);
    const floor = contributionFloor(plane, [own]);
    const receiver = new Receiver(plane.quantity, plane.normal, placed.frame.rotation);
    const local = new LocalPoint(placed.frame.origin, placed.frame.rotation);
    const { points } = plane;
    const levels = new Uint8Array(points.length / 3);
    for (let i = 0; i < levels.length; i++) {
      local.set(points, i);
      levels[i] = own.source.level(local.x, local.y, local.z, receiver, floor);
    }
    return levels;
  }

  #direct(placed: PlacedLuminaire, plane: CalculationPlane, levels: Uint8Array): Float64Array {
    const { source, frame } = this.#sources.placed(placed, NEAR_FIELD_ERROR);
    const receiver = new Receiver(plane.quantity, plane.normal, frame.rotation);
    const local = new LocalPoint(frame.origin, frame.rotation);
    const { points } = plane;
    const direct = new Float64Array(levels.length);
    for (let i = 0; i < levels.length; i++) {
      local.set(points, i);
      if (source.unseen(local.x, local.y, local.z, receiver)) continue;
      direct[i] = source.illuminanceAt(local.x, local.y, local.z, receiver, levels[i]);
    }
    return direct;
  }

  #ofPlace(
    frame: Frame,
    halfChange: (frameAt: (sign: number) => Frame) => Float64Array,
  ): readonly PlaceEffect[] {
    const { height, position, hungAngle } = this.#bands;
    const moved = [0, 1, 2].map((axis): PlaceEffect => {
      const sigma = (axis === 2 ? height : position) / 2;
      const effect = halfChange((sign) => {
        const origin: [number, number, number] = [frame.origin[0], frame.origin[1], frame.origin[2]];
        origin[axis] += sign * sigma;
        return { ...frame, origin };
      });
      return { kind: axis === 2 ? "height" : "position", effect };
    });
    const leant = [0, 1].map((axis): PlaceEffect => {
      const effect = halfChange((sign) => {
        const rotation = product(rotationAbout(axis, (sign * hungAngle) / 2), frame.rotation);
        return { ...frame, rotation };
      });
      return { kind: "hung angle", effect };
    });
    return [...moved, ...leant];
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
