/**
 * Where to part a set of boxes: the surface-area heuristic over 16 bins of their centres [1].
 *
 * Cost of a plane = Σ over both sides of count × surface of the bounds; the cheapest of 15 planes on three axes
 * wins. One sweep from the left and one from the right give the bounds on both sides of every plane, so that a cut
 * costs one look at each box and 2 × 16 bins an axis; nothing is allocated after construction.
 *
 * [1] I. Wald, "On fast construction of SAH-based bounding volume hierarchies", IEEE RT 2007.
 */

const BINS = 16;

export class BinnedSplit {
  /** Least and greatest corner of each box, six numbers a box. */
  readonly #extent: Float64Array;
  readonly #bins = new Float64Array(6 * BINS);
  readonly #counts = new Int32Array(BINS);
  readonly #side = new Float64Array(6);
  /** Cost of what lies left of each plane. */
  readonly #left = new Float64Array(BINS);

  constructor(extent: Float64Array) {
    this.#extent = extent;
  }

  /** Bounds of order[from … to) into six numbers of `out` from `at`; inside out where there is none. */
  bounds(order: Int32Array, from: number, to: number, out: Float64Array, at: number): void {
    empty(out, at);
    for (let i = from; i < to; i++) grow(out, at, this.#extent, 6 * order[i]);
  }

  /** Rearranges order[from … to) about the cheapest plane; its index, or the middle when all centres agree. */
  partition(order: Int32Array, from: number, to: number): number {
    const extent = this.#extent;
    let bestCost = Infinity;
    let bestAxis = -1;
    let bestPlane = 0;
    for (let axis = 0; axis < 3; axis++) {
      let lo = Infinity;
      let hi = -Infinity;
      for (let i = from; i < to; i++) {
        const centre = centreOf(extent, order[i], axis);
        if (centre < lo) lo = centre;
        if (centre > hi) hi = centre;
      }
      if (!(hi > lo)) continue;
      const perUnit = BINS / (hi - lo);
      this.#fill(order, from, to, axis, lo, perUnit);
      const cut = this.#cheapest();
      if (cut.cost < bestCost) {
        bestCost = cut.cost;
        bestAxis = axis;
        bestPlane = lo + cut.plane / perUnit;
      }
    }
    if (bestAxis < 0) return (from + to) >> 1;
    let i = from;
    let j = to - 1;
    while (i <= j) {
      if (centreOf(extent, order[i], bestAxis) < bestPlane) i++;
      else {
        const swap = order[i];
        order[i] = order[j];
        order[j--] = swap;
      }
    }
    return i === from || i === to ? (from + to) >> 1 : i;
  }

  #fill(order: Int32Array, from: number, to: number, axis: number, lo: number, perUnit: number): void {
    const bins = this.#bins;
    const counts = this.#counts;
    for (let bin = 0; bin < BINS; bin++) {
      counts[bin] = 0;
      empty(bins, 6 * bin);
    }
    for (let i = from; i < to; i++) {
      const bin = Math.min(BINS - 1, Math.floor((centreOf(this.#extent, order[i], axis) - lo) * perUnit));
      counts[bin]++;
      grow(bins, 6 * bin, this.#extent, 6 * order[i]);
    }
  }

  /** The cheapest plane between the filled bins, the first of equals. */
  #cheapest(): { readonly plane: number; readonly cost: number } {
    const bins = this.#bins;
    const counts = this.#counts;
    const side = this.#side;
    const left = this.#left;
    empty(side, 0);
    let count = 0;
    for (let plane = 1; plane < BINS; plane++) {
      count += counts[plane - 1];
      grow(side, 0, bins, 6 * (plane - 1));
      left[plane] = costOf(count, side);
    }
    empty(side, 0);
    count = 0;
    let best = 1;
    let cost = Infinity;
    for (let plane = BINS - 1; plane > 0; plane--) {
      count += counts[plane];
      grow(side, 0, bins, 6 * plane);
      const both = left[plane] + costOf(count, side);
      if (both <= cost) {
        cost = both;
        best = plane;
      }
    }
    return { plane: best, cost };
  }
}

function centreOf(extent: Float64Array, box: number, axis: number): number {
  return 0.5 * (extent[6 * box + axis] + extent[6 * box + 3 + axis]);
}

/** Inside out: whatever is added becomes the bounds, and nothing changes what it is added to. */
function empty(box: Float64Array, at: number): void {
  for (let k = 0; k < 3; k++) {
    box[at + k] = Infinity;
    box[at + 3 + k] = -Infinity;
  }
}

function grow(box: Float64Array, at: number, by: Float64Array, from: number): void {
  for (let k = 0; k < 3; k++) {
    if (by[from + k] < box[at + k]) box[at + k] = by[from + k];
    if (by[from + 3 + k] > box[at + 3 + k]) box[at + 3 + k] = by[from + 3 + k];
  }
}

function costOf(count: number, box: Float64Array): number {
  if (count === 0) return 0;
  const x = box[3] - box[0];
  const y = box[4] - box[1];
  const z = box[5] - box[2];
  return count * (x * y + y * z + z * x);
}
