/**
 * Where a luminaire in the hand wants to come to rest, and why: equal bays, equal gaps, centrelines, level with
 * its neighbours. Geometry in the island's axes; the reason is words for the person at the screen.
 */

import type { Scene } from "../scene/scene.ts";
import type { Wording } from "../words/wording.ts";
import { type IslandAxes, placeOf } from "./island-axes.ts";
import type { LuminaireKey, Move } from "./luminaire-key.ts";
import { halfWidth } from "./silhouette.ts";

export interface Snapped {
  readonly move: Move;
  /** Empty when nothing pulled. */
  readonly reasons: readonly string[];
}

interface Candidate {
  readonly value: number;
  readonly reason: string;
}

/** Pulls a move of `held` (and whatever moves with it) to the nearest reason within `reach` metres, for each
 * direction that moves at all. */
export function snapMove(
  scene: Scene,
  axes: IslandAxes,
  held: LuminaireKey,
  moving: readonly LuminaireKey[],
  move: Move,
  reach: number,
  words: Wording,
): Snapped {
  const layer = scene.layers[held.layer];
  const placed = layer.luminaires[held.index];
  const start = placeOf(axes, placed.frame.origin);
  const isMoving = (index: number): boolean =>
    moving.some((key) => key.layer === held.layer && key.index === index);
  const others = layer.luminaires
    .map((other, index) => ({
      index,
      radius: halfWidth(other.luminaire),
      ...placeOf(axes, other.frame.origin),
    }))
    .filter(({ index }) => !isMoving(index))
    .sort((a, b) => a.along - b.along);
  const reasons: string[] = [];
  const pull = (value: number, candidates: readonly Candidate[]): number => {
    let best: Candidate | undefined;
    for (const c of candidates) {
      if (Math.abs(c.value - value) > reach) continue;
      if (best === undefined || Math.abs(c.value - value) < Math.abs(best.value - value) - 1e-9) best = c;
    }
    if (best === undefined) return value;
    reasons.push(best.reason);
    return best.value;
  };
  const along =
    move.along === 0
      ? start.along
      : pull(
          start.along + move.along,
          alongCandidates(
            axes,
            start.along + move.along,
            layer.luminaires.length,
            moving.length,
            others,
            halfWidth(placed.luminaire),
            words,
          ),
        );
  const across =
    move.across === 0
      ? start.across
      : pull(start.across + move.across, [
          { value: axes.width / 2, reason: "island centreline" },
          ...others.map((o) => ({ value: o.across, reason: `in line with ${layer.name} ${o.index + 1}` })),
        ]);
  const height =
    move.height === 0
      ? start.height
      : pull(
          start.height + move.height,
          others.map((o) => ({ value: o.height, reason: `level with ${layer.name} ${o.index + 1}` })),
        );
  return {
    move: { along: along - start.along, across: across - start.across, height: height - start.height },
    reasons,
  };
}

function alongCandidates(
  axes: IslandAxes,
  at: number,
  count: number,
  moving: number,
  others: readonly { readonly along: number; readonly radius: number }[],
  radius: number,
  words: Wording,
): Candidate[] {
  const candidates: Candidate[] = [];
  if (moving === 1) {
    for (let k = 0; k < count; k++)
      candidates.push({ value: ((k + 0.5) * axes.length) / count, reason: "equal bays" });
  }
  candidates.push({ value: axes.length / 2, reason: "middle of the island" });
  const before = others.filter((o) => o.along < at);
  const after = others.filter((o) => o.along >= at);
  const left = before.at(-1);
  const right = after[0];
  if (left !== undefined && right !== undefined) {
    // Equal rim-to-rim gaps on both sides.
    const value = (left.along + left.radius + right.along - right.radius) / 2;
    candidates.push({
      value,
      reason: `equal gaps, ${words.length(value - radius - left.along - left.radius)}`,
    });
  }
  // The gap the neighbours already keep.
  for (const [near, next, sign] of [
    [left, before.at(-2), 1],
    [right, after[1], -1],
  ] as const) {
    if (near === undefined || next === undefined) continue;
    const gap = Math.abs(near.along - next.along) - near.radius - next.radius;
    if (gap <= 0) continue;
    candidates.push({
      value: near.along + sign * (near.radius + gap + radius),
      reason: `gap ${words.length(gap)}`,
    });
  }
  return candidates;
}
