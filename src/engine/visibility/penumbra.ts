/**
 * How much of a luminaire's light reaches a point past what stands in the way: the visible share of its opening,
 *   V = Σ w_k V_k / Σ w_k,  w_k the illuminance that sample k would give the receiver.
 *
 * Points of the opening's outline and 12 samples within tell whether it is partly hidden at all; where it is, 256 to 4096 are taken, until the share
 * stands still to 0.4 of the wanted error between one number and its double. Samples depend on the point's and the
 * luminaire's number only. Error: as wanted; a hidden sliver between points of
 * the outline, a few thousandths of the opening, may be missed.
 */

import type { Box } from "../../geometry/box.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { seedOf } from "../../numerics/random-sequence.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import type { OpeningQuadrature } from "../direct/opening-quadrature.ts";
import type { Receiver } from "../direct/receiver.ts";
import { scatterOpening } from "./opening-samples.ts";
import type { InTheWay, Surroundings } from "./surroundings.ts";

const PROBES = 12;
const FIRST = 256;
const MOST = 4096;

const NONE = new Float64Array(0);

/** One luminaire in one place, as seen past the surroundings. */
export class Penumbra {
  /** Holds all that emits, in room coordinates. */
  readonly box: Box;
  rays = 0;
  readonly #placed: PlacedLuminaire;
  readonly #emitter: DirectSource;
  readonly #opening: OpeningQuadrature | undefined;
  readonly #surroundings: Surroundings;
  readonly #error: number;
  #positions = NONE;
  #weights = NONE;

  /** `error`: share of the opening to which the visible part is wanted. */
  constructor(placed: PlacedLuminaire, emitter: DirectSource, surroundings: Surroundings, error: number) {
    this.#error = error;
    this.#placed = placed;
    this.#emitter = emitter;
    this.#surroundings = surroundings;
    this.#opening = emitter.quadrature;
    this.box = boxOf(placed, emitter);
  }

  /** Visible share, 0…1, from the room point (x, y, z), which in the luminaire's frame is (px, py, pz).
   * `receiver` weighs; `number` makes the samples the point's own. */
  share(
    x: number,
    y: number,
    z: number,
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    inTheWay: InTheWay,
    number: number,
  ): number {
    this.#ready();
    const opening = this.#opening;
    if (opening === undefined) return this.#shareOfSurfaces(x, y, z, px, py, pz, receiver, inTheWay);
    const positions = this.#positions;
    const weights = this.#weights;
    if (opening.surface.kind === "point") {
      const [ox, oy, oz] = this.#placed.frame.origin;
      this.rays++;
      return this.#surroundings.transmittance(x, y, z, ox, oy, oz, inTheWay);
    }
    const seed = seedOf(number, 11);
    const s = seed / 4294967296;
    const t = seedOf(seed, 13) / 4294967296;
    const rim = this.#rim(opening, x, y, z, px, py, pz, inTheWay);
    let weight = 0;
    let passed = 0;
    let last = -1;
    for (let from = 0, to = PROBES; ; ) {
      scatterOpening(opening, px, py, pz, from, to, s, t, positions, weights);
      for (let k = from; k < to; k++) {
        const w = this.#received(k, px, py, pz, receiver);
        if (w <= 0) continue;
        weight += w;
        passed += w * this.#passed(k, x, y, z, inTheWay);
      }
      // A sliver over the horizon that few samples meet: more of them, and in the end what the outline says.
      if (weight === 0 && to < MOST && rim >= 0 && rim < 1) {
        from = to;
        to = to < FIRST ? FIRST : 2 * to;
        continue;
      }
      if (weight === 0) return rim >= 0 ? rim : 1;
      const share = passed / weight;
      if (to === PROBES && agree(rim, share)) return share;
      if (to > FIRST && Math.abs(share - last) <= 0.4 * this.#error) return share;
      if (to >= MOST) return share;
      last = share;
      from = to;
      to = to < FIRST ? FIRST : 2 * to;
    }
  }

  /** Mean of what passes from the points of the outline; −1 where there are none. */
  #rim(
    opening: OpeningQuadrature,
    x: number,
    y: number,
    z: number,
    px: number,
    py: number,
    pz: number,
    inTheWay: InTheWay,
  ): number {
    const count = opening.surface.rim(px, py, pz, this.#positions);
    let passed = 0;
    for (let k = 0; k < count; k++) passed += this.#passed(k, x, y, z, inTheWay);
    return count === 0 ? -1 : passed / count;
  }

  /** Surfaces that emit in place bring their own elements: each is asked for. */
  #shareOfSurfaces(
    x: number,
    y: number,
    z: number,
    px: number,
    py: number,
    pz: number,
    receiver: Receiver,
    inTheWay: InTheWay,
  ): number {
    const count = this.#emitter.sample(px, py, pz, receiver, 0, this.#positions, this.#weights);
    let weight = 0;
    let passed = 0;
    for (let k = 0; k < count; k++) {
      const w = this.#received(k, px, py, pz, receiver);
      if (w <= 0) continue;
      weight += w;
      passed += w * this.#passed(k, x, y, z, inTheWay);
    }
    return weight > 0 ? passed / weight : 1;
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
    const most = this.#opening === undefined ? this.#emitter.maximumElements : MOST;
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

  #passed(k: number, x: number, y: number, z: number, inTheWay: InTheWay): number {
    this.#toRoom(k, this.#room);
    this.rays++;
    return this.#surroundings.transmittance(x, y, z, this.#room[0], this.#room[1], this.#room[2], inTheWay);
  }

  readonly #room = new Float64Array(3);

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

/** Whether outline and samples are all hidden, or all seen, or all behind the same translucent body. */
function agree(rim: number, share: number): boolean {
  return rim < 0 || Math.abs(rim - share) < 1e-12;
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
