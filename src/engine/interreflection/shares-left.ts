/**
 * What several bodies together leave of a row of factors. A patch that one of them hides in part is left the rest; where
 * more than one does, they are asked together, so that what they hide both is hidden once.
 */

import type { Gather } from "./gather.ts";
import type { Screens } from "./screens.ts";

/** Hidden shares of rows, `start[row]` to `start[row + 1]`. */
export interface HiddenShares {
  readonly start: Uint32Array;
  readonly patch: Uint32Array;
  readonly share: Float64Array;
}

export class SharesLeft {
  readonly #gather: Gather;
  readonly #together: Screens;
  readonly #left: Float64Array;
  readonly #bodies: Uint8Array;
  readonly #touched: number[] = [];

  /** `together` are the screens of all bodies. */
  constructor(gather: Gather, together: Screens) {
    this.#gather = gather;
    this.#together = together;
    this.#left = new Float64Array(gather.patches.count).fill(1);
    this.#bodies = new Uint8Array(gather.patches.count);
  }

  /** Takes what one body hides of a row. */
  take({ start, patch, share }: HiddenShares, row: number): void {
    for (let m = start[row]; m < start[row + 1]; m++) {
      const i = patch[m];
      if (this.#bodies[i] === 0) this.#touched.push(i);
      if (this.#bodies[i] < 2) this.#bodies[i]++;
      this.#left[i] *= 1 - share[m];
    }
  }

  /** Tells what is left of each patch taken from, seen from the row's point, and forgets it. */
  finish(
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    left: (patch: number, share: number) => void,
  ): void {
    let placed = false;
    for (const i of this.#touched) {
      if (this.#bodies[i] > 1) {
        if (!placed) this.#together.sight.from(x, y, z, nx, ny, nz);
        placed = true;
        left(i, this.#gather.sharePast(this.#together, x, y, z, nx, ny, nz, i));
      } else left(i, this.#left[i]);
      this.#left[i] = 1;
      this.#bodies[i] = 0;
    }
    this.#touched.length = 0;
  }
}
