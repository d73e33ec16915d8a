/**
 * Light arriving from a luminous opening, as weighted elements or summed at once.
 *
 *   E = Σ Wᵢ I(ωᵢ) cos ξᵢ / dᵢ²,   ωᵢ from element i to the point,
 *   Wᵢ = dAᵢ / A on a flat opening, n·ω dAᵢ / A_p(ω) on a body [`luminaire/opening`].
 * Elements come from the opening; this file turns their weights into illuminance. Coordinates are the
 * luminaire's own.
 *
 * Error: by node count, from the table of `node-table.ts`; level 0 is the inverse-square law from the centre.
 */

import { ElementRules, type Horizon, NO_HORIZON } from "../../luminaire/opening/element-rules.ts";
import type { OpeningSurface } from "../../luminaire/opening/opening-surface.ts";
import { openingSurface } from "../../luminaire/opening/openings.ts";
import { TOP_LEVEL } from "../../luminaire/opening/quadrature-ladder.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";
import { ProductionLookup } from "../../photometry/production-lookup.ts";

export class OpeningQuadrature {
  readonly surface: OpeningSurface;
  readonly lookup: ProductionLookup;
  /** True where the nodes do not depend on the point, so that `planar` may sum at once. */
  readonly flat: boolean;
  readonly #atOnce: boolean;
  readonly #rules = new ElementRules();
  /** Per level x, y, z, weight of each node of a flat opening. */
  readonly #nodes: Float64Array[] = [];
  #positions = new Float64Array(0);
  #illuminance = new Float64Array(0);
  #room: Scratch = {
    vectors: new Float64Array(0),
    inverse: new Float64Array(0),
    values: new Float64Array(0),
  };

  constructor(distribution: IntensityDistribution, opening: LuminousOpening) {
    this.surface = openingSurface(opening, distribution);
    this.lookup = new ProductionLookup(distribution);
    this.flat = this.surface.flat;
    this.#atOnce = this.lookup.sumsAtOnce;
  }

  /** Most elements that any level up to `level` writes, a horizon's extra stretches included. */
  maximumElements(level = TOP_LEVEL): number {
    return this.surface.maximumElements(level);
  }

  /** Writes the elements seen from the local point: position x, y, z to `positions`, illuminance on a plane
   * facing the element (lx) to `normalIlluminance`. Returns their count. With a `horizon`, only what stands
   * above it, in nodes that end there. Never allocates, once a level was used before. */
  sample(
    px: number,
    py: number,
    pz: number,
    level: number,
    positions: Float64Array,
    normalIlluminance: Float64Array,
    horizon: Horizon = NO_HORIZON,
  ): number {
    const whole = level === 0 || this.surface.kind === "point";
    if (whole || (this.flat && !horizon.cuts)) {
      const nodes = this.#flatNodes(level);
      let count = 0;
      for (let k = 0; k < nodes.length; k += 4) {
        positions[3 * count] = nodes[k];
        positions[3 * count + 1] = nodes[k + 1];
        positions[3 * count + 2] = nodes[k + 2];
        normalIlluminance[count++] = nodes[k + 3];
      }
      this.#complete(px, py, pz, count, positions, normalIlluminance, true);
      return count;
    }
    const count = this.#elements(px, py, pz, level, horizon, positions, normalIlluminance);
    this.#complete(px, py, pz, count, positions, normalIlluminance, this.flat);
    return count;
  }

  /** Illuminance (lx) at the local point on the plane of local unit normal (nx, ny, nz), from a flat opening:
   * `sample` and the cosine in one pass. */
  planar(px: number, py: number, pz: number, nx: number, ny: number, nz: number, level: number): number {
    const nodes = this.#flatNodes(level);
    if (this.#atOnce) return this.lookup.planarSum(nodes, px, py, pz, nx, ny, nz);
    const { vectors, inverse, values } = this.#scratch(nodes.length / 4);
    let count = 0;
    for (let k = 0; k < nodes.length; k += 4) {
      const x = px - nodes[k];
      const y = py - nodes[k + 1];
      const z = pz - nodes[k + 2];
      const h = -(nx * x + ny * y + nz * z);
      if (h > 0) {
        const over = 1 / Math.sqrt(x * x + y * y + z * z);
        vectors[3 * count] = x;
        vectors[3 * count + 1] = y;
        vectors[3 * count + 2] = z;
        inverse[count] = over;
        values[count++] = nodes[k + 3] * h * over * over * over;
      }
    }
    this.lookup.multiply(vectors, inverse, values, count);
    let E = 0;
    for (let i = 0; i < count; i++) E += values[i];
    return E;
  }

  /** Σ g and Σ g times position by axis, g = E / d of every element seen from the local point, to `out` from `at`. */
  moments(px: number, py: number, pz: number, level: number, out: Float64Array, at: number): void {
    if (this.#atOnce && (this.flat || level === 0)) {
      this.lookup.momentSums(this.#flatNodes(level), px, py, pz, out, at);
      return;
    }
    const most = this.maximumElements(level);
    if (this.#illuminance.length < most) {
      this.#positions = new Float64Array(3 * most);
      this.#illuminance = new Float64Array(most);
    }
    const positions = this.#positions;
    const illuminance = this.#illuminance;
    const count = this.sample(px, py, pz, level, positions, illuminance);
    const { inverse } = this.#room;
    let S0 = 0;
    let Sx = 0;
    let Sy = 0;
    let Sz = 0;
    for (let i = 0; i < count; i++) {
      const g = illuminance[i] * inverse[i];
      S0 += g;
      Sx += g * positions[3 * i];
      Sy += g * positions[3 * i + 1];
      Sz += g * positions[3 * i + 2];
    }
    out[at] = S0;
    out[at + 1] = Sx;
    out[at + 2] = Sy;
    out[at + 3] = Sz;
  }

  /** Position and weight of every element seen from the local point; returns their count. */
  #elements(
    px: number,
    py: number,
    pz: number,
    level: number,
    horizon: Horizon,
    positions: Float64Array,
    weights: Float64Array,
  ): number {
    const rules = this.#rules;
    rules.begin(horizon, positions, weights);
    this.surface.elements(rules, px, py, pz, level);
    return rules.count;
  }

  #flatNodes(level: number): Float64Array {
    let nodes = this.#nodes[level];
    if (nodes === undefined) {
      nodes = this.#flatNodesOf(level);
      this.#nodes[level] = nodes;
    }
    return nodes;
  }

  #flatNodesOf(level: number): Float64Array {
    if (level === 0 || this.surface.kind === "point" || !this.flat) return Float64Array.of(0, 0, 0, 1);
    const room = this.maximumElements(level);
    const positions = new Float64Array(3 * room);
    const weights = new Float64Array(room);
    const count = this.#elements(0, 0, 0, level, NO_HORIZON, positions, weights);
    const nodes = new Float64Array(4 * count);
    for (let i = 0; i < count; i++) {
      nodes.set(positions.subarray(3 * i, 3 * i + 3), 4 * i);
      nodes[4 * i + 3] = weights[i];
    }
    return nodes;
  }

  /** Completes `count` elements whose positions are written: their weight W, which unless `shared` is n·v dA
   * still to be divided by A_p(v), becomes the illuminance W I / d². */
  #complete(
    px: number,
    py: number,
    pz: number,
    count: number,
    positions: Float64Array,
    values: Float64Array,
    shared: boolean,
  ): void {
    const { surface } = this;
    const { vectors, inverse } = this.#scratch(count);
    for (let i = 0; i < count; i++) {
      const x = px - positions[3 * i];
      const y = py - positions[3 * i + 1];
      const z = pz - positions[3 * i + 2];
      const over = 1 / Math.sqrt(x * x + y * y + z * z);
      vectors[3 * i] = x;
      vectors[3 * i + 1] = y;
      vectors[3 * i + 2] = z;
      inverse[i] = over;
      values[i] *= over * over;
      if (shared) continue;
      const area = surface.projectedArea(x, y, z);
      values[i] = area > 0 ? values[i] / area : 0;
    }
    this.lookup.multiply(vectors, inverse, values, count);
  }

  /** Room for `count` elements in hand; grows, and is kept. */
  #scratch(count: number): Scratch {
    if (this.#room.inverse.length < count) {
      this.#room = {
        vectors: new Float64Array(3 * count),
        inverse: new Float64Array(count),
        values: new Float64Array(count),
      };
    }
    return this.#room;
  }
}

interface Scratch {
  readonly vectors: Float64Array;
  readonly inverse: Float64Array;
  readonly values: Float64Array;
}
