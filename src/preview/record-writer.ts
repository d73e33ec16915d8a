/** Records of four floats one after the other, as a texture of fixed width holds them. */

export const RECORDS_WIDTH = 1024;

export class RecordWriter {
  #data = new Float32Array(4 * 4096);
  #length = 0;

  get length(): number {
    return this.#length;
  }

  put(a: number, b = 0, c = 0, d = 0): number {
    if (4 * this.#length === this.#data.length) {
      const more = new Float32Array(2 * this.#data.length);
      more.set(this.#data);
      this.#data = more;
    }
    this.#data.set([a, b, c, d], 4 * this.#length);
    return this.#length++;
  }

  /** Overwrites floats of a record from its `part` on. */
  amend(index: number, part: number, ...values: readonly number[]): void {
    this.#data.set(values, 4 * index + part);
  }

  finish(): { data: Float32Array; rows: number } {
    const rows = Math.max(1, Math.ceil(this.#length / RECORDS_WIDTH));
    const data = new Float32Array(4 * rows * RECORDS_WIDTH);
    data.set(this.#data.subarray(0, 4 * this.#length));
    return { data, rows };
  }
}
