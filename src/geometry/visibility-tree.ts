/**
 * Can light pass from here to there? An any-hit bounding-volume hierarchy over closed triangle meshes.
 *
 * Nodes lie in depth-first order in flat arrays; a node that the segment misses is left by its skip pointer,
 * so a query walks one loop without a stack. Built by the surface-area heuristic (`binned-split.ts`), at
 * most four triangles a leaf; triangles are met two-sided by the test of Möller and Trumbore [1]. A segment counts from
 * 1e-6 m after its start to 1e-6 m before its end, so that what it stands on does not block it.
 *
 * [1] T. Möller, B. Trumbore, "Fast, minimum storage ray-triangle intersection", JGT 2 (1997).
 */

import { BinnedSplit } from "./binned-split.ts";
import type { Mesh } from "./mesh.ts";

/** Clearance at both ends of a segment (m). */
export const SEGMENT_CLEARANCE = 1e-6;

const LEAF_SIZE = 4;
// Edges shared by two triangles must not leak: barycentric coordinates are met with this tolerance.
const EDGE_TOLERANCE = 1e-12;
// Stands in for 1/0: finite, so that 0 · (1/0) is 0 and never NaN when a segment runs in a slab's own plane.
const HUGE = 1e300;

/** One closed body: `transmittance` is the fraction of light that passes straight through the whole of it. */
export interface Solid {
  readonly mesh: Mesh;
  readonly transmittance: number;
}

export class VisibilityTree {
  readonly solids: number;
  readonly triangles: number;
  readonly #bounds: Float64Array;
  readonly #skip: Int32Array;
  /** Leaf: first triangle and count; inner node: count 0. */
  readonly #first: Int32Array;
  readonly #count: Int32Array;
  /** Vertex and two edges per triangle. */
  readonly #corner: Float64Array;
  readonly #solid: Int32Array;
  readonly #transmittance: Float64Array;
  readonly #met: Int32Array;
  #query = 0;

  constructor(solids: readonly Solid[]) {
    const built = build(solids);
    this.solids = solids.length;
    this.triangles = built.solid.length;
    this.#bounds = built.bounds;
    this.#skip = built.skip;
    this.#first = built.first;
    this.#count = built.count;
    this.#corner = built.corner;
    this.#solid = built.solid;
    this.#transmittance = Float64Array.from(solids, (solid) => solid.transmittance);
    this.#met = new Int32Array(solids.length).fill(-1);
  }

  /** The tree itself, for whoever walks it elsewhere; to be read, not changed. Bounds are six numbers a node, least
   * corner first; a corner and two edges are nine a triangle; `count` is 0 in an inner node. */
  get arrays(): {
    readonly bounds: Float64Array;
    readonly skip: Int32Array;
    readonly first: Int32Array;
    readonly count: Int32Array;
    readonly corner: Float64Array;
  } {
    return {
      bounds: this.#bounds,
      skip: this.#skip,
      first: this.#first,
      count: this.#count,
      corner: this.#corner,
    };
  }

  /** Memory held, in bytes. */
  get bytes(): number {
    return (
      this.#bounds.byteLength + this.#corner.byteLength + 12 * this.#skip.length + 4 * this.#solid.length
    );
  }

  /** Fraction of light passed from a to b: 0 when an opaque solid stands between, else the product over the
   * translucent solids crossed, each counted once. `except` is the index of a solid that does not block. */
  transmittance(ax: number, ay: number, az: number, bx: number, by: number, bz: number, except = -1): number {
    const bounds = this.#bounds;
    const skip = this.#skip;
    const counts = this.#count;
    const nodes = skip.length;
    const dx = bx - ax;
    const dy = by - ay;
    const dz = bz - az;
    const distance = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (nodes === 0 || distance <= 2 * SEGMENT_CLEARANCE) return 1;
    const least = SEGMENT_CLEARANCE / distance;
    const most = 1 - least;
    const ix = dx === 0 ? HUGE : 1 / dx;
    const iy = dy === 0 ? HUGE : 1 / dy;
    const iz = dz === 0 ? HUGE : 1 / dz;
    let passed = 1;
    let query = -1;
    let node = 0;
    while (node < nodes) {
      const at = 6 * node;
      let t0 = (bounds[at] - ax) * ix;
      let t1 = (bounds[at + 3] - ax) * ix;
      let enter = t0 < t1 ? t0 : t1;
      let leave = t0 < t1 ? t1 : t0;
      t0 = (bounds[at + 1] - ay) * iy;
      t1 = (bounds[at + 4] - ay) * iy;
      if (t0 > t1) {
        const swap = t0;
        t0 = t1;
        t1 = swap;
      }
      if (t0 > enter) enter = t0;
      if (t1 < leave) leave = t1;
      t0 = (bounds[at + 2] - az) * iz;
      t1 = (bounds[at + 5] - az) * iz;
      if (t0 > t1) {
        const swap = t0;
        t0 = t1;
        t1 = swap;
      }
      if (t0 > enter) enter = t0;
      if (t1 < leave) leave = t1;
      if (enter > leave || enter > most || leave < least) {
        node = skip[node];
        continue;
      }
      const count = counts[node];
      const first = this.#first[node];
      for (let triangle = first; triangle < first + count; triangle++) {
        const solid = this.#solid[triangle];
        if (solid === except) continue;
        if (!this.#meets(triangle, ax, ay, az, dx, dy, dz, least, most)) continue;
        const tau = this.#transmittance[solid];
        if (tau === 0) return 0;
        if (query < 0) query = ++this.#query;
        if (this.#met[solid] === query) continue;
        this.#met[solid] = query;
        passed *= tau;
      }
      node++;
    }
    return passed;
  }

  #meets(
    triangle: number,
    ax: number,
    ay: number,
    az: number,
    dx: number,
    dy: number,
    dz: number,
    least: number,
    most: number,
  ): boolean {
    const c = this.#corner;
    const k = 9 * triangle;
    const e1x = c[k + 3];
    const e1y = c[k + 4];
    const e1z = c[k + 5];
    const e2x = c[k + 6];
    const e2y = c[k + 7];
    const e2z = c[k + 8];
    const px = dy * e2z - dz * e2y;
    const py = dz * e2x - dx * e2z;
    const pz = dx * e2y - dy * e2x;
    const determinant = e1x * px + e1y * py + e1z * pz;
    if (determinant === 0) return false;
    const inverse = 1 / determinant;
    const sx = ax - c[k];
    const sy = ay - c[k + 1];
    const sz = az - c[k + 2];
    const u = (sx * px + sy * py + sz * pz) * inverse;
    if (u < -EDGE_TOLERANCE || u > 1 + EDGE_TOLERANCE) return false;
    const qx = sy * e1z - sz * e1y;
    const qy = sz * e1x - sx * e1z;
    const qz = sx * e1y - sy * e1x;
    const v = (dx * qx + dy * qy + dz * qz) * inverse;
    if (v < -EDGE_TOLERANCE || u + v > 1 + EDGE_TOLERANCE) return false;
    const t = (e2x * qx + e2y * qy + e2z * qz) * inverse;
    return t >= least && t <= most;
  }
}

interface Built {
  readonly bounds: Float64Array;
  readonly skip: Int32Array;
  readonly first: Int32Array;
  readonly count: Int32Array;
  readonly corner: Float64Array;
  readonly solid: Int32Array;
}

function build(solids: readonly Solid[]): Built {
  let total = 0;
  for (const { mesh } of solids) total += mesh.triangles.length / 3;
  const corner = new Float64Array(9 * total);
  const owner = new Int32Array(total);
  const extent = new Float64Array(6 * total);
  let t = 0;
  solids.forEach(({ mesh: { positions, triangles } }, index) => {
    for (let i = 0; i < triangles.length; i += 3, t++) {
      owner[t] = index;
      for (let k = 0; k < 3; k++) {
        const a = positions[3 * triangles[i] + k];
        const b = positions[3 * triangles[i + 1] + k];
        const c = positions[3 * triangles[i + 2] + k];
        corner[9 * t + k] = a;
        corner[9 * t + 3 + k] = b - a;
        corner[9 * t + 6 + k] = c - a;
        extent[6 * t + k] = Math.min(a, b, c);
        extent[6 * t + 3 + k] = Math.max(a, b, c);
      }
    }
  });
  const order = Int32Array.from({ length: total }, (_, i) => i);
  // A binary tree of leaves of one triangle or more.
  const most = Math.max(0, 2 * total - 1);
  const bounds = new Float64Array(6 * most);
  const skip = new Int32Array(most);
  const first = new Int32Array(most);
  const count = new Int32Array(most);
  const split = new BinnedSplit(extent);

  let nodes = 0;
  const grow = (from: number, to: number): void => {
    const node = nodes++;
    split.bounds(order, from, to, bounds, 6 * node);
    first[node] = from;
    const middle = to - from <= LEAF_SIZE ? from : split.partition(order, from, to);
    if (middle === from) {
      count[node] = to - from;
    } else {
      grow(from, middle);
      grow(middle, to);
    }
    skip[node] = nodes;
  };
  if (total > 0) grow(0, total);

  const sortedCorner = new Float64Array(9 * total);
  const sortedOwner = new Int32Array(total);
  for (let to = 0; to < total; to++) {
    const from = order[to];
    for (let k = 0; k < 9; k++) sortedCorner[9 * to + k] = corner[9 * from + k];
    sortedOwner[to] = owner[from];
  }
  return {
    bounds: bounds.slice(0, 6 * nodes),
    skip: skip.slice(0, nodes),
    first: first.slice(0, nodes),
    count: count.slice(0, nodes),
    corner: sortedCorner,
    solid: sortedOwner,
  };
}
