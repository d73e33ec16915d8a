/**
 * The direct light of one luminaire, hung at one height, on every node of a lattice about it.
 *
 *   K(i, j) = E(p) where p − centre = R(turn)·(i h, j h), −drop
 *
 * A luminaire that moves by whole steps of the lattice over points that lie on it carries its field along unchanged:
 * E at (m, n) from a luminaire at (a, b) is K(m − a, n − b), shifted, never interpolated. Nodes are worked out by the
 * direct engine the first time they are asked for, each bounded by its own size (no floor), so that what a node holds
 * never depends on what else hangs.
 *
 * A distribution that mirrors in both of its planes, under an opening that does (all of them do) and hung along the
 * lattice, is worked out in one quadrant: K(i, j) = K(|i|, |j|).
 *
 * Error: none beside the engine's own near-field bound; 1e-9 of the engine's figure by rounding (tests).
 */

import { addDirectLight } from "../../engine/direct/direct-light.ts";
import type { DirectSource } from "../../engine/direct/direct-source.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";

export interface KernelPlace {
  /** Rotation of the luminaire, local to room. */
  readonly rotation: Float64Array;
  /** Photometric centre above the receiving plane (m). */
  readonly drop: number;
  /** Heading of the lattice's i direction (rad from the room's +x). */
  readonly turn: number;
  /** Lattice step h (m). */
  readonly step: number;
  /** Largest |i| and |j| that will be asked for, point less place. */
  readonly reach: readonly [along: number, across: number];
}

export class LatticeKernel {
  readonly #luminaire: Luminaire;
  readonly #place: KernelPlace;
  readonly #source: DirectSource;
  readonly #values: Float64Array;
  readonly #columns: number;
  /** Whether one quadrant stands for all. */
  readonly #folded: boolean;

  constructor(luminaire: Luminaire, place: KernelPlace, source: DirectSource) {
    this.#luminaire = luminaire;
    this.#source = source;
    this.#place = place;
    const [along, across] = place.reach;
    this.#folded = mirrorsOnLattice(luminaire, place);
    this.#columns = this.#folded ? along + 1 : 2 * along + 1;
    const rows = this.#folded ? across + 1 : 2 * across + 1;
    this.#values = new Float64Array(this.#columns * rows).fill(Number.NaN);
  }

  /** Writes the light (lx, full output, initial) that a luminaire at node (a, b) sends to the nodes of `nodes`
   * (i, j each) listed in `which`, to the same places of `out`. */
  write(a: number, b: number, nodes: Int32Array, which: Int32Array, out: Float64Array): void {
    const values = this.#values;
    const columns = this.#columns;
    const folded = this.#folded;
    const [along, across] = folded ? [0, 0] : this.#place.reach;
    let missing: number[] | undefined;
    for (let k = 0; k < which.length; k++) {
      const p = which[k];
      let i = nodes[2 * p] - a;
      let j = nodes[2 * p + 1] - b;
      if (folded) {
        i = i < 0 ? -i : i;
        j = j < 0 ? -j : j;
      }
      const index = (j + across) * columns + i + along;
      const E = values[index];
      if (Number.isNaN(E)) {
        missing ??= [];
        missing.push(index, p);
      } else out[p] = E;
    }
    if (missing === undefined) return;
    this.#calculate(missing);
    for (let k = 0; k < missing.length; k += 2) out[missing[k + 1]] = values[missing[k]];
  }

  /** Works out the nodes at the even entries of `missing`. */
  #calculate(missing: readonly number[]): void {
    const { rotation, drop, turn, step } = this.#place;
    const reach = this.#folded ? [0, 0] : this.#place.reach;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const count = missing.length / 2;
    const points = new Float64Array(3 * count);
    for (let k = 0; k < count; k++) {
      const index = missing[2 * k];
      const x = ((index % this.#columns) - reach[0]) * step;
      const y = (Math.floor(index / this.#columns) - reach[1]) * step;
      points[3 * k] = c * x - s * y;
      points[3 * k + 1] = s * x + c * y;
      points[3 * k + 2] = -drop;
    }
    const E = new Float64Array(count);
    addDirectLight(
      { luminaire: this.#luminaire, source: this.#source, frame: { origin: [0, 0, 0], rotation } },
      {
        name: "lattice",
        role: "probe",
        quantity: "planar",
        points,
        normal: [0, 0, 1],
        weights: new Float64Array(0),
      },
      0,
      E,
    );
    for (let k = 0; k < count; k++) this.#values[missing[2 * k]] = E[k];
  }
}

const SQUARE = 1e-9;

/** Whether the light on the lattice is the same in all four quadrants. */
function mirrorsOnLattice({ distribution, emission }: Luminaire, { rotation, turn }: KernelPlace): boolean {
  if (emission.kind !== "opening" || distribution.type !== "C") return false;
  if (distribution.symmetry !== "rotational" && distribution.symmetry !== "quadrant") return false;
  // Upright, its own x along or across the lattice.
  const heading = Math.atan2(rotation[1], rotation[0]) - turn;
  return Math.abs(rotation[8] - 1) < SQUARE && Math.abs(Math.sin(2 * heading)) < SQUARE;
}
