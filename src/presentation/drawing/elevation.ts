/**
 * Elevation of the island seen from its long side: ceiling, drops, pendants in true profile, clearance, the
 * side of the island, eye lines and heads.
 *
 * One scale along and up. A drop that would only lengthen the drawing is cut by a break line between the
 * pendants and a flat ceiling; everything a hand or an eye meets stays true.
 */

import type { Scene } from "../../scene/scene.ts";
import { horizontalDimension, verticalDimension } from "./dimension.ts";
import { type Drawing, type LuminaireMarks, line, type Mark, rectangle, text, textWidth } from "./drawing.ts";
import { luminaireMarks } from "./elevation-luminaires.ts";
import {
  clampToRoom,
  type ElevationExtent,
  type ElevationScale,
  elevationExtent,
  elevationScale,
  hangs,
  isShown,
  roomEnds,
  suspended,
} from "./elevation-scale.ts";
import { figure } from "./figure.ts";
import { ceilingHeightAt, type IslandAxes, islandAxes, placeOf } from "./island-axes.ts";
import { spreadLabels } from "./label-layout.ts";
import type { SheetScale } from "./sheet-scale.ts";
import { halfWidth, verticalExtent } from "./silhouette.ts";
import type { Wording } from "./wording.ts";

export { suspended } from "./elevation-scale.ts";

/** The drawing of one scene; `extent` may be held from an earlier one while a hand moves. */
export function elevation(
  scene: Scene,
  scale: SheetScale,
  words: Wording,
  extent: ElevationExtent = elevationExtent(scene, scale),
): Drawing {
  const axes = islandAxes(scene);
  const vertical = elevationScale(extent, scale);
  const { y } = vertical;
  const marks: Mark[] = [
    ...eyeLines(scene, axes, scale, vertical, words),
    ...people(scene, axes, scale, vertical),
    ...island(scene, axes, scale, vertical, extent, words),
    ...overhead(scene, axes, scale, vertical),
    ...ceilingMarks(scene, axes, scale, vertical, extent, words),
  ];
  const luminaires: LuminaireMarks[] = [];
  scene.layers.forEach((layer, l) => {
    layer.luminaires.forEach((placed, i) => {
      const drawn = luminaireMarks(scene, axes, scale, vertical, extent, layer, l, placed, i);
      if (drawn !== undefined) luminaires.push(drawn);
    });
  });
  marks.push(...spacings(scene, axes, scale, y, extent, words), ...clearances(scene, axes, scale, y, words));
  return {
    width: scale.width,
    height: vertical.height,
    marks,
    luminaires,
    summary: summary(scene, words),
  };
}

function ceilingMarks(
  scene: Scene,
  axes: IslandAxes,
  scale: SheetScale,
  { y }: ElevationScale,
  extent: ElevationExtent,
  words: Wording,
): Mark[] {
  const [wall0, wall1] = roomEnds(scene, axes);
  const a0 = Math.max(scale.from, wall0);
  const a1 = Math.min(scale.to, wall1);
  const z = (along: number): number => ceilingHeightAt(scene.room, clampToRoom(scene, axes, along));
  const foot = y(extent.lower);
  const marks: Mark[] = [
    line(
      [
        [scale.x(a0), y(z(a0))],
        [scale.x(a1), y(z(a1))],
      ],
      "ceiling",
      "ink",
      1.5,
    ),
    text(
      [scale.x(a0), y(z(a0)) + (z(a1) > z(a0) + 0.02 ? 16 : -7)],
      `ceiling ${words.length(z(a0))}`,
      "ceiling height",
    ),
  ];
  if (scene.room.slope !== 0)
    marks.push(text([scale.x(a1), y(z(a1)) - 7], words.length(z(a1)), "ceiling height", { anchor: "end" }));
  for (const [wall, end] of [
    [wall0, a0],
    [wall1, a1],
  ] as const)
    if (wall === end)
      marks.push(
        line(
          [
            [scale.x(wall), y(z(wall))],
            [scale.x(wall), foot],
          ],
          "wall",
          "ink",
          1.5,
        ),
      );
  return marks;
}

function island(
  scene: Scene,
  axes: IslandAxes,
  scale: SheetScale,
  { y }: ElevationScale,
  extent: ElevationExtent,
  words: Wording,
): Mark[] {
  const { island: top } = scene;
  if (top === undefined)
    return [
      line(
        [
          [scale.left, y(0)],
          [scale.right, y(0)],
        ],
        "floor",
        "ink",
        1.5,
      ),
    ];
  const { x } = scale;
  const under = top.height - top.topThickness;
  const side = top.overhang?.side;
  const b0 = x(side === "x-" ? (top.overhang?.depth ?? 0) : 0.012);
  const b1 = x(axes.length - (side === "x+" ? (top.overhang?.depth ?? 0) : 0.012));
  const foot = y(extent.lower);
  const marks: Mark[] = [
    line(
      [
        [b0, y(under)],
        [b0, foot],
      ],
      "island side",
      "ink",
      1,
    ),
    line(
      [
        [b1, y(under)],
        [b1, foot],
      ],
      "island side",
      "ink",
      1,
    ),
    line(rectangle(x(0), y(top.height), x(axes.length), y(under)), "island top", "ink", 1.5, {
      closed: true,
      fill: "sheet",
    }),
  ];
  if (extent.lower > 0)
    marks.push(
      ...breakLine(b0, b1, foot),
      ...horizontalDimension(x(0), x(axes.length), y(under) + 19, words.length(axes.length), {
        ground: "paper",
      }),
    );
  else
    marks.push(
      line(
        [
          [scale.left, foot],
          [scale.right, foot],
        ],
        "floor",
        "ink",
        1.5,
      ),
    );
  for (const level of top.levels) {
    const alongs = level.outline.map((p) => p[0]);
    marks.push(
      line(
        rectangle(x(Math.min(...alongs)), y(level.height), x(Math.max(...alongs)), y(top.height)),
        "raised level",
        "ink",
        1.5,
        { closed: true, fill: "sheet" },
      ),
    );
  }
  return marks;
}

/** Solids over the island, such as a hood, by their extent. */
function overhead(scene: Scene, axes: IslandAxes, scale: SheetScale, { y }: ElevationScale): Mark[] {
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
      line(rectangle(scale.x(a0), y(z1), scale.x(a1), y(z0)), "body", "ink", 1, {
        closed: true,
        fill: "sheet",
      }),
      text([scale.x((a0 + a1) / 2), y(z0) - 6], blocker.name, "body", { anchor: "middle" }),
    );
  }
  return marks;
}

function people(scene: Scene, axes: IslandAxes, scale: SheetScale, { y }: ElevationScale): Mark[] {
  const marks: Mark[] = [];
  for (const person of scene.people) {
    const [eyeAlong] = axes.toIsland(person.eye);
    // A seated trunk is under its head, not over its feet.
    const [along] = person.posture === "seated" ? [eyeAlong] : axes.toIsland(person.at);
    if (!isShown(along, scale)) continue;
    marks.push(...figure(person, along, eyeAlong, person.facing - axes.turn, axes.height, scale, y));
  }
  return marks;
}

function eyeLines(
  scene: Scene,
  axes: IslandAxes,
  scale: SheetScale,
  { y }: ElevationScale,
  words: Wording,
): Mark[] {
  if (scene.people.length === 0) return [];
  const marks: Mark[] = [];
  const [wall0, wall1] = roomEnds(scene, axes);
  const left = Math.max(scale.left, scale.x(wall0));
  const right = Math.min(scale.right, scale.x(wall1));
  const gap = left > scale.left ? 6 : 0;
  const eyes = scene.people.map((p) => y(p.eye[2]));
  const places = spreadLabels(
    eyes.map((e) => e - 5),
    14,
    y(scene.room.ceilingHeight) + 16,
    y(0),
  );
  scene.people.forEach((person, i) => {
    const label = `${person.name}, eye ${words.length(person.eye[2])}`;
    // The end of the line where no one stands.
    const reach = textWidth(label, 11.5) + 12;
    const alongs = scene.people.map((p) => scale.x(axes.toIsland(p.at)[0]));
    const crowdedLeft = alongs.some((x) => Math.abs(x - left - reach / 2) < reach / 2 + 0.2 * scale.perMetre);
    const crowdedRight = alongs.some(
      (x) => Math.abs(right - reach / 2 - x) < reach / 2 + 0.2 * scale.perMetre,
    );
    const atRight = crowdedLeft && !crowdedRight;
    marks.push(
      line(
        [
          [left, eyes[i]],
          [right, eyes[i]],
        ],
        "eye line",
        "quiet",
        0.75,
        { dash: "eye line" },
      ),
      text([atRight ? right - gap : left + gap, places[i]], label, "eye height", {
        ground: "paper",
        anchor: atRight ? "end" : "start",
      }),
    );
  });
  return marks;
}

function spacings(
  scene: Scene,
  axes: IslandAxes,
  scale: SheetScale,
  y: (z: number) => number,
  extent: ElevationExtent,
  words: Wording,
): Mark[] {
  const marks: Mark[] = [];
  for (const layer of scene.layers) {
    const hung = layer.luminaires.filter((p) => hangs(scene, p));
    const alongs = hung.map((p) => placeOf(axes, p.frame.origin).along).sort((a, b) => a - b);
    if (alongs.length < 2 || layer.role !== "pendant") continue;
    const highest = Math.max(...hung.map((p) => p.frame.origin[2] + verticalExtent(p.luminaire)[1]));
    const at = extent.broken ? y(extent.upper) - 2 : y(highest) - 22;
    for (let i = 1; i < alongs.length; i++) {
      const gap = alongs[i] - alongs[i - 1];
      if (gap < 0.02) continue;
      marks.push(...horizontalDimension(scale.x(alongs[i - 1]), scale.x(alongs[i]), at, words.length(gap)));
    }
  }
  return marks;
}

/** The clearance of the last pendant, and of any other that hangs at another height. */
function clearances(
  scene: Scene,
  axes: IslandAxes,
  scale: SheetScale,
  y: (z: number) => number,
  words: Wording,
): Mark[] {
  const hung = suspended(scene)
    .map(({ placed, layer }) => ({ placed, layer, ...placeOf(axes, placed.frame.origin) }))
    .filter(({ layer, along }) => layer.role === "pendant" && along > 0 && along < axes.length)
    .sort((a, b) => b.along - a.along);
  const marks: Mark[] = [];
  const shown: number[] = [];
  for (const { placed, along } of hung) {
    const lowest = placed.frame.origin[2] + verticalExtent(placed.luminaire)[0];
    const clearance = lowest - axes.height;
    if (clearance <= 0.02 || shown.some((c) => Math.abs(c - clearance) < 0.0005)) continue;
    shown.push(clearance);
    const x = scale.x(along) + halfWidth(placed.luminaire) * scale.perMetre + 12;
    const label = `${words.length(clearance)} above top`;
    const side = x + 7 + textWidth(label, 11.5) < scale.width ? "right" : "left";
    marks.push(
      ...verticalDimension(x, y(lowest), y(axes.height), label, side, {
        ground: "paper",
      }),
      line(
        [
          [x - 10, y(lowest)],
          [x + 3, y(lowest)],
        ],
        "extension line",
        "quiet",
        0.75,
      ),
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

function summary(scene: Scene, words: Wording): string {
  const hung = suspended(scene);
  const axes = islandAxes(scene);
  const parts = [`Elevation. Ceiling ${words.length(scene.room.ceilingHeight)}.`];
  if (hung.length > 0) {
    const clearances = hung.map(
      ({ placed }) => placed.frame.origin[2] + verticalExtent(placed.luminaire)[0] - axes.height,
    );
    const low = Math.min(...clearances);
    const high = Math.max(...clearances);
    parts.push(
      `${hung.length} hanging luminaires, ${words.length(low)}${high - low > 0.001 ? ` to ${words.length(high)}` : ""} above the top.`,
    );
  }
  for (const person of scene.people) parts.push(`${person.name}: eye at ${words.length(person.eye[2])}.`);
  return parts.join(" ");
}
