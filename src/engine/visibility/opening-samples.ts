/**
 * Points spread evenly over a luminous opening as a receiving point sees it, each with the light it sends there.
 *
 * The quadrature of `direct/` needs a smooth integrand; a shadow's edge is none. Here the opening is sampled by a
 * shifted additive sequence (the R2 sequence of the plastic number [1]) in the parameters in which each shape's
 * projected area is spread evenly or nearly so; weights carry the rest. Coordinates are the luminaire's own.
 *
 * [1] M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018.
 */

import type { OpeningQuadrature } from "../direct/opening-quadrature.ts";

const ALPHA = 0.7548776662466927;
const BETA = 0.5698402909980532;

/** Writes samples `from` … `to` of the opening seen from the local point: position to `positions`, relative
 * illuminance on a plane facing it to `weights`. `s`, `t` in [0, 1) shift the sequence. */
export function scatterOpening(
  emitter: OpeningQuadrature,
  px: number,
  py: number,
  pz: number,
  from: number,
  to: number,
  s: number,
  t: number,
  positions: Float64Array,
  weights: Float64Array,
): void {
  const { surface, lookup } = emitter;
  for (let n = from; n < to; n++) {
    const a = s + (n + 1) * ALPHA;
    const b = t + (n + 1) * BETA;
    const projected = surface.sample(px, py, pz, a - Math.floor(a), b - Math.floor(b), positions, 3 * n);
    const x = px - positions[3 * n];
    const y = py - positions[3 * n + 1];
    const z = pz - positions[3 * n + 2];
    const inverse = 1 / Math.sqrt(x * x + y * y + z * z);
    weights[n] = projected * lookup.towards(x, y, z) * inverse * inverse;
  }
}
