/**
 * Hatching as plain lines: parallels at 45° (rising to the right, y down the page) cut to an area by the even-odd rule. No clip
 * and no pattern is left to whoever draws them, so that screen, SVG, PDF show the same lines.
 *
 * A parallel is x + y = s; an edge crosses it where s lies between the sums of its ends, the upper one excluded, so that a corner
 * is counted once. In several sets of rings at once is where every set is odd. Exact but for rounding.
 */

import type { Vec2 } from "../geometry/vector.ts";

export type HatchLine = readonly [Vec2, Vec2];

/** What several areas have in common, each of them rings by the even-odd rule. */
export type CommonArea = readonly (readonly (readonly Vec2[])[])[];

export interface Hatching {
  /** Between two lines, at right angles to them (drawing units). */
  readonly step: number;
  /** A dark line and a light one beside it, so that hatching shows on every colour of the scale and in grey. */
  readonly strokes: readonly {
    readonly shift: number;
    readonly colour: string;
    readonly width: number;
    readonly opacity?: number;
  }[];
}

export const SCREEN_HATCHING: Hatching = {
  step: 7,
  strokes: [
    { shift: 0, colour: "#1b1a16", width: 0.8, opacity: 0.75 },
    { shift: 0.9, colour: "#fdf8ec", width: 0.8, opacity: 0.65 },
  ],
};

/** Shorter is a dot (drawing units). */
const SHORTEST = 0.05;

/**
 * @param step between two lines, at right angles to them (drawing units)
 * @param shift of all lines, at right angles to them
 */
export function hatchLines(areas: CommonArea, step: number, shift = 0): HatchLine[] {
  const [pitch, offset] = [step * Math.SQRT2, shift * Math.SQRT2];
  // By line, then by area: x where the line crosses a ring.
  const crossings = new Map<number, number[][]>();
  areas.forEach((rings, area) => {
    for (const ring of rings)
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const [[ax, ay], [bx, by]] = [ring[j], ring[i]];
        const [a, b] = [(ax + ay - offset) / pitch, (bx + by - offset) / pitch];
        for (let k = Math.ceil(Math.min(a, b)); k < Math.max(a, b); k++) {
          const places = crossings.get(k) ?? areas.map((): number[] => []);
          crossings.set(k, places);
          places[area].push(ax + ((k - a) / (b - a)) * (bx - ax));
        }
      }
  });
  return [...crossings]
    .sort(([k], [l]) => k - l)
    .flatMap(([k, places]) => {
      const sum = k * pitch + offset;
      return stretches(places).map(
        ([from, to]): HatchLine => [
          [from, sum - from],
          [to, sum - to],
        ],
      );
    });
}

/** Stretches of a line that lie in every area, from where it crosses each. */
function stretches(crossings: readonly (readonly number[])[]): [number, number][] {
  const ends = crossings
    .flatMap((places, area) => places.map((x) => ({ x, area })))
    .sort((p, q) => p.x - q.x);
  const inside = crossings.map(() => false);
  const parts: [number, number][] = [];
  let from: number | undefined;
  for (const { x, area } of ends) {
    inside[area] = !inside[area];
    if (inside.every(Boolean)) from = x;
    else if (from !== undefined) {
      if (x - from > SHORTEST) parts.push([from, x]);
      from = undefined;
    }
  }
  return parts;
}
