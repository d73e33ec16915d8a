/**
 * The solution with bodies that come and go: lit by a room that does not know of them, or part of its exchange.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import type { JoinedExchange, PartExchange } from "./body-exchange.ts";
import type { BodySolid } from "./body-solid.ts";
import {
  type PassingBody,
  type RadiosityOptions,
  type RadiositySolution,
  solveRadiosity,
} from "./radiosity.ts";
import { dot } from "./row-sums.ts";

/** Everything per layer, then by patch (`layer * patches + i`) or part (`layer * parts + q`). */
export interface RoomLight {
  /** lm */
  readonly patchFlux: Float64Array;
  readonly partFlux: Float64Array;
  readonly layers: number;
}

export interface JoinedSolution {
  readonly room: RadiositySolution;
  /** lm/m² of the parts */
  readonly partExitance: Float64Array;
  /** lm that the bodies keep, and that rows which are not one gain or lose. */
  readonly absorbed: number;
  readonly leak: number;
}

/** Bodies that send on what falls on them, by part number. */
export function passingBodies(solids: readonly BodySolid[], { first, area }: PartExchange): PassingBody[] {
  return solids.flatMap(({ transmittance }, b) => {
    if (transmittance <= 0) return [];
    const own = area.subarray(first[b], first[b + 1]);
    const total = own.reduce((sum, a) => sum + a, 0);
    return [{ first: first[b], last: first[b + 1], share: own.map((a) => (transmittance * a) / total) }];
  });
}

/** Sweeps in which bodies that see one another settle: each is a small part of what another sees. */
const SWEEPS = 4;

/** Exitance of the parts in the light of a room's patches, M_q = ρ_q (D_q + Σ F_qi M_i + Σ F_qr M_r). */
export function litParts(
  n: number,
  parts: PartExchange,
  passing: readonly PassingBody[],
  { partFlux, layers }: RoomLight,
  patchExitance: Float64Array,
): Float64Array {
  const m = parts.parts;
  const out = new Float64Array(m * layers);
  const E = new Float64Array(m);
  const passed = new Float64Array(m);
  for (let l = 0; l < layers; l++) {
    for (let q = 0; q < m; q++) {
      const sum = partFlux[l * m + q] + dot(parts.patches, q * n, patchExitance, l * n, n);
      E[q] = parts.area[q] > 0 ? sum / parts.area[q] : 0;
    }
    for (let sweep = 0; sweep < SWEEPS; sweep++) {
      for (const { first, last, share } of passing) {
        let sum = 0;
        for (let k = first; k < last; k++) sum += share[k - first] * E[k];
        passed.fill(sum, first, last);
      }
      for (let q = 0; q < m; q++) {
        let seen = 0;
        for (let r = 0; r < m; r++) seen += parts.others[q * m + r] * out[l * m + r];
        const own = parts.area[q] > 0 ? seen / parts.area[q] : 0;
        out[l * m + q] = parts.reflectance[q] * (E[q] + own) + passed[q];
      }
    }
  }
  return out;
}

/** Patches and parts solved together, starting from what is known of both. */
export function solveJoined(
  joined: JoinedExchange,
  reflectance: Float64Array,
  parts: PartExchange,
  passing: readonly PassingBody[],
  { patchFlux, partFlux, layers }: RoomLight,
  start: { readonly patches: Float64Array; readonly parts: Float64Array },
  options: RadiosityOptions,
  observer?: Observer,
): JoinedSolution {
  const N = joined.count;
  const n = N - parts.parts;
  const join = (a: ArrayLike<number>, b: ArrayLike<number>): Float64Array => {
    const out = new Float64Array(N * layers);
    for (let l = 0; l < layers; l++)
      for (let i = 0; i < N; i++) out[l * N + i] = i < n ? a[l * n + i] : b[l * (N - n) + i - n];
    return out;
  };
  const part = (a: Float64Array, from: number, to: number): Float64Array => {
    const out = new Float64Array((to - from) * layers);
    for (let l = 0; l < layers; l++) out.set(a.subarray(l * N + from, l * N + to), l * (to - from));
    return out;
  };
  const light = join(patchFlux, partFlux);
  for (let k = 0; k < light.length; k++)
    light[k] = joined.area[k % N] > 0 ? light[k] / joined.area[k % N] : 0;
  const rho = new Float64Array(N);
  rho.set(reflectance);
  rho.set(parts.reflectance, n);
  const solution = solveRadiosity(
    joined.factors,
    rho,
    light,
    options,
    join(start.patches, start.parts),
    observer,
    passing.map(({ first, last, share }) => ({ first: n + first, last: n + last, share })),
  );
  let absorbed = 0;
  let leak = 0;
  for (let l = 0; l < layers; l++)
    for (let i = 0; i < N; i++) {
      const k = l * N + i;
      const own = joined.area[i] * solution.exitance[k];
      leak += own * (joined.rowSums[i] - 1);
      if (i >= n) absorbed += joined.area[i] * (light[k] + solution.interreflected[k]) - own;
    }
  return {
    room: {
      exitance: part(solution.exitance, 0, n),
      interreflected: part(solution.interreflected, 0, n),
      sweeps: solution.sweeps,
      residual: solution.residual,
    },
    partExitance: part(solution.exitance, n, N),
    absorbed,
    leak,
  };
}
