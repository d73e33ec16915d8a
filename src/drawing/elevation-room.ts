/** What the room puts into the elevation: ceiling and walls, the side of the island, solids over it. */

import { bounds, rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { horizontalDimension } from "./dimension.ts";
import { type Box, line, type Mark, overlaps, segment, type TextMark, text, textBox } from "./drawing.ts";
import { clampToRoom, type ElevationPage, roomEnds } from "./elevation-scale.ts";

/** Straight pieces a sloped ceiling is drawn in. */
const CEILING_SPANS = 40;

/** @param hung boxes of what hangs from it, which its figure keeps clear of where it can */
export function ceilingMarks(
  { scene, axes, scale, y, extent, words }: ElevationPage,
  hung: readonly Box[],
): Mark[] {
  const [wall0, wall1] = roomEnds(scene, axes);
  const a0 = Math.max(scale.from, wall0);
  const a1 = Math.min(scale.to, wall1);
  const z = (along: number): number => ceilingAt(scene.room, ...clampToRoom(scene, axes, along));
  const foot = y(extent.island.from);
  // A slope through stretches of different scales is no straight line on the page.
  const spans = scene.room.slope === 0 ? 1 : CEILING_SPANS;
  const ceiling = Array.from({ length: spans + 1 }, (_, i): Vec2 => {
    const along = a0 + ((a1 - a0) * i) / spans;
    return [scale.x(along), y(z(along))];
  });
  const [first, last] = [scale.x(a0) + (wall0 === a0 ? 6 : 0), scale.x(a1) - (wall1 === a1 ? 6 : 0)];
  const level = y(z(a0));
  const along = (below: number, said: string, depicts: "ceiling height" | "recessed body"): TextMark[] => {
    const at = (x: number): TextMark => text([x, level + below], said, depicts);
    const room = last - first - textBox(at(first)).width;
    return Array.from({ length: 25 }, (_, i) => at(first + (room * i) / 24));
  };
  const clear = (tried: readonly TextMark[]): TextMark =>
    tried.find((word) => !hung.some((box) => overlaps(box, textBox(word), 1))) ?? tried[0];
  // In as many words as there is room for; under a slope it is the height at this end.
  const heights = [`ceiling ${words.length(z(a0))}`, words.length(z(a0))].flatMap((said) =>
    along(16, said, "ceiling height").slice(0, scene.room.slope === 0 ? undefined : 1),
  );
  const marks: Mark[] = [line(ceiling, "ceiling", "ink", 1.5), clear(heights)];
  if (extent.recess * scale.perMetre > 2)
    marks.push(clear(along(-5, `recessed ${words.length(extent.recess)}`, "recessed body")));
  if (scene.room.slope !== 0)
    marks.push(
      text([last, y(z(a1)) + 16], words.length(z(a1)), "ceiling height", {
        anchor: "end",
      }),
    );
  for (const [wall, end] of [
    [wall0, a0],
    [wall1, a1],
  ] as const)
    if (wall === end) marks.push(segment(scale.x(wall), y(z(wall)), scale.x(wall), foot, "wall", "ink", 1.5));
    else
      marks.push(
        segment(scale.x(end) - 5, y(z(end)) + 6, scale.x(end) + 5, y(z(end)) - 6, "break line", "ink", 0.75),
      );
  return marks;
}

export function island({ scene, axes, scale, y, extent, words }: ElevationPage): Mark[] {
  const { island: top } = scene;
  if (top === undefined) return [segment(scale.left, y(0), scale.right, y(0), "floor", "ink", 1.5)];
  const { x } = scale;
  const under = top.height - top.topThickness;
  const side = top.overhang?.side;
  const b0 = x(side === "x-" ? (top.overhang?.depth ?? 0) : 0.012);
  const b1 = x(axes.length - (side === "x+" ? (top.overhang?.depth ?? 0) : 0.012));
  const foot = y(extent.island.from);
  const marks: Mark[] = [
    segment(b0, y(under), b0, foot, "island side", "ink", 1),
    segment(b1, y(under), b1, foot, "island side", "ink", 1),
    line(rectangleBetween(x(0), y(top.height), x(axes.length), y(under)), "island top", "ink", 1.5, {
      closed: true,
      fill: "sheet",
    }),
  ];
  for (const ring of [top.hob, top.sink])
    if (ring) {
      const [from, , to] = bounds(ring);
      marks.push(
        line(rectangleBetween(x(from), y(top.height), x(to), y(under)), "island fitting", "ink", 0.75, {
          closed: true,
        }),
      );
    }
  if (extent.island.from > 0)
    marks.push(
      ...breakLine(b0, b1, foot),
      ...horizontalDimension(x(0), x(axes.length), y(under) + 16, words.length(axes.length), {
        ground: "paper",
      }),
    );
  else marks.push(segment(scale.left, foot, scale.right, foot, "floor", "ink", 1.5));
  for (const level of top.levels) {
    const [from, , to] = bounds(level.outline);
    marks.push(
      line(rectangleBetween(x(from), y(level.height), x(to), y(top.height)), "raised level", "ink", 1.5, {
        closed: true,
        fill: "sheet",
      }),
    );
  }
  return marks;
}

/** Solids over the island, such as a hood, by their extent. */
export function overhead({ scene, axes, scale, y }: ElevationPage): Mark[] {
  const marks: Mark[] = [];
  for (const blocker of scene.blockers) {
    if (blocker.kind !== "body") continue;
    const { positions } = blocker.mesh;
    let [a0, a1, c0, c1, z0, z1] = [1e9, -1e9, 1e9, -1e9, 1e9, -1e9];
    for (let i = 0; i < positions.length; i += 3) {
      const [a, c] = axes.toIsland([positions[i], positions[i + 1]]);
      [a0, a1] = [Math.min(a0, a), Math.max(a1, a)];
      [c0, c1] = [Math.min(c0, c), Math.max(c1, c)];
      [z0, z1] = [Math.min(z0, positions[i + 2]), Math.max(z1, positions[i + 2])];
    }
    const over = a1 > 0 && a0 < axes.length && c1 > 0 && c0 < axes.width && z0 >= axes.height;
    if (!over) continue;
    marks.push(
      line(rectangleBetween(scale.x(a0), y(z1), scale.x(a1), y(z0)), "body", "ink", 1, {
        closed: true,
        fill: "sheet",
      }),
      text([scale.x((a0 + a1) / 2), y(z0) - 6], blocker.name, "body", { anchor: "middle" }),
    );
  }
  return marks;
}

/** The long break line of building drawings: a line with one zigzag. */
function breakLine(x0: number, x1: number, y: number): Mark[] {
  const m = (x0 + x1) / 2;
  return [
    line(
      [
        [x0 - 8, y],
        [m - 10, y],
        [m - 4, y - 5],
        [m + 4, y + 5],
        [m + 10, y],
        [x1 + 8, y],
      ],
      "break line",
      "quiet",
      0.75,
    ),
  ];
}
