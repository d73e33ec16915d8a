/**
 * How much of a luminaire's light reaches a point past what stands in the way: the visible share of its opening,
 *   V = Σ E_k / Σ over all pieces,
 * the opening in flat facets [`opening-facets.ts`], each cut by the outlines of the solids [`geometry/clipping.ts`],
 * E_k what the piece k would give the receiver at its centroid. A point source is seen or not, by one line of sight.
 *
 * Where no outline meets the opening V is exactly 1. Known error, checked against lines of sight in the tests: 0.5 %
 * of the light without the solids.
 */

import type { Box } from "../../geometry/box.ts";
import { Clipping } from "../../geometry/clipping.ts";
import { segmentMeets } from "../../geometry/convex-part.ts";
import { directionToRoom } from "../../geometry/frame.ts";
import type { Focus } from "../../geometry/round-solid.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import type { OpeningQuadrature } from "../direct/opening-quadrature.ts";
import type { Receiver } from "../direct/receiver.ts";
import { OpeningPieces } from "./opening-pieces.ts";
import { scatterOpening } from "./opening-samples.ts";
import { ShadePieces } from "./shade-pieces.ts";
import type { InTheWay, Surroundings } from "./surroundings.ts";

const NONE = new Float64Array(0);

/** One luminaire in one place, as seen past the surroundings. */
export class Penumbra {
  /** Holds all that emits, in room coordinates. */
  readonly box: Box;
  readonly #placed: PlacedLuminaire;
  readonly #emitter: DirectSource;
  readonly #opening: OpeningQuadrature | undefined;
  readonly #surroundings: Surroundings;
  /** Made for the first point that something may stand in the way of: most places never need them. */
  #clipping: Clipping | undefined;
  readonly #focus: Focus;
  #pieces: OpeningPieces | ShadePieces | undefined;
  #positions = NONE;
  #weights = NONE;

  constructor(placed: PlacedLuminaire, emitter: DirectSource, surroundings: Surroundings) {
    this.#placed = placed;
    this.#emitter = emitter;
    this.#surroundings = surroundings;
    this.#opening = emitter.quadrature;
    this.box = boxOf(placed, emitter);
    const [x, y, z] = placed.frame.origin;
    // Facets reach a little beyond the curves they are drawn for.
    this.#focus = { x, y, z, radius: 1.01 * emitter.radius };
  }

  /** Visible share, 0…1, from the room point (x, y, z), which in the luminaire's frame is (px, py, pz).
   * `receiver` weighs. */
  share(
    x: number,
    y: number,
    z: number,
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    inTheWay: InTheWay,
  ): number {
    this.#pieces ??= this.#newPieces();
    if (this.#pieces === undefined) return this.#shareOfPoint(x, y, z, inTheWay);
    this.#clipping ??= new Clipping();
    const clipping = this.#clipping;
    clipping.start(x, y, z);
    // Before the solids: what they hide below the horizon is no part of the light.
    if (this.#emitter.cutByHorizon(px, py, pz, receiver)) {
      const n = directionToRoom(this.#placed.frame.rotation, [receiver.nx, receiver.ny, receiver.nz]);
      clipping.addHorizon(n[0], n[1], n[2]);
    }
    const horizons = clipping.size;
    this.#surroundings.each(inTheWay, (parts, share, body) => clipping.add(parts, share, body, this.#focus));
    if (clipping.size === horizons) return 1;
    if (clipping.dark) return 0;
    return this.#pieces.visibleShare(x, y, z, px, py, pz, receiver, clipping);
  }

  /** None of a point. */
  #newPieces(): OpeningPieces | ShadePieces | undefined {
    const { emission } = this.#placed.luminaire;
    if (emission.kind === "surfaces") return new ShadePieces(this.#placed, this.#emitter, emission);
    if (this.#opening === undefined || this.#emitter.radius === 0) return undefined;
    return new OpeningPieces(this.#placed, this.#opening);
  }

  #shareOfPoint(x: number, y: number, z: number, inTheWay: InTheWay): number {
    const [ox, oy, oz] = this.#placed.frame.origin;
    let passed = 1;
    this.#surroundings.each(inTheWay, (parts, share) => {
      if (passed > 0 && parts.some((part) => segmentMeets(part, x, y, z, ox, oy, oz))) passed *= share;
    });
    return passed;
  }

  /** One sample of the opening, for callers that spread samples over an area: share passed by `bodies` alone is
   * theirs to ask. Writes the room position to `out` and returns its weight. */
  one(
    px: number,
    py: number,
    pz: number,
    s: number,
    t: number,
    receiver: Receiver,
    out: Float64Array,
  ): number {
    this.#ready();
    const opening = this.#opening;
    let k = 0;
    if (opening !== undefined) {
      scatterOpening(opening, px, py, pz, 0, 1, s, t, this.#positions, this.#weights);
    } else {
      const count = this.#emitter.sample(px, py, pz, receiver, 0, this.#positions, this.#weights);
      if (count === 0) return 0;
      k = Math.min(count - 1, Math.floor(s * count));
    }
    const w = this.#received(k, px, py, pz, receiver);
    this.#toRoom(k, out);
    return w;
  }

  /** Room for the samples, made when the first is wanted: most luminaires never need any. */
  #ready(): void {
    if (this.#weights.length > 0) return;
    const most = this.#opening === undefined ? this.#emitter.maximumElements : 1;
    this.#positions = new Float64Array(3 * most);
    this.#weights = new Float64Array(most);
  }

  #received(k: number, px: number, py: number, pz: number, receiver: Receiver): number {
    const p = this.#positions;
    const dx = px - p[3 * k];
    const dy = py - p[3 * k + 1];
    const dz = pz - p[3 * k + 2];
    const dd = dx * dx + dy * dy + dz * dz;
    return (this.#weights[k] * receiver.weight(dx, dy, dz, dd)) / Math.sqrt(dd);
  }

  #toRoom(k: number, out: Float64Array): void {
    const { origin, rotation: r } = this.#placed.frame;
    const p = this.#positions;
    const ex = p[3 * k];
    const ey = p[3 * k + 1];
    const ez = p[3 * k + 2];
    out[0] = r[0] * ex + r[3] * ey + r[6] * ez + origin[0];
    out[1] = r[1] * ex + r[4] * ey + r[7] * ez + origin[1];
    out[2] = r[2] * ex + r[5] * ey + r[8] * ez + origin[2];
  }
}

/** Bounds in the room of the box that holds all elements. */
function boxOf({ frame: { origin, rotation: r } }: PlacedLuminaire, { half }: DirectSource): Box {
  const box = new Float64Array(6);
  for (let k = 0; k < 3; k++) {
    const reach = Math.abs(r[k]) * half[0] + Math.abs(r[k + 3]) * half[1] + Math.abs(r[k + 6]) * half[2];
    box[k] = origin[k] - reach;
    box[k + 3] = origin[k] + reach;
  }
  return box;
}
