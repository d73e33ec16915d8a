/**
 * What is tried: every count, pitch, clearance and shift of a row of each kind, and of two kinds in turn.
 *
 * Defaults are wide enough for any rule of thumb: 1 to 6 pendants, gaps from a hand's breadth up to the length of the
 * top, 150 mm (6 in) free at its ends, 0.75 to 0.90 m (30 to 36 in) above it, about the island's middle or where the row
 * hangs as drawn. Where boxes would meet joists the whole row shifts as little as frees them (constraints.ts). All common practice, no source.
 */

import type { Vec2 } from "../../geometry/vector.ts";
import type { Island } from "../../scene/scene.ts";
import { METRES_PER_INCH } from "../../units/quantities.ts";
import type { Candidate, Kind } from "./candidate.ts";

export interface SearchSpace {
  /** Lattice step (m). */
  readonly step: number;
  readonly counts: readonly number[];
  /** Lowest points above the top (m). */
  readonly clearances: readonly number[];
  /** Least free distance between neighbouring rims, and from outer rim to the end of the top (m). */
  readonly leastGap: number;
  readonly leastEnd: number;
  /** Where rows hang without a shift: along and across from the middle of the island's length and width (m). */
  readonly about: Vec2;
  /** Shifts of the row from there (m); taken to the nearest two steps. */
  readonly along: readonly number[];
  readonly across: readonly number[];
  /** Also rows of two kinds in turn. */
  readonly pairs: boolean;
}

export const METRIC_STEP = 0.025;
export const INCH_STEP = METRES_PER_INCH;
/** Most candidates of one search, and most points of its grid. */
export const MOST_CANDIDATES = 200_000;
const MOST_POINTS = 20_000;
/** Most candidates times points: some seconds' work. */
const MOST_WORK = 2e9;

/** How many rows a grid of so many points lets a search look at. */
export function mostCandidates(points: number): number {
  return Math.min(MOST_CANDIDATES, Math.floor(MOST_WORK / Math.max(1, points)));
}

/** @param island one too large for the lattice's points gets a coarser one */
export function usualSpace(
  unit: "mm" | "m" | "ft-in",
  island?: Pick<Island, "length" | "width">,
): SearchSpace {
  const inch = unit === "ft-in";
  const step = inch ? INCH_STEP : METRIC_STEP;
  let lattice = step;
  const { length, width } = island ?? { length: 0, width: 0 };
  while ((length / (2 * lattice)) * (width / (2 * lattice)) > MOST_POINTS) lattice *= 2;
  return {
    step: lattice,
    counts: [1, 2, 3, 4, 5, 6],
    clearances: Array.from({ length: 4 }, (_, k) => (30 + 2 * k) * step),
    leastGap: 4 * step,
    leastEnd: 6 * step,
    about: [0, 0],
    along: [0],
    across: [0],
    pairs: false,
  };
}

/** What positions are set out in (m): whole millimetres, or eighths of an inch. */
export const grainOf = (unit: "mm" | "m" | "ft-in"): number =>
  unit === "ft-in" ? METRES_PER_INCH / 8 : 0.001;

/** All candidates, those of one clearance together; no more than `mostRows`. */
export function candidatesOf(
  space: SearchSpace,
  kinds: readonly Kind[],
  island: Island,
  mostRows = MOST_CANDIDATES,
): Candidate[] {
  const { step } = space;
  const even = (metres: number): number => 2 * Math.round(metres / (2 * step));
  const alongs = [...new Set(space.along.map((shift) => even(space.about[0] + shift)))];
  const acrosses = [...new Set(space.across.map((shift) => even(space.about[1] + shift)))];
  // A line drawn between nodes is kept to the millimetre: its light is looked up at the nearest node.
  const rest: Vec2 = [
    space.about[0] - even(space.about[0]) * step,
    space.about[1] - even(space.about[1]) * step,
  ];
  const shift = Math.hypot(...rest) > 1e-9 ? { shift: rest } : {};
  const out: Candidate[] = [];
  for (const clearance of space.clearances)
    for (const turn of turnsOf(kinds.length, space.pairs))
      for (const count of space.counts) {
        if (turn.length > count) continue;
        const rims = turn.map((k) => kinds[k as number].rim);
        const widest = Math.max(...rims);
        // Neighbours of two kinds stand half a rim of each apart.
        const rim = turn.length === 1 ? widest : (rims[0] + rims[1]) / 2;
        const least =
          count === 1 ? 0 : 2 * Math.max(1, Math.ceil((rim + space.leastGap) / (2 * step) - 1e-9));
        const room = island.length - 2 * space.leastEnd - widest;
        const most = count === 1 ? 0 : 2 * Math.floor(room / (count - 1) / (2 * step) + 1e-9);
        if (room < -1e-9) continue;
        for (let pitch = least; pitch <= most; pitch += 2)
          for (const across of acrosses)
            for (const along of alongs) {
              const whole = (count - 1) * pitch * step + 2 * Math.abs(along * step + rest[0]);
              if (whole > room + 1e-9) continue;
              if (out.length >= mostRows) return out;
              out.push({ kinds: turn, count, pitch, along, across, clearance, ...shift });
            }
      }
  return out;
}

function turnsOf(kinds: number, pairs: boolean): (readonly [number] | readonly [number, number])[] {
  const turns: (readonly [number] | readonly [number, number])[] = [];
  for (let a = 0; a < kinds; a++) {
    turns.push([a]);
    if (!pairs) continue;
    for (let b = 0; b < kinds; b++) if (b !== a) turns.push([a, b]);
  }
  return turns;
}
