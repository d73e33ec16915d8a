/** The island in an elevation or a section: top, base and raised levels, and what of it stands beyond the section. */

import type { Vec2 } from "../geometry/vector.ts";
import { type Ink, type LineMark, line } from "./drawing.ts";
import type { SideView, Stretch } from "./side-view.ts";

/** Less than this (m) the section leaves nothing of. */
const SEEN = 0.005;

export function islandMarks({
  scene: { island },
  direction,
  whole,
  top,
  base,
  at,
}: Pick<SideView, "scene" | "direction" | "whole" | "top" | "base" | "at">): LineMark[] {
  if (island === undefined) return [];
  const k = direction === "along" ? 0 : 1;
  const under = island.height - island.topThickness;
  const fill = { closed: true, fill: "sheet" as Ink } as const;
  const box = ([from, to]: Stretch, z0: number, z1: number): Vec2[] => [
    at(from, z0),
    at(to, z0),
    at(to, z1),
    at(from, z1),
  ];
  const covered = top.reduce((sum, [from, to]) => sum + to - from, 0);
  // What the section leaves of an island that is no rectangle is seen beyond it.
  const beyond: LineMark[] =
    covered > whole - SEEN
      ? []
      : [line(box([0, whole], 0, island.height), "island side", "hairline", 0.75, { closed: true })];
  return [
    ...beyond,
    ...base.map((each) => line(box(each, 0, under), "island base", "ink", 1, fill)),
    ...top.map((each) => line(box(each, under, island.height), "island top", "ink", 1.5, fill)),
    ...island.levels.map(({ outline, height }) => {
      const places = outline.map((p) => p[k]);
      const [a, b] = [Math.min(...places), Math.max(...places)];
      const corners = [at(a, island.height), at(a, height), at(b, height), at(b, island.height)];
      return line(corners, "island level", "ink", 1, fill);
    }),
  ];
}
