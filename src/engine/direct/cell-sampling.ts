/**
 * Where a cell of the node table is measured: sample places by distance, and by whether the intensity bends.
 *
 * Chosen by experiment against equal-area sums and closed forms (tests/validation/direct-*): fewer places let errors
 * past the bound. Distances count the table's cells, three an octave from a quarter of the opening's radius.
 */

/** How a cell is sampled, by distance: near to an opening the error changes within a cell, and with the nodes' own
 * azimuth; far from it the nearest corner is the worst and few nodes do. */
export interface CellSampling {
  /** First cells in distance that are not sampled this way any more. */
  readonly until: number;
  /** Places within the cell, 0…1, and azimuths of a rotational opening (rad). */
  readonly distance: readonly number[];
  readonly obliquity: readonly number[];
  readonly azimuth: readonly number[];
  readonly turn: readonly number[];
  /** First level that may serve as reference, and the one that must look where nothing arrives: there a narrow
   * beam may have slipped between the nodes. */
  readonly reference: number;
  readonly empty: number;
  /** What measured errors are raised by: many samples miss little of a cell's worst place, few miss much. */
  readonly raise?: number;
}

const SAMPLINGS: readonly CellSampling[] = [
  {
    // 3.2 radii
    until: 11,
    distance: [0, 0.5, 1],
    obliquity: [0.02, 0.25, 0.5, 0.75, 0.98],
    azimuth: [0.02, 0.5, 0.98],
    turn: [0, 0.3, 0.55, 1.1],
    reference: 7,
    empty: 9,
  },
  {
    // 10 radii
    until: 16,
    distance: [0],
    obliquity: [0.02, 0.5, 0.98],
    azimuth: [0.2, 0.8],
    turn: [0.3, 1.1],
    reference: 6,
    empty: 7,
  },
  {
    until: Number.POSITIVE_INFINITY,
    distance: [0],
    obliquity: [0.1, 0.9],
    azimuth: [0.5],
    turn: [0.3],
    reference: 5,
    empty: 5,
  },
];

/** Where the intensity itself bends within what the opening and the cell span, whatever the distance: errors then
 * change sign from one table angle to the next. */
const BENT: CellSampling = {
  until: Number.POSITIVE_INFINITY,
  distance: [0, 0.6],
  obliquity: [0.03, 0.27, 0.5, 0.73, 0.97],
  azimuth: [0.01, 0.5, 0.99],
  turn: [],
  reference: 8,
  empty: 9,
  raise: 1.4,
};
/** The same where one azimuth stands for all: there are few such cells, so each is looked at closely. */
const BENT_ROTATIONAL: CellSampling = {
  ...BENT,
  // 10 radii
  until: 16,
  distance: [0, 0.35, 0.7, 1],
  obliquity: [0, 0.14, 0.28, 0.43, 0.57, 0.71, 0.86, 1],
  turn: [0, 0.55],
  reference: 9,
  raise: 0.9,
};
/** Farther off a bend lies where it lies in obliquity at all distances of a cell, and what it does falls with the distance: the
 * nearest stands for all. By experiment as often past the bound as four distances are (20 openings, 6,000 places each). */
const BENT_ROTATIONAL_FAR: CellSampling = {
  ...BENT_ROTATIONAL,
  until: Number.POSITIVE_INFINITY,
  distance: [0],
  raise: 1.2,
};

/** A table over C bends a little at each of its planes, under what counts as bent; and planes of round angles lie just
 * where the cells meet, so there far cells are measured too. */
const FACETED = SAMPLINGS.map(
  (sampling, k): CellSampling =>
    k === 0 ? sampling : { ...sampling, azimuth: [0.01, 0.5, 0.99], raise: 1.5 },
);

/** The sampling of a cell `i` steps away. */
export function samplingOf(i: number, bent: boolean, rotational: boolean): CellSampling {
  if (bent && !rotational) return BENT;
  if (bent) return i < BENT_ROTATIONAL.until ? BENT_ROTATIONAL : BENT_ROTATIONAL_FAR;
  return (rotational ? SAMPLINGS : FACETED).find(({ until }) => i < until) ?? BENT;
}
