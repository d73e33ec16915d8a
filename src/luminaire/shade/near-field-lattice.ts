/**
 * The near field of a shade of revolution from tables that a point looks up instead of summing over every ring: one of
 * the rings, one of each kind of lamp about the lamp's own centre, from which the shade's cut-off stands at one angle,
 * and one of the mirror-like light.
 *
 * Nodes of rings and lamps are worked out the first time a point needs them and kept. Error of the rings' up to 0.3 %;
 * the lamp's edge is a quarter of a degree soft. Nearer than half the shade's reach the light of that distance stands in.
 */

import type { SurfaceEmission } from "../emission.ts";
import { GROUP_STRIDE, type LightTable } from "./light-table.ts";
import { MIRROR_GROUPS } from "./mirror-table.ts";
import { LAMP_GROUPS, type ShadeLight, SURFACE_GROUPS, shadeSums } from "./shade-light.ts";

const SURFACE_ROWS = 33;
const SURFACE_ANGLES = 121;
const LAMP_ROWS = 17;
const LAMP_ANGLES = 721;

/** Most elements that a sample of a shade with one kind of lamp writes. */
export const MAXIMUM_ELEMENTS = 2 * (SURFACE_GROUPS + LAMP_GROUPS + MIRROR_GROUPS);

/** A table whose nodes are made when they are wanted. */
class Lattice {
  readonly table: LightTable;
  readonly #known: Uint8Array;
  readonly #at: ((r: number, z: number, out: Float64Array) => void) | undefined;
  readonly #node: Float64Array;

  constructor(table: LightTable, at?: (r: number, z: number, out: Float64Array) => void) {
    this.table = table;
    this.#at = at;
    this.#known = new Uint8Array(at === undefined ? 0 : table.rows * table.angles);
    this.#node = new Float64Array(table.groups * GROUP_STRIDE);
  }

  /** Writes the groups at radius r and height z over the rim: vector illuminance (lx) and mean distance (m). */
  blend(r: number, z: number, out: Float64Array): void {
    const { centre, nearest, rows, angles, values } = this.table;
    const fall = centre - z;
    const d = Math.max(nearest, Math.hypot(r, fall));
    const a = ((rows - 1) * nearest) / d;
    const b = (Math.atan2(r, fall) / Math.PI) * (angles - 1);
    const i = Math.min(rows - 2, Math.floor(a));
    const j = Math.min(angles - 2, Math.floor(b));
    const s = a - i;
    const t = b - j;
    const n00 = this.#first(i, j);
    const n10 = this.#first(i + 1, j);
    const n01 = this.#first(i, j + 1);
    const n11 = this.#first(i + 1, j + 1);
    const scale = 1 / (d * d);
    for (let k = 0; k < out.length; k++) {
      const value =
        (1 - t) * ((1 - s) * values[n00 + k] + s * values[n10 + k]) +
        t * ((1 - s) * values[n01 + k] + s * values[n11 + k]);
      out[k] = k % GROUP_STRIDE === 3 ? d - value : value * scale;
    }
  }

  /** Works out every node. */
  fill(): LightTable {
    const { rows, angles } = this.table;
    if (this.#at !== undefined)
      for (let i = 0; i < rows; i++) for (let j = 0; j < angles; j++) this.#first(i, j);
    return this.table;
  }

  #first(i: number, j: number): number {
    const { centre, nearest, rows, angles, groups, values } = this.table;
    const index = i * angles + j;
    const first = index * groups * GROUP_STRIDE;
    if (this.#at === undefined || this.#known[index] === 1) return first;
    this.#known[index] = 1;
    // Infinity is far enough where the places of the sources make 1e-5.
    const d = (nearest * (rows - 1)) / Math.max(i, 1e-4);
    const gamma = (j * Math.PI) / (angles - 1);
    this.#at(d * Math.sin(gamma), centre - d * Math.cos(gamma), this.#node);
    for (let k = 0; k < this.#node.length; k++)
      values[first + k] =
        k % GROUP_STRIDE < 3 ? this.#node[k] * d * d : this.#node[k] > 0 ? d - this.#node[k] : 0;
    return first;
  }
}

export class NearFieldLattice {
  readonly #lattices: readonly Lattice[];
  readonly #blends: readonly Float64Array[];
  readonly #centre: number;
  readonly maximumElements = MAXIMUM_ELEMENTS;

  constructor(light: ShadeLight) {
    const { centre, reach, lamps } = light.assembly;
    const sums = shadeSums(light);
    const nearest = reach / 2;
    const empty = (height: number, rows: number, angles: number, groups: number): LightTable => ({
      centre: height,
      nearest,
      rows,
      angles,
      groups,
      values: new Float32Array(rows * angles * groups * GROUP_STRIDE),
    });
    this.#centre = centre;
    this.#lattices = [
      new Lattice(empty(centre, SURFACE_ROWS, SURFACE_ANGLES, SURFACE_GROUPS), sums.surfacesAt),
      ...lamps.map(
        (lamp) =>
          new Lattice(empty(lamp.z, LAMP_ROWS, LAMP_ANGLES, LAMP_GROUPS), (r, z, out) =>
            sums.lampsAt(lamp, r, z, out),
          ),
      ),
      ...(light.mirrored === undefined ? [] : [new Lattice(light.mirrored)]),
    ];
    this.#blends = this.#lattices.map(({ table }) => new Float64Array(table.groups * GROUP_STRIDE));
  }

  /** The whole tables of a luminaire of the given size and strength; their centres relative to the photometric one. */
  tables({ size, strength }: SurfaceEmission): readonly LightTable[] {
    return this.#lattices.map((lattice) => {
      const table = lattice.fill();
      const { centre, nearest, values } = table;
      // Illuminance falls as distance² grows: their product stays.
      const scaled =
        size === 1 && strength === 1
          ? values
          : values.map((x, k) => x * (k % GROUP_STRIDE === 3 ? size : strength));
      return { ...table, centre: size * (centre - this.#centre), nearest: size * nearest, values: scaled };
    });
  }

  /** Writes the light arriving at the local point (px, py, pz) of a luminaire of the given size and strength: for each
   * of the returned count of elements its local position to `positions[3i…]` and its illuminance on a plane facing it
   * to `illuminance[i]` (lx). The luminaire's own shade is already accounted for. At most MAXIMUM_ELEMENTS. */
  sample(
    { size, strength }: SurfaceEmission,
    px: number,
    py: number,
    pz: number,
    positions: Float64Array,
    illuminance: Float64Array,
  ): number {
    const level = strength / (size * size);
    const r = Math.sqrt(px * px + py * py) / size;
    const z = pz / size + this.#centre;
    const cos = r > 0 ? px / (r * size) : 1;
    const sin = r > 0 ? py / (r * size) : 0;
    let count = 0;
    for (let n = 0; n < this.#lattices.length; n++) {
      const blend = this.#blends[n];
      this.#lattices[n].blend(r, z, blend);
      for (let at = 0; at < blend.length; at += GROUP_STRIDE) {
        const vx = blend[at];
        const vy = blend[at + 1];
        const vz = blend[at + 2];
        const magnitude = Math.sqrt(vx * vx + vy * vy + vz * vz);
        if (magnitude === 0) continue;
        const along = (size * blend[at + 3]) / magnitude;
        for (let side = 1; side >= -1; side -= 2) {
          const wy = side * vy;
          positions[3 * count] = px + along * (vx * cos - wy * sin);
          positions[3 * count + 1] = py + along * (vx * sin + wy * cos);
          positions[3 * count + 2] = pz + along * vz;
          illuminance[count] = level * magnitude;
          count++;
        }
      }
    }
    return count;
  }
}
