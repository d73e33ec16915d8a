/**
 * The ladder of node counts on a luminous opening: level 0 is one node at the photometric centre (the
 * inverse-square law), each further level about half as many nodes again, up to some three thousand.
 *
 * Disc: Gauss in r² × even angles, exact for polynomials of degree min(4 n_r − 1, n_φ − 1) in x and y;
 * rectangle: Gauss × Gauss; a shorter side takes fewer nodes in proportion to its length, but one.
 */

import { gaussLegendre } from "../../numerics/quadrature.ts";

/** Nodes along the longest side of a rectangle, by level. */
const ALONG = [1, 2, 3, 4, 5, 6, 8, 10, 14, 20, 28, 40, 56];
/** Rings and angles on a disc, by level. */
const RINGS = [1, 1, 2, 2, 3, 3, 4, 5, 7, 10, 14, 20, 28];
const ANGLES = [1, 4, 6, 8, 10, 12, 16, 20, 28, 40, 56, 80, 112];

export const LEVELS = ALONG.length;
export const TOP_LEVEL = LEVELS - 1;

/** Nodes along a side of a rectangle whose longest side is `longest`. */
export function nodesAlong(level: number, side: number, longest: number): number {
  const n = ALONG[level];
  if (side >= longest) return n;
  return Math.min(n, 1 + Math.ceil((n * side) / longest));
}

export function ringsAt(level: number): number {
  return RINGS[level];
}

export function anglesAt(level: number): number {
  return ANGLES[level];
}

/** Nodes of the unit disc: x, y, weight per node, weights summing to one. */
export function discNodes(level: number): Float64Array {
  const known = discs[level];
  if (known !== undefined) return known;
  const rings = RINGS[level];
  const angles = ANGLES[level];
  const nodes = new Float64Array(3 * rings * angles);
  const gauss = gaussLegendre(rings);
  let k = 0;
  for (let i = 0; i < rings; i++) {
    const r = level === 0 ? 0 : Math.sqrt(gauss.nodes[i]);
    for (let j = 0; j < angles; j++) {
      // Every other ring is turned by half a step, which keeps the mirror symmetry and spreads the nodes.
      const φ = (2 * Math.PI * (j + 0.5 * (i % 2))) / angles;
      nodes[k++] = r * Math.cos(φ);
      nodes[k++] = r * Math.sin(φ);
      nodes[k++] = gauss.weights[i] / angles;
    }
  }
  discs[level] = nodes;
  return nodes;
}

const discs: Float64Array[] = [];

/** Cosine and sine of even angles round a turn, interleaved. */
export function turnNodes(angles: number): Float64Array {
  const known = turns.get(angles);
  if (known !== undefined) return known;
  const nodes = new Float64Array(2 * angles);
  for (let j = 0; j < angles; j++) {
    const φ = (2 * Math.PI * (j + 0.5)) / angles;
    nodes[2 * j] = Math.cos(φ);
    nodes[2 * j + 1] = Math.sin(φ);
  }
  turns.set(angles, nodes);
  return nodes;
}

const turns = new Map<number, Float64Array>();
