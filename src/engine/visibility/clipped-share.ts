/** The share of a polygon's area that a point sees past what `Clipping` holds. */

import type { Clipping } from "../../geometry/clipping.ts";

export class ClippedShare {
  #seenArea = 0;
  #hiddenArea = 0;

  /** @param polygon corners relative to the point (m) */
  of(polygon: Float64Array, count: number, clipping: Clipping): number {
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = 0; i < 3 * count; i += 3) {
      x += polygon[i] / count;
      y += polygon[i + 1] / count;
      z += polygon[i + 2] / count;
    }
    let square = 0;
    for (let i = 0; i < 3 * count; i += 3)
      square = Math.max(
        square,
        (polygon[i] - x) ** 2 + (polygon[i + 1] - y) ** 2 + (polygon[i + 2] - z) ** 2,
      );
    const lost = clipping.hidden(x, y, z, Math.sqrt(square));
    if (lost !== "part") return lost === "all" ? 0 : 1;
    this.#seenArea = 0;
    this.#hiddenArea = 0;
    clipping.clip(polygon, count, this.#addSeen, this.#addHidden);
    if (this.#hiddenArea === 0) return 1;
    return this.#seenArea / (this.#seenArea + this.#hiddenArea);
  }

  readonly #addSeen = (v: Float64Array, offset: number, count: number, share: number): void => {
    this.#seenArea += share * areaOf(v, offset, count);
  };

  readonly #addHidden = (
    v: Float64Array,
    offset: number,
    count: number,
    share: number,
    body: number,
  ): void => {
    if (body >= 0) this.#hiddenArea += share * areaOf(v, offset, count);
  };
}

function areaOf(v: Float64Array, offset: number, count: number): number {
  const o = 3 * offset;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let i = o + 3; i < o + 3 * (count - 1); i += 3) {
    const ax = v[i] - v[o];
    const ay = v[i + 1] - v[o + 1];
    const az = v[i + 2] - v[o + 2];
    const bx = v[i + 3] - v[o];
    const by = v[i + 4] - v[o + 1];
    const bz = v[i + 5] - v[o + 2];
    x += ay * bz - az * by;
    y += az * bx - ax * bz;
    z += ax * by - ay * bx;
  }
  return Math.sqrt(x * x + y * y + z * z) / 2;
}
