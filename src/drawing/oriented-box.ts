/** A rectangle turned on the page, for words that follow a line. */

import { planPlacement } from "../geometry/plan-placement.ts";
import { rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Box } from "./drawing.ts";

export interface OrientedBox {
  readonly centre: Vec2;
  readonly width: number;
  readonly height: number;
  /** Degrees clockwise on the page. */
  readonly turn: number;
}

export function orientedBox({ x, y, width, height }: Box): OrientedBox {
  return { centre: [x + width / 2, y + height / 2], width, height, turn: 0 };
}

export function corners({ centre, width, height, turn }: OrientedBox): Vec2[] {
  const place = planPlacement(centre, (turn * Math.PI) / 180);
  return rectangleBetween(-width / 2, -height / 2, width / 2, height / 2).map(place);
}

/** Whether two turned rectangles share any point: no side of either separates them. */
export function boxesMeet(a: OrientedBox, b: OrientedBox): boolean {
  const first = corners(a);
  const second = corners(b);
  for (const turn of [a.turn, a.turn + 90, b.turn, b.turn + 90]) {
    const x = Math.cos((turn * Math.PI) / 180);
    const y = Math.sin((turn * Math.PI) / 180);
    const along = (points: readonly Vec2[]): readonly [number, number] => {
      const shadow = points.map((p) => p[0] * x + p[1] * y);
      return [Math.min(...shadow), Math.max(...shadow)];
    };
    const [a0, a1] = along(first);
    const [b0, b1] = along(second);
    if (a1 <= b0 || b1 <= a0) return false;
  }
  return true;
}

/** Whether a straight piece of line passes through a turned rectangle. */
export function lineMeetsBox(p: Vec2, q: Vec2, { centre, width, height, turn }: OrientedBox): boolean {
  const c = Math.cos((turn * Math.PI) / 180);
  const s = Math.sin((turn * Math.PI) / 180);
  const local = ([x, y]: Vec2): Vec2 => [
    c * (x - centre[0]) + s * (y - centre[1]),
    -s * (x - centre[0]) + c * (y - centre[1]),
  ];
  const a = local(p);
  const b = local(q);
  let from = 0;
  let to = 1;
  for (const [axis, half] of [
    [0, width / 2],
    [1, height / 2],
  ] as const) {
    const d = b[axis] - a[axis];
    if (d === 0) {
      if (Math.abs(a[axis]) > half) return false;
      continue;
    }
    const t0 = (-half - a[axis]) / d;
    const t1 = (half - a[axis]) / d;
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
    if (from > to) return false;
  }
  return true;
}
