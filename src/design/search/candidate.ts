/**
 * A candidate: a row of pendants over the island in whole steps of the lattice.
 *
 *   node of the i-th = along + (i − (n − 1)/2)·pitch,  pitch even, so that every row stands on nodes
 *
 * One kind throughout, or two that take turns.
 */

import { rotationOf } from "../../geometry/frame.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import { lowestPoint } from "../../luminaire/extent.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { planExtents, widthAlong } from "../../luminaire/plan-extent.ts";
import { hungAt } from "../../scene/arrangement.ts";
import type { Island, Scene } from "../../scene/scene.ts";
import { placeOf } from "./search-grid.ts";

export interface Candidate {
  /** Indices of the kinds that take turns. */
  readonly kinds: readonly [number] | readonly [number, number];
  readonly count: number;
  /** Lattice steps, centre to centre; even. 0 for one pendant. */
  readonly pitch: number;
  /** Shift of the row's middle from the island's, in steps. */
  readonly along: number;
  readonly across: number;
  /** Lowest point above the top (m). */
  readonly clearance: number;
  /** What the drawn line or a common shift off the joists leaves beside `along` and `across` (m, island frame). */
  readonly shift?: Vec2;
  /** The row before a shift off the joists. */
  readonly planned?: Candidate;
}

/** Shift of the row's middle from the island's (m, island frame). */
export function offsetOf({ along, across, shift = [0, 0] }: Candidate, step: number): Vec2 {
  return [along * step + shift[0], across * step + shift[1]];
}

/** A luminaire of the shortlist with what its place in a row depends on. */
export interface Kind {
  readonly luminaire: Luminaire;
  /** Turn from the island's +x (rad): laid along the row when it is longer across its own x. */
  readonly turn: number;
  /** Local to room. */
  readonly rotation: Float64Array;
  /** Extents along and across the island, and depth below the photometric centre, at or below zero (m). */
  readonly rim: number;
  readonly breadth: number;
  readonly lowest: number;
}

/** What rows are made of: kinds over an island, in steps of the lattice (m). */
export interface RowLattice {
  readonly island: Island;
  readonly kinds: readonly Kind[];
  readonly step: number;
}

/** The layer of a scene whose rows are sought. */
export interface SearchedLayer extends RowLattice {
  readonly scene: Scene;
  readonly layer: number;
}

const SAME = 1e-6;

export function kindOf(luminaire: Luminaire, island: Island): Kind {
  const [alongX, alongY] = planExtents(luminaire);
  const turn = alongY > alongX + SAME ? Math.PI / 2 : 0;
  const rotation = rotationOf({ turn: island.turn + turn, tilt: 0, spin: 0 });
  return {
    luminaire,
    turn,
    rotation,
    rim: widthAlong(luminaire, -turn),
    breadth: widthAlong(luminaire, Math.PI / 2 - turn),
    lowest: lowestPoint(luminaire, rotation),
  };
}

/** Kind of the i-th pendant. */
export function kindAt({ kinds }: Candidate, i: number): number {
  return kinds[i % kinds.length] as number;
}

/** Node of the i-th pendant along the island, in steps from its middle. */
export function stationOf({ count, pitch, along }: Candidate, i: number): number {
  return along + ((2 * i - (count - 1)) * pitch) / 2;
}

/** Photometric centre of the i-th pendant (m, room). */
export function centreOf(candidate: Candidate, i: number, { kinds, island, step }: RowLattice): Vec3 {
  const [x, y] = placeOf(island, step, stationOf(candidate, i), candidate.across);
  const [dx, dy] = candidate.shift ?? [0, 0];
  const p: Vec2 = [x + dx, y + dy];
  return hungAt(island, p, candidate.clearance, kinds[kindAt(candidate, i)].lowest);
}

export function hungCandidate(candidate: Candidate, rows: RowLattice): PlacedLuminaire[] {
  return Array.from({ length: candidate.count }, (_, i) => {
    const { luminaire, rotation } = rows.kinds[kindAt(candidate, i)];
    return { luminaire, frame: { origin: centreOf(candidate, i, rows), rotation } };
  });
}
