/** Which program lights points by a luminaire: the definitions of `shaders/light/at-points.frag.glsl`. */

/** Lists of solids are kept in steps of so many, so that one solid more is seldom another program. */
const STEP = 8;

/** From a luminaire's and its distribution's records, and the most solids that may stand between. */
export function programFor(
  luminaire: ArrayLike<number>,
  distribution: ArrayLike<number>,
  mostBetween: number,
): {
  readonly KIND: number;
  readonly TYPE: number;
  readonly PLANES_ONE: number;
  readonly EVEN_PLANES: number;
  readonly EVEN_ANGLES: number;
  readonly MOST_BETWEEN: number;
  readonly TRACED: number;
} {
  return {
    KIND: luminaire[3],
    TYPE: distribution[0],
    PLANES_ONE: distribution[1] === 1 ? 1 : 0,
    EVEN_PLANES: distribution[6] > 0 ? 1 : 0,
    EVEN_ANGLES: distribution[7] > 0 ? 1 : 0,
    MOST_BETWEEN: STEP * Math.ceil(mostBetween / STEP),
    TRACED: luminaire[17] > 0 ? 1 : 0,
  };
}
