/**
 * A luminaire as a source of direct light, whatever its kind: from where does how much arrive at this point?
 *
 * The one seam between near field, receiver and visibility. `sample` gives elements that whoever knows what
 * stands in the way can thin out; `illuminance` is the same sum where nothing does. All coordinates are the
 * luminaire's own (m).
 */

import type { Luminaire } from "../../luminaire/luminaire.ts";
import { type Horizon, NO_HORIZON } from "./element-pieces.ts";
import { NodeTable } from "./node-table.ts";
import { OpeningEmitter } from "./opening-emitter.ts";
import { openingSurface } from "./opening-surface.ts";
import { TOP_LEVEL } from "./quadrature-ladder.ts";
import { type Receiver, received } from "./receiver.ts";

export class DirectEmitter {
  /** Radius of the sphere about the photometric centre that holds all elements (m). */
  readonly radius: number;
  /** Half extents of the box that holds all elements (m). */
  readonly half: readonly [number, number, number];
  /** Length that arrays handed to `sample` need (positions three times that). */
  readonly maximumElements: number;
  /** Whether the band of the near field is wanted. */
  readonly uncertain: boolean;

  private readonly luminaire: Luminaire;
  private readonly emitter: OpeningEmitter | undefined;
  private readonly table: NodeTable | undefined;
  private readonly positions: Float64Array;
  private readonly normalIlluminance: Float64Array;
  private readonly point = new Float64Array(3);
  private readonly horizon: Horizon = { ...NO_HORIZON };

  constructor(luminaire: Luminaire, nearFieldError: number) {
    const { emission, distribution } = luminaire;
    this.luminaire = luminaire;
    const surface = openingSurface(emission.opening, distribution);
    this.radius = surface.radius;
    this.half = surface.half;
    if (emission.kind === "opening") {
      this.emitter = new OpeningEmitter(distribution, emission.opening);
      this.table = new NodeTable(this.emitter, nearFieldError);
      this.maximumElements = this.emitter.maximumElements();
      this.uncertain = emission.uncertain === true;
    } else {
      this.maximumElements = emission.maximumElements;
      this.uncertain = false;
    }
    this.positions = new Float64Array(3 * this.maximumElements);
    this.normalIlluminance = new Float64Array(this.maximumElements);
  }

  /** Whether all elements lie on or below the receiver's horizon at the local point. */
  unseen(px: number, py: number, pz: number, receiver: Receiver): boolean {
    if (receiver.quantity !== "planar") return false;
    return this.height(px, py, pz, receiver) + this.reach(receiver) <= TOUCHING;
  }

  /** Writes as many elements as the error bound asks for towards this point and receiver: local positions and
   * illuminance on a plane facing each (lx), the receiver's own weight not yet applied. Returns their count.
   * `floor`: illuminance (lx) below which a contribution's own size no longer counts. Never allocates once the
   * table knows the place. */
  sample(
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    floor: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const { emitter } = this;
    if (emitter === undefined) return this.sampleSurfaces(px, py, pz, positions, normalIlluminance);
    const level = this.level(px, py, pz, receiver, floor);
    const horizon = this.horizonOf(px, py, pz, receiver);
    return emitter.sample(px, py, pz, level, positions, normalIlluminance, horizon);
  }

  /** Unoccluded illuminance (lx) at the local point, ≥ 0; 0 where the point lies on an element. */
  illuminance(px: number, py: number, pz: number, receiver: Receiver, floor: number): number {
    const { emitter, positions, normalIlluminance } = this;
    if (
      emitter?.flat &&
      receiver.quantity === "planar" &&
      this.height(px, py, pz, receiver) >= this.reach(receiver)
    ) {
      const level = this.level(px, py, pz, receiver, floor);
      return proper(emitter.planar(px, py, pz, receiver.nx, receiver.ny, receiver.nz, level));
    }
    const count = this.sample(px, py, pz, receiver, floor, positions, normalIlluminance);
    return proper(received(receiver, px, py, pz, positions, normalIlluminance, count));
  }

  /** Whether the local point is nearer to the opening than its error bound holds: a quarter of its radius. */
  tooNear(px: number, py: number, pz: number): boolean {
    if (this.table === undefined || this.radius === 0) return false;
    return this.table.toSurface(px, py, pz) < this.radius / 4;
  }

  /** What the inverse-square law from the photometric centre gives (lx); for surfaces, their own sum. */
  pointIlluminance(px: number, py: number, pz: number, receiver: Receiver): number {
    const { emitter, positions, normalIlluminance } = this;
    const count =
      emitter === undefined
        ? this.sampleSurfaces(px, py, pz, positions, normalIlluminance)
        : emitter.sample(px, py, pz, 0, positions, normalIlluminance);
    return received(receiver, px, py, pz, positions, normalIlluminance, count);
  }

  /** Number of nodes the bound asks for, for benchmarks and reports; elements of surfaces. */
  nodeCount(px: number, py: number, pz: number, receiver: Receiver, floor: number): number {
    return this.sample(px, py, pz, receiver, floor, this.positions, this.normalIlluminance);
  }

  private sampleSurfaces(
    px: number,
    py: number,
    pz: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const { emission } = this.luminaire;
    if (emission.kind !== "surfaces") return 0;
    this.point[0] = px;
    this.point[1] = py;
    this.point[2] = pz;
    return emission.sample(this.point, positions, normalIlluminance);
  }

  private level(px: number, py: number, pz: number, receiver: Receiver, floor: number): number {
    const { table } = this;
    if (table === undefined) return 0;
    const { nx, ny, nz } = receiver;
    const h = this.height(px, py, pz, receiver);
    if (receiver.quantity === "planar") return table.level(px, py, pz, h, nx, ny, nz, 1, floor);
    const up = receiver.ux * px + receiver.uy * py + receiver.uz * pz;
    const horizontal = Math.sqrt(Math.max(0, px * px + py * py + pz * pz - up * up));
    // Behind a semi-cylinder little is received of what is as hard to integrate: (1 + cos α) / 2.
    const share =
      receiver.quantity === "cylindrical" || horizontal === 0 ? 1 : Math.max(0.05, (1 + h / horizontal) / 2);
    const level = table.level(px, py, pz, horizontal, 1, 1, 1, share, floor);
    // The weight is a distance from the upright line through the point, which bends where that line meets the opening.
    return horizontal < 2 * this.radius ? Math.min(TOP_LEVEL, level + BENT_WEIGHT_LEVELS) : level;
  }

  /** The planar receiver's horizon, for elements that end there. */
  private horizonOf(px: number, py: number, pz: number, receiver: Receiver): Horizon {
    if (receiver.quantity !== "planar") return NO_HORIZON;
    const { horizon } = this;
    horizon.height = this.height(px, py, pz, receiver);
    horizon.cuts = horizon.height < this.reach(receiver);
    horizon.nx = receiver.nx;
    horizon.ny = receiver.ny;
    horizon.nz = receiver.nz;
    return horizon;
  }

  /** Height of the photometric centre over the receiver's horizon (m). */
  private height(px: number, py: number, pz: number, receiver: Receiver): number {
    return -(receiver.nx * px + receiver.ny * py + receiver.nz * pz);
  }

  /** How far the elements reach along the receiver's normal (m). */
  private reach({ nx, ny, nz }: Receiver): number {
    const [a, b, c] = this.half;
    return Math.min(this.radius, Math.abs(nx) * a + Math.abs(ny) * b + Math.abs(nz) * c);
  }
}

/** Levels added for cylindrical receivers right under or over the opening. */
const BENT_WEIGHT_LEVELS = 2;
/** An opening in a receiver's own plane, as a recessed luminaire's in the ceiling, sends it nothing; rounding
 * must not turn that into a grazing contribution (m). */
const TOUCHING = 1e-9;

/** Where the table is dark, rounding in the lookup may leave −1e-15; on the opening itself there is no answer. */
function proper(E: number): number {
  return E > 0 ? E : 0;
}

const emitters = new WeakMap<Luminaire, Map<number, DirectEmitter>>();

/** The emitter of a luminaire at an error bound. Kept by luminaire (its distribution and opening) and bound, so
 * that moving or dimming it costs nothing. */
export function directEmitter(luminaire: Luminaire, nearFieldError: number): DirectEmitter {
  let byBound = emitters.get(luminaire);
  if (byBound === undefined) {
    byBound = new Map();
    emitters.set(luminaire, byBound);
  }
  let emitter = byBound.get(nearFieldError);
  if (emitter === undefined) {
    emitter = new DirectEmitter(luminaire, nearFieldError);
    byBound.set(nearFieldError, emitter);
  }
  return emitter;
}
