/**
 * What a row must keep besides its light, as far as it can be told without calculating: ceiling boxes clear of joists
 * and keep-outs, pendants under the ceiling, the rules of thumb the user switched on, and the dimmer's load.
 */

import { rowShift } from "../../advice/clashes/ceiling-clashes.ts";
import { RULES } from "../../advice/guidelines/cards.ts";
import type { Rule } from "../../advice/guidelines/rule.ts";
import { type PendantRow, rowFigures } from "../../advice/pendant-row.ts";
import { isInside } from "../../geometry/polygon.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { highestPoint } from "../../luminaire/extent.ts";
import { planForm } from "../../luminaire/plan-extent.ts";
import { pendantBoxAt } from "../../luminaire/suspension-points.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import { overFloor } from "../../scene/inside-room.ts";
import { topHeightAt } from "../../scene/island-frame.ts";
import {
  type Candidate,
  hungCandidate,
  kindAt,
  offsetOf,
  type SearchedLayer,
  stationOf,
} from "./candidate.ts";
import { boxMeets, ON_JOIST } from "./ceiling-holds.ts";
import { placeOf } from "./search-grid.ts";

export interface Constraints {
  /** Identifiers of guideline cards that must agree. */
  readonly rules: readonly string[];
  /** Whether the layer's fitted watts must lie within its dimmer's load. */
  readonly load: boolean;
  /** Least free distance from outer rim to end of the top a row keeps when it is shifted off joists (m). */
  readonly leastEnd?: number;
  /** Shifts off joists are rounded outwards to this (m); 1 mm by default. */
  readonly grain?: number;
}

/** Why rows were left out, how many of each count, the commonest first. */
export interface LeftOut {
  readonly why: string;
  readonly count: number;
  readonly rows: number;
  /** Whether no row of that count was left. */
  readonly all: boolean;
}

const SAME = 5e-4;
/** Share of a pendant's size within which its rim may lie on the very edge of the top. */
const EDGE = 1e-6;

/** The rows that keep all constraints, and what was left out. */
export function keepingConstraints(
  candidates: readonly Candidate[],
  rows: SearchedLayer,
  { rules, load, leastEnd = 0, grain = 0.001 }: Constraints,
): { readonly kept: Candidate[]; readonly leftOut: readonly LeftOut[] } {
  const chosen = RULES.filter(({ id }) => rules.includes(id));
  const tally = new Map<string, number>();
  const keptOf = new Map<number, number>();
  const kept = candidates.flatMap((planned) => {
    const ceiling = beyondTop(planned, rows) ?? meetsCeiling(planned, rows);
    const shifted = ceiling === MEETS_JOIST ? offJoists(planned, rows, leastEnd, grain) : undefined;
    const candidate = shifted ?? planned;
    const why =
      (shifted === undefined ? ceiling : meetsCeiling(shifted, rows)) ??
      (load ? overload(candidate, rows) : undefined) ??
      breaks(candidate, rows, chosen);
    if (why === undefined) {
      keptOf.set(candidate.count, (keptOf.get(candidate.count) ?? 0) + 1);
      return [candidate];
    }
    const key = `${candidate.count}\n${why}`;
    tally.set(key, (tally.get(key) ?? 0) + 1);
    return [];
  });
  const leftOut = [...tally]
    .map(([key, number]): LeftOut => {
      const [count, why] = key.split("\n");
      return { why, count: Number(count), rows: number, all: !keptOf.has(Number(count)) };
    })
    .sort((a, b) => b.rows - a.rows);
  return { kept, leftOut };
}

const MEETS_JOIST = `a box would meet ${ON_JOIST}`;

/** The row with one shift for all its boxes that frees them from the joists, still on the top; undefined where none does. */
function offJoists(
  candidate: Candidate,
  rows: SearchedLayer,
  leastEnd: number,
  grain: number,
): Candidate | undefined {
  const { island, kinds, step } = rows;
  const { room } = rows.scene;
  if (room.joists === undefined) return undefined;
  const row = hungCandidate(candidate, rows).map(pendantBoxAt);
  const by = rowShift(room, row, grain);
  if (by === undefined) return undefined;
  const [c, s] = [Math.cos(island.turn), Math.sin(island.turn)];
  const [x, y] = room.joists.along === "y" ? [by, 0] : [0, by];
  const [left, aside] = candidate.shift ?? [0, 0];
  const shift: Vec2 = [left + c * x + s * y, aside + c * y - s * x];
  const onNodes = shift.map((metres) => 2 * Math.round(metres / (2 * step)));
  const moved: Candidate = {
    ...candidate,
    along: candidate.along + onNodes[0],
    across: candidate.across + onNodes[1],
    shift: [shift[0] - onNodes[0] * step, shift[1] - onNodes[1] * step],
    planned: candidate,
  };
  const [along] = offsetOf(moved, step);
  const rim = Math.max(...candidate.kinds.map((k) => kinds[k as number].rim));
  const reach = ((candidate.count - 1) * candidate.pitch * step + rim) / 2 + leastEnd;
  const onTop = Math.abs(along) + reach <= island.length / 2 + 1e-9 && beyondTop(moved, rows) === undefined;
  return onTop ? moved : undefined;
}

export const BEYOND_TOP = "it would hang beyond the edge of the top (--across, --along)";

/** Whether part of a pendant would hang beside the top. One that is wider than the top may do so as far as its middle
 * stays over it. */
function beyondTop(candidate: Candidate, { island, kinds, step }: SearchedLayer): string | undefined {
  const [along, across] = offsetOf(candidate, step);
  for (let i = 0; i < candidate.count; i++) {
    const { luminaire, rim, breadth } = kinds[kindAt(candidate, i)];
    const x = island.length / 2 + along + (stationOf(candidate, i) - candidate.along) * step;
    const y = island.width / 2 + across;
    const wide = Math.min(breadth, island.width);
    const corners = planForm(luminaire) === "rectangle" ? 4 : 32;
    for (let c = 0; c < corners; c++) {
      const angle = (2 * Math.PI * (c + 0.5)) / corners;
      // On the rim of what is round, at the corners of a rectangle.
      const reach = corners === 4 ? Math.SQRT1_2 - EDGE : 0.5 - EDGE;
      const p: Vec2 = [x + reach * rim * Math.cos(angle), y + reach * wide * Math.sin(angle)];
      if (!isInside(p, island.outline)) return BEYOND_TOP;
    }
  }
  return undefined;
}

function meetsCeiling(candidate: Candidate, rows: SearchedLayer): string | undefined {
  const { room } = rows.scene;
  for (const placed of hungCandidate(candidate, rows)) {
    const { origin, rotation } = placed.frame;
    const [x, y, z] = origin;
    if (z + Math.max(0, highestPoint(placed.luminaire, rotation)) > ceilingAt(room, x, y))
      return "the pendants would reach the ceiling";
    if (!overFloor(origin, room, 0)) return "it would hang outside the room";
    const met = boxMeets(room, pendantBoxAt(placed));
    if (met !== undefined) return `a box would meet ${met}`;
  }
  return undefined;
}

/** What speaks against a row for its dimmer. */
export function overload(candidate: Candidate, { scene, layer, kinds }: SearchedLayer): string | undefined {
  const { dimmer } = scene.layers[layer];
  if (dimmer === undefined) return undefined;
  const marked = sumOf(candidate, (i) => {
    const { markedWatts, watts } = kinds[i].luminaire;
    return markedWatts ?? watts ?? 0;
  });
  if (dimmer.maximumWatts !== undefined && marked > dimmer.maximumWatts)
    return "the load would be more than the dimmer carries";
  const fitted = sumOf(candidate, (i) => kinds[i].luminaire.watts ?? Infinity);
  if (dimmer.minimumWatts !== undefined && fitted < dimmer.minimumWatts)
    return "the load would be less than the dimmer needs";
  return undefined;
}

function sumOf(candidate: Candidate, of: (kind: number) => number): number {
  let sum = 0;
  for (let i = 0; i < candidate.count; i++) sum += of(kindAt(candidate, i));
  return sum;
}

function breaks(candidate: Candidate, rows: SearchedLayer, rules: readonly Rule[]): string | undefined {
  if (rules.length === 0) return undefined;
  const row = rowOf(candidate, rows);
  for (const rule of rules) {
    const held = rule.held({ scene: rows.scene, row });
    if (held === undefined) continue;
    const { low, high } = held.allows;
    if (held.found < low - SAME || held.found > high + SAME) return `the rule ${rule.id} would be broken`;
  }
  return undefined;
}

/** The row in the numbers the rules speak of. */
function rowOf(
  candidate: Candidate,
  { scene: { room }, island, layer, kinds, step }: SearchedLayer,
): PendantRow | undefined {
  const own = candidate.kinds.map((k) => kinds[k as number]);
  const stations = Array.from(
    { length: candidate.count },
    (_, i) => placeOf(island, step, stationOf(candidate, i), 0)[0] + (candidate.shift?.[0] ?? 0),
  );
  const across = island.width / 2 + offsetOf(candidate, step)[1];
  const aboveFloor = candidate.clearance + topHeightAt(island, [stations[0], across]);
  return rowFigures(room, {
    layer,
    luminaire: own[0].luminaire,
    mixed: own.length > 1,
    apart: 0,
    stations,
    across,
    rim: Math.max(...own.map((kind) => kind.rim)),
    breadth: Math.max(...own.map((kind) => kind.breadth)),
    clearance: candidate.clearance,
    aboveFloor,
    highest: { clearance: candidate.clearance, aboveFloor },
    island,
  });
}
