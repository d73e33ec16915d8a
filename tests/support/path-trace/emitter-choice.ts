/**
 * A luminaire chosen at random by what it may send to a point: intensity (mean over C) · cos ξ / d² from its centre,
 * blockers not asked. A tenth of the choice is even, so that no luminaire that sends something is left out.
 */
import { type Emitter, MEAN_NODES } from "./emitter.ts";

const EVEN = 0.1;
const FIELDS = 8;

export class EmitterChoice {
  /** Probability of the one chosen last. */
  probability = 0;
  /** Origin, local z in the room, radius, least guess (cd) of each. */
  private readonly data: Float64Array;
  private readonly mean: Float64Array;
  private readonly own: Int32Array;
  private readonly guesses: Float64Array;

  constructor(emitters: readonly Emitter[]) {
    const least = (mean: Float64Array) => 1e-3 * mean.reduce((a, b) => Math.max(a, b), 0);
    this.data = Float64Array.from(
      emitters.flatMap(({ origin, rotation, radius, meanIntensity }) => [
        ...origin,
        rotation[6],
        rotation[7],
        rotation[8],
        radius,
        least(meanIntensity),
      ]),
    );
    this.mean = Float64Array.from(emitters.flatMap(({ meanIntensity }) => [...meanIntensity]));
    this.own = Int32Array.from(emitters, ({ own }) => own);
    this.guesses = new Float64Array(emitters.length);
  }

  /** Index of a luminaire for a point of `solid` (−1: none) facing n, by a number in [0, 1); −1 where nothing can
   * arrive. The body of a luminaire does not receive its light. */
  choose(
    x: number,
    y: number,
    z: number,
    nx: number,
    ny: number,
    nz: number,
    solid: number,
    u: number,
  ): number {
    const { data, guesses, mean, own } = this;
    const count = guesses.length;
    let whole = 0;
    for (let e = 0, i = 0; e < count; e++, i += FIELDS) {
      guesses[e] = 0;
      if (own[e] >= 0 && own[e] === solid) continue;
      const dx = data[i] - x;
      const dy = data[i + 1] - y;
      const dz = data[i + 2] - z;
      const facing = nx * dx + ny * dy + nz * dz + data[i + 6];
      if (facing <= 0) continue;
      const square = dx * dx + dy * dy + dz * dz + 1e-12;
      const inverse = 1 / Math.sqrt(square);
      const down = (data[i + 3] * dx + data[i + 4] * dy + data[i + 5] * dz) * inverse;
      const node = ((1 - down) * (0.5 * MEAN_NODES) + 0.5) | 0;
      const cosine = Math.min(1, facing * inverse);
      const guess =
        ((mean[e * (MEAN_NODES + 1) + node] + data[i + 7]) * cosine) / (square + data[i + 6] * data[i + 6]);
      guesses[e] = guess;
      whole += guess;
    }
    if (whole === 0) return -1;
    const even = (EVEN * whole) / count;
    let rest = u * whole * (1 + EVEN);
    let chosen = count - 1;
    for (let e = 0; e < count; e++) {
      rest -= guesses[e] + even;
      if (rest < 0) {
        chosen = e;
        break;
      }
    }
    if (guesses[chosen] === 0) return -1;
    this.probability = (guesses[chosen] + even) / (whole * (1 + EVEN));
    return chosen;
  }
}
