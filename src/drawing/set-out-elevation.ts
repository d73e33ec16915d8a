/**
 * Elevation of the island from its long side, and section across it, for those who hang: floor, top, ceiling,
 * each pendant in true profile with its drop, heights above finished floor and above finished top, and a running
 * string from the end (or the near side) of the top.
 *
 * Drawn from the floor up at one scale, with nothing broken out: on this sheet everything is measured.
 */

import type { SetOut, SetOutBox } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { rectangle } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { type Ink, line, text } from "./drawing.ts";
import { type IslandAxes, islandAxes } from "./island-axes.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING, stringDepth } from "./running-string.ts";
import { ceilingOver, hangingDepths } from "./set-out-elevation-ceiling.ts";
import { levels, string } from "./set-out-elevation-figures.ts";
import { hangingStations, pendantMarks, widthInView } from "./set-out-elevation-pendants.ts";
import type { PlanWords } from "./set-out-plan.ts";

export type ElevationView = "along" | "across";

/** What of the room is drawn beyond the top (m). */
const REACH = 0.35;
/** Half of what is dimensioned from end to end (m). */
const LONG = 0.2;
/** Ceilings nearer to one another than this (m) are one line. */
const SEEN = 0.005;

export interface ElevationDrawing {
  readonly marks: readonly PaperMark[];
  /** Paper the drawing covers right of and above its origin (the floor under the end of the top), and beyond. */
  readonly left: number;
  readonly right: number;
  readonly above: number;
  readonly below: number;
}

/** Metres a view spans, sideways and up, for choosing a scale. */
export function elevationSpan(scene: Scene, view: ElevationView): readonly [width: number, height: number] {
  const [from, to] = elevationRange(scene, view);
  return [to - from, tallest(scene, view)];
}

/** Paper beside the drawing itself that its figures take (points), left and right, above and below. */
export function elevationMargins(
  setOut: SetOut,
  words: PlanWords,
): { readonly side: number; readonly below: number; readonly above: number } {
  const widest = Math.max(paperTextWidth(`+${words.dimension(setOut.length)}`, LETTERING), 30);
  return { side: widest + 34, below: 26 + stringDepth([words.dimension(setOut.length)]), above: 24 };
}

export function setOutElevation(
  scene: Scene,
  setOut: SetOut,
  view: ElevationView,
  perMetre: number,
  words: PlanWords,
  held: ReadonlySet<string> = new Set(),
): ElevationDrawing {
  const axes = islandAxes(scene);
  const [from, to] = elevationRange(scene, view);
  const at = (s: number, z: number): Vec2 => [s * perMetre, -z * perMetre];
  const pendants = setOut.boxes
    .filter((box) => box.kind === "pendant")
    .map((box) => ({ box, s: stationOf(axes, box, view) }))
    .filter(({ s }) => s > from && s < to);
  // Across, pendants of a row stand behind one another: the first of each place by its tag is drawn.
  const seen = pendants
    .filter(
      ({ s, box }, i) =>
        !pendants.slice(0, i).some((other) => Math.abs(other.s - s) < 0.02 && other.box.type === box.type),
    )
    .sort((a, b) => a.s - b.s);
  const margins = elevationMargins(setOut, words);
  const marks: PaperMark[] = [
    ...bodiesBehind(scene, axes, view, [from, to], at),
    ...islandMarks(scene, view, at),
    ...shell(scene, axes, view, [from, to], at),
    ...seen.flatMap(({ box, s }, i) =>
      pendantMarks(box, s, {
        at,
        perMetre,
        words,
        name: nameOf(box, s, view, pendants, held),
        written: writtenAt(seen, i),
        beside: besideOf(axes, seen, i, view) * perMetre,
        width: widthInView(axes, box, view),
        hangsAt: hangingStations(scene, axes, box, view),
        boxAt: axes.toIsland(box.at)[view === "along" ? 0 : 1],
        ceiling: (place) => ceilingOver(scene, axes, view, place),
      }),
    ),
    ...levels(
      scene,
      axes,
      view,
      [from, to],
      seen.map(({ box }) => box),
      perMetre,
      words,
    ),
    ...string(
      scene,
      axes,
      setOut,
      view,
      seen.flatMap(({ box, s }) => {
        const hung = hungStations(axes, box, view);
        const half = widthInView(axes, box, view) / 2;
        // Of a long one, its ends too.
        return hung === undefined ? [s] : half > LONG ? [s - half, ...hung, s + half] : hung;
      }),
      perMetre,
      words,
    ),
  ];
  return {
    marks,
    left: -from * perMetre + 16,
    right: to * perMetre + margins.side,
    above: tallest(scene, view) * perMetre + margins.above,
    below: margins.below,
  };
}

/** Tags of what stands behind one another, in their order. */
function nameOf(
  { tag, heights }: SetOutBox,
  s: number,
  view: ElevationView,
  all: readonly { readonly box: SetOutBox; readonly s: number }[],
  held: ReadonlySet<string>,
): string {
  if (view === "along") return `${tag}${held.has(tag) ? " HOLD" : ""}`;
  const tags = all
    .filter((other) => Math.abs(other.s - s) < 0.02 && other.box.heights?.ceiling === heights?.ceiling)
    .map((other) => other.box.tag)
    .sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)));
  const on = tags.filter((each) => held.has(each));
  const row = shortTags(tags);
  if (on.length === 0) return row;
  return on.length === tags.length ? `${row} HOLD` : `${row}, ${shortTags(on)} HOLD`;
}

/** From the middle of a pendant to the next body on its right (m). */
function besideOf(
  axes: IslandAxes,
  seen: readonly { readonly box: SetOutBox; readonly s: number }[],
  index: number,
  view: ElevationView,
): number {
  const next = seen[index + 1];
  return next === undefined
    ? Number.POSITIVE_INFINITY
    : next.s - widthInView(axes, next.box, view) / 2 - seen[index].s;
}

/** Which figures are written at a pendant: those that differ along the row at each, what all share at the last alone. */
function writtenAt(
  seen: readonly { readonly box: SetOutBox }[],
  index: number,
): ReadonlySet<"drop" | "body" | "gap"> {
  const parts = ["drop", "body", "gap"] as const;
  const last = index === seen.length - 1;
  return new Set(
    parts.filter(
      (part) => last || seen.some(({ box }) => box.heights?.[part] !== seen[index].box.heights?.[part]),
    ),
  );
}

function extent(scene: Scene, view: ElevationView): number {
  const axes = islandAxes(scene);
  return view === "along" ? axes.length : axes.width;
}

export function elevationRange(scene: Scene, view: ElevationView): readonly [number, number] {
  const axes = islandAxes(scene);
  const { length, width } = scene.room;
  const corners = rectangle(0, 0, length, width).map((c) => axes.toIsland(c)[view === "along" ? 0 : 1]);
  return [
    Math.max(-REACH, Math.min(...corners)),
    Math.min(extent(scene, view) + REACH, Math.max(...corners)),
  ];
}

/** Where a long one hangs and is fed along the view (m). */
function hungStations(
  axes: IslandAxes,
  { suspensions }: SetOutBox,
  view: ElevationView,
): number[] | undefined {
  return suspensions === undefined
    ? undefined
    : [...suspensions.points, suspensions.feed].map(
        (point) => axes.toIsland(point)[view === "along" ? 0 : 1],
      );
}

function stationOf(axes: IslandAxes, box: SetOutBox, view: ElevationView): number {
  return axes.toIsland(box.middle)[view === "along" ? 0 : 1];
}

function tallest(scene: Scene, view: ElevationView): number {
  const axes = islandAxes(scene);
  const depths = hangingDepths(scene, axes, view);
  return Math.max(
    ...elevationRange(scene, view).flatMap((s) =>
      depths.map((depth) => ceilingOver(scene, axes, view, s, depth)),
    ),
  );
}

export function shell(
  scene: Scene,
  axes: IslandAxes,
  view: ElevationView,
  [from, to]: readonly [number, number],
  at: (s: number, z: number) => Vec2,
): PaperMark[] {
  const ceiling = (s: number): Vec2 => at(s, ceilingOver(scene, axes, view, s));
  const marks: PaperMark[] = [
    line([at(from, 0), at(to, 0)], "floor", "ink", 1.5),
    line([ceiling(from), ceiling(to)], "ceiling", "ink", 1.5),
    ...otherCeilings(scene, axes, view, [from, to], at),
  ];
  for (const [s, open] of [
    [from, from <= -REACH + 1e-9],
    [to, to >= extent(scene, view) + REACH - 1e-9],
  ] as const)
    marks.push(
      line(
        [at(s, 0), ceiling(s)],
        open ? "cut" : "wall",
        open ? "hairline" : "ink",
        open ? 0.75 : 1.5,
        open ? { dash: "eye line" } : {},
      ),
    );
  return marks;
}

/** Where a slope has other pendants under another height: a thinner line. */
function otherCeilings(
  scene: Scene,
  axes: IslandAxes,
  view: ElevationView,
  ends: readonly [number, number],
  at: (s: number, z: number) => Vec2,
): PaperMark[] {
  const [first, ...others] = hangingDepths(scene, axes, view);
  return others.flatMap((depth): PaperMark[] => {
    const heights = ends.map((s) => ceilingOver(scene, axes, view, s, depth));
    if (ends.every((s, i) => Math.abs(heights[i] - ceilingOver(scene, axes, view, s, first)) < SEEN))
      return [];
    return [line([at(ends[0], heights[0]), at(ends[1], heights[1])], "ceiling", "ink", 0.75)];
  });
}

function bodiesBehind(
  scene: Scene,
  axes: IslandAxes,
  view: ElevationView,
  [from, to]: readonly [number, number],
  at: (s: number, z: number) => Vec2,
): PaperMark[] {
  const { island } = scene;
  return (scene.bodies ?? []).flatMap((body): PaperMark[] => {
    // Seen from the near side: what stands on this side of the island is behind the eye.
    if (view === "along" && body.outline.every((p) => axes.toIsland(p)[1] <= 0)) return [];
    const places = body.outline.map((p) => axes.toIsland(p)[view === "along" ? 0 : 1]);
    const [a, b] = [Math.max(from, Math.min(...places)), Math.min(to, Math.max(...places))];
    if (b - a < 0.02) return [];
    const outline = line(
      [at(a, body.bottom), at(b, body.bottom), at(b, body.top), at(a, body.top)],
      "cabinet",
      "hairline",
      0.75,
      { closed: true },
    );
    const name = printable(body.name, 24);
    const room = at(b, 0)[0] - at(a, 0)[0] - 6;
    const hidden = island !== undefined && body.top < island.height + 0.1 && b > 0;
    if (hidden || paperTextWidth(name, LETTERING) > room) return [outline];
    const words = text([at(a, 0)[0] + 3, at(0, body.top)[1] + 8], name, "cabinet name", {
      size: LETTERING,
      ink: "quiet",
    });
    return [outline, words];
  });
}

export function islandMarks(
  scene: Scene,
  view: ElevationView,
  at: (s: number, z: number) => Vec2,
): PaperMark[] {
  const { island } = scene;
  if (island === undefined) return [];
  const whole = view === "along" ? island.length : island.width;
  const under = island.height - island.topThickness;
  const [low, high] = view === "along" ? ["x-", "x+"] : ["y-", "y+"];
  const { overhang } = island;
  const b0 = overhang?.side === low ? overhang.depth : 0;
  const b1 = whole - (overhang?.side === high ? overhang.depth : 0);
  const fill = { closed: true, fill: "sheet" as Ink } as const;
  const marks: PaperMark[] = [
    line([at(b0, 0), at(b1, 0), at(b1, under), at(b0, under)], "island base", "ink", 1, fill),
    line(
      [at(0, under), at(whole, under), at(whole, island.height), at(0, island.height)],
      "island top",
      "ink",
      1.5,
      fill,
    ),
  ];
  for (const { outline, height } of island.levels) {
    const places = outline.map((p) => p[view === "along" ? 0 : 1]);
    const [a, b] = [Math.min(...places), Math.max(...places)];
    marks.push(
      line(
        [at(a, island.height), at(a, height), at(b, height), at(b, island.height)],
        "island level",
        "ink",
        1,
        fill,
      ),
    );
  }
  return marks;
}
