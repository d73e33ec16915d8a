/** A room point in a luminaire's own frame, without allocating: x_local = Rᵀ (x − origin). */
export class LocalPoint {
  x = Number.NaN;
  y = Number.NaN;
  z = Number.NaN;
  readonly #origin: Float64Array;
  readonly #rotation: Float64Array;

  constructor(origin: readonly [number, number, number], rotation: Float64Array) {
    this.#origin = Float64Array.from(origin);
    this.#rotation = rotation;
  }

  /** Takes the `index`-th of `points` (x, y, z each). */
  set(points: Float64Array, index: number): void {
    const r = this.#rotation;
    const x = points[3 * index] - this.#origin[0];
    const y = points[3 * index + 1] - this.#origin[1];
    const z = points[3 * index + 2] - this.#origin[2];
    this.x = r[0] * x + r[1] * y + r[2] * z;
    this.y = r[3] * x + r[4] * y + r[5] * z;
    this.z = r[6] * x + r[7] * y + r[8] * z;
  }
}
