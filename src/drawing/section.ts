/**
 * Cross-section through the island, seen from the end its length points to: the top with its overhang, pendants
 * over it, who stands and sits at it, the lines their eyes draw to the rims, and the clearances.
 */

import type { Vec2 } from "../geometry/vector.ts";
import { ceilingPoints } from "../luminaire/suspension-points.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import { hungPendants, suspended } from "../scene/suspended.ts";
import { degrees } from "../units/quantities.ts";
import type { Wording } from "../words/wording.ts";
import { horizontalDimension, verticalDimension } from "./dimension.ts";
import { type Drawing, type LuminaireMarks, line, type Mark, segment, text } from "./drawing.ts";
import { canopyMark } from "./elevation-luminaires.ts";
import { type IslandAxes, placeOf } from "./island-axes.ts";
import { islandMarks } from "./island-in-view.ts";
import { spreadLabels, withoutCollisions } from "./label-layout.ts";
import { figure } from "./person-figure.ts";
import { ceilingOver, type SideView, sideView } from "./side-view.ts";
import { halfWidth, profileFrom } from "./silhouette.ts";

export interface SectionScale {
  readonly width: number;
  readonly height: number;
  readonly perMetre: number;
  x(across: number): number;
  y(z: number): number;
}

const MARGIN = { top: 24, bottom: 34, side: 16 } as const;

/** Fits the island, the people at it and the room's height into a width (drawing units). */
export function sectionScale(scene: Scene, width: number): SectionScale {
  const view = sideView(scene, "across");
  const { axes } = view;
  let from = -0.3;
  let to = axes.width + 0.3;
  for (const person of scene.people) {
    const [along, across] = axes.toIsland(person.at);
    if (along < -0.3 || along > axes.length + 0.3 || across < -1.2 || across > axes.width + 1.2) continue;
    const eye = axes.toIsland(person.eye)[1];
    from = Math.min(from, across - 0.4, eye - 0.55);
    to = Math.max(to, across + 0.4, eye + 0.55);
  }
  const ceiling = Math.max(...[from, to].map((across) => ceilingOver(view, across)));
  const perMetre = (width - 2 * MARGIN.side) / (to - from);
  const x = (across: number): number => MARGIN.side + (across - from) * perMetre;
  return {
    width,
    height: Math.ceil(MARGIN.top + ceiling * perMetre + MARGIN.bottom),
    perMetre,
    x,
    y: (z) => MARGIN.top + (ceiling - z) * perMetre,
  };
}

/** What every part of the section is drawn by. */
interface SectionPage extends SectionScale {
  readonly scene: Scene;
  readonly view: SideView;
  readonly axes: IslandAxes;
  readonly words: Wording;
}

export function section(scene: Scene, scale: SectionScale, words: Wording): Drawing {
  const view = sideView(scene, "across");
  const { axes } = view;
  const page: SectionPage = { ...scale, scene, view, axes, words };
  const { x, y, width, height, perMetre } = page;
  const [left, right] = [0, width].map((at) => y(ceilingOver(view, (at - x(0)) / perMetre)));
  const ceiling = `ceiling ${words.length(scene.room.ceilingHeight)}`;
  const marks: Mark[] = [
    segment(0, y(0), width, y(0), "floor", "ink", 1.5),
    segment(0, left, width, right, "ceiling", "ink", 1.5),
    text([4, left - 7], ceiling, "ceiling height"),
    ...people(page),
    ...island(page),
    ...sightlines(page),
    ...clearance(page),
  ];
  const stand = atTheTop(scene, axes).map((p) => `${p.name}: eye at ${words.length(p.eye[2])}.`);
  const top = `Top at ${words.length(axes.height)}, ${words.length(axes.width)} across.`;
  return {
    width,
    height,
    marks: withoutCollisions(marks, { width, height }),
    luminaires: pendants(page),
    summary: `Cross-section. ${top} ${stand.join(" ")}`,
  };
}

function island({ scene: { island: top }, view, axes, x, y, words }: SectionPage): Mark[] {
  if (top === undefined) return [];
  const over = top.overhang;
  const under = top.height - top.topThickness;
  const [from, to] = view.base[0] ?? [0, axes.width];
  const marks: Mark[] = [
    ...islandMarks({ ...view, at: (across, z) => [x(across), y(z)] }),
    ...horizontalDimension(x(0), x(axes.width), y(0) + 22, words.length(axes.width)),
    text([x((from + to) / 2), y(top.height / 2)], `top ${words.length(top.height)}`, "top height", {
      anchor: "middle",
    }),
  ];
  if (over !== undefined && over.depth > 0 && (over.side === "y-" || over.side === "y+")) {
    const [o0, o1] = over.side === "y-" ? [0, over.depth] : [axes.width - over.depth, axes.width];
    marks.push(...horizontalDimension(x(o0), x(o1), y(under) + 30, words.length(over.depth)));
  }
  return marks;
}

function people(page: SectionPage): Mark[] {
  const { scene, axes, x, y } = page;
  return atTheTop(scene, axes).flatMap((person) => {
    const feet = axes.toIsland(person.at)[1];
    const eye = axes.toIsland(person.eye)[1];
    const isSeated = person.posture === "seated";
    const turned = person.facing - axes.turn - Math.PI / 2;
    const marks = figure(person, isSeated ? eye : feet, eye, turned, 0, page, y);
    if (!isSeated) return marks;
    // On the seat: thighs forward to over the feet, shins down to the floor.
    const seat = person.eye[2] - 0.8;
    const ahead = Math.sign(Math.sin(person.facing - axes.turn)) || 1;
    const leg = (points: readonly Vec2[]): Mark => line(points, "person", "quiet", 0.75);
    const knee = eye + 0.42 * ahead;
    return [
      ...marks,
      leg([
        [x(eye), y(seat + 0.13)],
        [x(knee), y(seat + 0.11)],
        [x(Math.abs(feet - eye) > 0.1 ? feet : knee - 0.08 * ahead), y(Math.max(0, seat - 0.42))],
      ]),
      segment(x(eye - 0.17), y(seat), x(eye + 0.17), y(seat), "seat", "quiet", 1),
      segment(x(eye), y(seat), x(eye), y(0), "seat", "quiet", 0.75),
    ];
  });
}

function atTheTop(scene: Scene, axes: IslandAxes): Scene["people"] {
  return scene.people.filter((person) => {
    const [along, at] = axes.toIsland(person.at);
    return along > -0.3 && along < axes.length + 0.3 && at > -1.2 && at < axes.width + 1.2;
  });
}

function pendants({ scene, axes, x, y, perMetre }: SectionPage): LuminaireMarks[] {
  // Behind one another in a row: the last drawn stands for all at its place.
  return suspended(scene).map(({ layer, l, i, placed }) => {
    const place = placeOf(axes, placed.frame.origin);
    const [low, high] = verticalExtent(placed.luminaire);
    const centre = x(place.across);
    const outline = profileFrom(
      placed,
      axes.turn + Math.PI / 2,
      (s, z): Vec2 => [centre + s * perMetre, y(place.height + z)],
    );
    const hung = ceilingPoints(placed).flatMap((point, k): Mark[] => {
      const at = x(axes.toIsland(point)[1]);
      const ceiling = y(ceilingAt(scene.room, ...point));
      const { canopy, foot } = canopyMark(placed.luminaire, at, ceiling, perMetre);
      const cord = segment(at, k === 0 ? foot : ceiling, at, y(place.height + high), "cord", "luminaire", 1);
      return k === 0 ? [canopy, cord] : [cord];
    });
    const marks: Mark[] = [
      ...hung,
      line(outline, "pendant body", "luminaire", 1.5, { closed: true, fill: "sheet" }),
    ];
    const w = Math.max(12, halfWidth(placed.luminaire) * perMetre);
    const top = y(place.height + high);
    return {
      layer: l,
      index: i,
      label: `${layer.name} ${i + 1}`,
      marks,
      handle: { x: centre - w, y: top, width: 2 * w, height: Math.max(24, y(place.height + low) - top) },
    };
  });
}

/** From each eye to the nearer rim of the nearest pendant, with its angle above or below the level. */
function sightlines({ scene, axes, x, y, width, words }: SectionPage): Mark[] {
  const hung = hungPendants(scene);
  const marks: Mark[] = [];
  const seen = atTheTop(scene, axes);
  const labels = spreadLabels(
    seen.map((p) => y(p.eye[2]) - 4),
    14,
    20,
    y(0),
  );
  seen.forEach((person, n) => {
    const [along, at] = axes.toIsland(person.eye);
    const leftSide = at < axes.width / 2;
    const beside = leftSide ? 4 : width - 4;
    const style = { anchor: leftSide ? "start" : "end", ground: "paper" } as const;
    const eye: Vec2 = [x(at), y(person.eye[2])];
    const [from, to] = leftSide ? [0, eye[0]] : [eye[0], width];
    const label = `${person.name}, eye ${words.length(person.eye[2])}`;
    marks.push(
      segment(from, eye[1], to, eye[1], "eye line", "quiet", 0.75, { dash: "eye line" }),
      text([beside, labels[n]], label, "eye height", style),
    );
    let nearest: { d: number; across: number; z: number } | undefined;
    for (const { placed } of hung) {
      const p = placeOf(axes, placed.frame.origin);
      const rim = halfWidth(placed.luminaire);
      const z = p.height + verticalExtent(placed.luminaire)[0];
      const d = Math.hypot(p.along - along, p.across - at);
      if (nearest === undefined || d < nearest.d)
        nearest = { d, across: p.across + (at < p.across ? -rim : rim), z };
    }
    if (nearest === undefined) return;
    const angle = Math.round(degrees(Math.atan2(nearest.z - person.eye[2], Math.abs(nearest.across - at))));
    const way =
      angle > 0 ? `${angle}° up to the rim` : angle < 0 ? `${-angle}° down to the rim` : "level with the rim";
    const rim: Vec2 = [x(nearest.across), y(nearest.z)];
    marks.push(
      line([eye, rim], "line of sight", "quiet", 0.75, { dash: "dotted" }),
      text([beside, labels[n] + 16], way, "line of sight", style),
    );
  });
  return marks;
}

function clearance({ scene, axes, x, y, perMetre, words }: SectionPage): Mark[] {
  const hung = hungPendants(scene);
  if (hung.length === 0) return [];
  const { placed } = hung[hung.length - 1];
  const place = placeOf(axes, placed.frame.origin);
  const lowest = place.height + verticalExtent(placed.luminaire)[0];
  if (lowest <= axes.height) return [];
  const at = x(place.across);
  const above = `${words.length(lowest - axes.height)} above top`;
  const rim = at - halfWidth(placed.luminaire) * perMetre - 6;
  const style = { anchor: "end", ground: "paper" } as const;
  return [
    ...verticalDimension(at, y(lowest), y(axes.height), above, "right", { ground: "paper" }),
    text([rim, y(lowest) + 4], `rim ${words.length(lowest)}`, "rim height", style),
  ];
}
