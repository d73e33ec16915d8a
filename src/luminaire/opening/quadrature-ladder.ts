/**
 * The ladder of node counts on a luminous opening: level 0 is one node at the photometric centre (the
 * inverse-square law), each further level about half as many nodes again, up to some three thousand.
 *
 * Disc: Gauss in r² × even angles, exact for polynomials of degree min(4 n_r − 1, n_φ − 1) in x and y;
 * rectangle: Gauss × Gauss; a shorter side takes fewer nodes in proportion to its length, but one.
 */

/** Nodes along the longest side of a rectangle, by level. */
const ALONG = [1, 2, 3, 4, 5, 6, 8, 10, 14, 20, 28, 40, 56];
/** The least across it: so that a step up the ladder is a step in both directions, and standing still means it. */
const LEAST_ACROSS = [1, 1, 1, 2, 2, 2, 3, 4, 5, 7, 10, 14, 20];
/** Rings and angles on a disc, by level. */
const RINGS = [1, 1, 2, 2, 3, 3, 4, 5, 7, 10, 14, 20, 28];
const ANGLES = [1, 4, 6, 8, 10, 12, 16, 20, 28, 40, 56, 80, 112];

export const LEVELS = ALONG.length;
export const TOP_LEVEL = LEVELS - 1;

/** Nodes along a side of a rectangle whose longest side is `longest`. */
export function nodesAlong(level: number, side: number, longest: number): number {
  const n = ALONG[level];
  if (side >= longest) return n;
  return Math.min(n, Math.max(LEAST_ACROSS[level], 1 + Math.ceil((n * side) / longest)));
}

/** Nodes round the arc of a cylinder that a point sees: the arc turns through almost half a circle however thin
 * the cylinder. */
export function nodesRound(level: number, diameter: number, longest: number): number {
  return Math.max(nodesAlong(level, diameter, longest), RINGS[level] + 2);
}

export function ringsAt(level: number): number {
  return RINGS[level];
}

export function anglesAt(level: number): number {
  return ANGLES[level];
}

/** Cosine and sine of even angles round a turn at a level, interleaved; the first at 0 when `straight`, else half a step
 * on. Constants of mathematics, of 26 sizes in all. */
export function turnNodes(level: number, straight: boolean): Float64Array {
  return (straight ? STRAIGHT : BETWEEN)[level];
}

const turnOf = (angles: number, first: number): Float64Array =>
  Float64Array.from({ length: 2 * angles }, (_, n) => {
    const φ = (2 * Math.PI * ((n >> 1) + first)) / angles;
    return n % 2 === 0 ? Math.cos(φ) : Math.sin(φ);
  });
const STRAIGHT = ANGLES.map((angles) => turnOf(angles, 0));
const BETWEEN = ANGLES.map((angles) => turnOf(angles, 0.5));
