/** Edges of the top's outline, each a run of sides that face one way (within 45°), from its lower end along the island's axis. */

import { distanceToSegment, type Polygon } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { IslandSide } from "./island-side.ts";

export interface OutlineEdge {
  readonly side: IslandSide;
  /** Where it begins and ends along the island's own x (of y− and y+) or y (m). */
  readonly from: number;
  readonly to: number;
  /** Of a point, to its nearest side (m), and how far beyond that it lies, square to it. */
  distance(point: Vec2): number;
  beyond(point: Vec2): number;
  /** The point at `along`, `inside` (m) from the edge, square to its side there. */
  at(along: number, inside: number): Vec2;
}

interface Segment {
  readonly a: Vec2;
  readonly b: Vec2;
  /** Outwards, of length 1. */
  readonly out: Vec2;
  readonly side: IslandSide;
}

/** @param outline counter-clockwise, in the island's own frame */
export function outlineEdges(outline: Polygon): readonly OutlineEdge[] {
  const all = outline.map((a, i): Segment => {
    const b = outline[(i + 1) % outline.length];
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const out: Vec2 = [(b[1] - a[1]) / long, (a[0] - b[0]) / long];
    return { a, b, out, side: sideOf(out) };
  });
  // From where one edge ends, so that none is cut in two.
  const first = all.findIndex(({ side }, i) => side !== all.at(i - 1)?.side);
  const runs: Segment[][] = [];
  for (let i = 0; i < all.length; i++) {
    const segment = all[(first + i) % all.length];
    const last = runs.at(-1);
    if (last !== undefined && last[0].side === segment.side) last.push(segment);
    else runs.push([segment]);
  }
  return runs.map(edgeOf);
}

function sideOf([x, y]: Vec2): IslandSide {
  if (Math.abs(y) >= Math.abs(x)) return y < 0 ? "y-" : "y+";
  return x < 0 ? "x-" : "x+";
}

function edgeOf(segments: readonly Segment[]): OutlineEdge {
  const [{ side }] = segments;
  const axis = side[0] === "y" ? 0 : 1;
  const ends = segments.flatMap(({ a, b }) => [a[axis], b[axis]]);
  const nearest = (point: Vec2): Segment =>
    segments.reduce((best, each) =>
      distanceToSegment(point, each.a, each.b) < distanceToSegment(point, best.a, best.b) ? each : best,
    );
  return {
    side,
    from: Math.min(...ends),
    to: Math.max(...ends),
    distance: (point) => {
      const { a, b } = nearest(point);
      return distanceToSegment(point, a, b);
    },
    beyond: (point) => {
      const { a, out } = nearest(point);
      return (point[0] - a[0]) * out[0] + (point[1] - a[1]) * out[1];
    },
    at: (along, inside) => {
      const { a, b, out } = segments.find((each) => isAlong(each, along, axis)) ?? segments[0];
      const share = (along - a[axis]) / (b[axis] - a[axis]);
      return [a[0] + (b[0] - a[0]) * share - inside * out[0], a[1] + (b[1] - a[1]) * share - inside * out[1]];
    },
  };
}

const isAlong = ({ a, b }: Segment, along: number, axis: 0 | 1): boolean =>
  (along - a[axis]) * (along - b[axis]) <= 0;
