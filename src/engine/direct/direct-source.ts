/**
 * A luminaire as a source of direct light, whatever its kind: from where does how much arrive at this point?
 *
 * The one seam between near field, receiver and visibility. `sample` gives elements that whoever knows what
 * stands in the way can thin out; `illuminance` is the same sum where nothing does. All coordinates are the
 * luminaire's own (m).
 */

import type { SurfaceEmission } from "../../luminaire/emission.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { type Horizon, NO_HORIZON } from "../../luminaire/opening/element-rules.ts";
import { openingSurface } from "../../luminaire/opening/openings.ts";
import { TOP_LEVEL } from "../../luminaire/opening/quadrature-ladder.ts";
import type { NearFieldLattice } from "../../luminaire/shade/near-field-lattice.ts";
import { NEAR_LIMIT, NodeTable } from "./node-table.ts";
import { OpeningQuadrature } from "./opening-quadrature.ts";
import { type Receiver, received } from "./receiver.ts";

/** What a source shares with those of other bounds, if somebody keeps it. */
export interface SourceParts {
  readonly quadrature?: OpeningQuadrature;
  readonly lattice?: NearFieldLattice;
  /** Of a smaller bound. */
  readonly table?: NodeTable;
}

export class DirectSource {
  /** Radius of the sphere about the photometric centre that holds all elements (m). */
  readonly radius: number;
  /** Half extents of the box that holds all elements (m). */
  readonly half: readonly [number, number, number];
  /** Length that arrays handed to `sample` need (positions three times that). */
  readonly maximumElements: number;
  /** Whether the band of the near field is wanted. */
  readonly uncertain: boolean;

  /** Nodes on the opening; undefined where surfaces emit in place. */
  readonly quadrature: OpeningQuadrature | undefined;

  readonly #surfaces: SurfaceEmission | undefined;
  readonly #lattice: NearFieldLattice | undefined;
  readonly table: NodeTable | undefined;
  readonly #positions: Float64Array;
  readonly #normalIlluminance: Float64Array;
  readonly #horizon: Horizon = { ...NO_HORIZON };

  constructor(
    { emission, distribution }: Luminaire,
    nearFieldError: number,
    { quadrature, lattice, table }: SourceParts = {},
  ) {
    if (emission.kind === "opening") {
      this.quadrature = quadrature ?? new OpeningQuadrature(distribution, emission.opening);
      this.table = new NodeTable(this.quadrature, nearFieldError, table);
      this.maximumElements = this.quadrature.maximumElements();
      this.uncertain = emission.uncertain === true;
    } else {
      this.#surfaces = emission;
      if (lattice === undefined) throw new Error("The near field of lamp and shade is missing.");
      this.#lattice = lattice;
      this.maximumElements = lattice.maximumElements;
      this.uncertain = false;
    }
    const { radius, half } = this.quadrature?.surface ?? openingSurface(emission.opening, distribution);
    this.radius = radius;
    this.half = half;
    this.#positions = new Float64Array(3 * this.maximumElements);
    this.#normalIlluminance = new Float64Array(this.maximumElements);
  }

  /** Whether all elements lie on or below the receiver's horizon at the local point. */
  unseen(px: number, py: number, pz: number, receiver: Receiver): boolean {
    if (receiver.quantity !== "planar") return false;
    return this.#height(px, py, pz, receiver) + this.#reach(receiver) <= TOUCHING;
  }

  /** Whether the receiver's horizon passes through the elements' box. */
  cutByHorizon(px: number, py: number, pz: number, receiver: Receiver): boolean {
    return receiver.quantity === "planar" && this.#height(px, py, pz, receiver) < this.#reach(receiver);
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
    const level = this.level(px, py, pz, receiver, floor);
    return this.#sampleAt(px, py, pz, receiver, level, positions, normalIlluminance);
  }

  #sampleAt(
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    level: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const { quadrature } = this;
    if (quadrature === undefined) return this.#sampleSurfaces(px, py, pz, positions, normalIlluminance);
    const horizon = this.#horizonOf(px, py, pz, receiver);
    return quadrature.sample(px, py, pz, level, positions, normalIlluminance, horizon);
  }

  /** Unoccluded illuminance (lx) at the local point, ≥ 0; 0 where the point lies on an element. */
  illuminance(px: number, py: number, pz: number, receiver: Receiver, floor: number): number {
    return this.illuminanceAt(px, py, pz, receiver, this.level(px, py, pz, receiver, floor));
  }

  /** The same by the nodes of one level of the ladder, whatever their error: for differences of neighbouring places, whose nodes
   * must not change between them. */
  illuminanceAt(px: number, py: number, pz: number, receiver: Receiver, level: number): number {
    const { quadrature } = this;
    const positions = this.#positions;
    const normalIlluminance = this.#normalIlluminance;
    if (
      quadrature?.flat &&
      receiver.quantity === "planar" &&
      this.#height(px, py, pz, receiver) >= this.#reach(receiver)
    )
      return proper(quadrature.planar(px, py, pz, receiver.nx, receiver.ny, receiver.nz, level));
    const count = this.#sampleAt(px, py, pz, receiver, level, positions, normalIlluminance);
    return proper(received(receiver, px, py, pz, positions, normalIlluminance, count));
  }

  /** Whether the local point is nearer to the opening than its error bound holds: a quarter of its radius. */
  tooNear(px: number, py: number, pz: number): boolean {
    if (this.table === undefined || this.radius === 0) return false;
    return this.table.toSurface(px, py, pz) < NEAR_LIMIT * this.radius;
  }

  /** What the inverse-square law from the photometric centre gives (lx); for a traced shade, its near field. */
  pointIlluminance(px: number, py: number, pz: number, receiver: Receiver): number {
    const { quadrature } = this;
    const positions = this.#positions;
    const normalIlluminance = this.#normalIlluminance;
    const count =
      quadrature === undefined
        ? this.#sampleSurfaces(px, py, pz, positions, normalIlluminance)
        : quadrature.sample(px, py, pz, 0, positions, normalIlluminance);
    return received(receiver, px, py, pz, positions, normalIlluminance, count);
  }

  #sampleSurfaces(
    px: number,
    py: number,
    pz: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
  ): number {
    const surfaces = this.#surfaces;
    if (surfaces === undefined || this.#lattice === undefined) return 0;
    return this.#lattice.sample(surfaces, px, py, pz, positions, normalIlluminance);
  }

  /** Level of the ladder that the error bound asks for towards this point and receiver; 0 where surfaces emit in place. */
  level(px: number, py: number, pz: number, receiver: Receiver, floor: number): number {
    const table = this.table;
    if (table === undefined) return 0;
    const { nx, ny, nz } = receiver;
    const h = this.#height(px, py, pz, receiver);
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
  #horizonOf(px: number, py: number, pz: number, receiver: Receiver): Horizon {
    if (receiver.quantity !== "planar") return NO_HORIZON;
    const horizon = this.#horizon;
    horizon.height = this.#height(px, py, pz, receiver);
    horizon.cuts = horizon.height < this.#reach(receiver);
    horizon.nx = receiver.nx;
    horizon.ny = receiver.ny;
    horizon.nz = receiver.nz;
    return horizon;
  }

  /** Height of the photometric centre over the receiver's horizon (m). */
  #height(px: number, py: number, pz: number, receiver: Receiver): number {
    return -(receiver.nx * px + receiver.ny * py + receiver.nz * pz);
  }

  /** How far the elements reach along the receiver's normal (m). */
  #reach({ nx, ny, nz }: Receiver): number {
    const { half } = this;
    const reach = Math.abs(nx) * half[0] + Math.abs(ny) * half[1] + Math.abs(nz) * half[2];
    return Math.min(this.radius, reach);
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
