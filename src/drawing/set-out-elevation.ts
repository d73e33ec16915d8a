/**
 * Elevation of the island from its long side, and section across it, for those who hang: floor, top, ceiling,
 * each pendant in true profile with its drop, heights above finished floor and above finished top, and a running
 * string from the end (or the near side) of the top.
 *
 * Drawn from the floor up at one scale, with nothing broken out: on this sheet everything is measured.
 */

import type { SetOut, SetOutBox } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { ceilingBoxes, shortTags } from "../scene/ceiling-boxes.ts";
import type { Scene } from "../scene/scene.ts";
import { statedDepth } from "../scene/stated-depth.ts";
import { line, text } from "./drawing.ts";
import { islandMarks } from "./island-in-view.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { recessedMarks } from "./recessed-marks.ts";
import { LETTERING, stringDepth } from "./running-string.ts";
import { levels, string } from "./set-out-elevation-figures.ts";
import { hangingStations, pendantMarks, stackedTags, widthInView } from "./set-out-elevation-pendants.ts";
import type { PlanWords } from "./set-out-plan.ts";
import { ceilingOver, type SideView, sideView, tallest, type ViewDirection } from "./side-view.ts";

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
export function elevationSpan(
  scene: Scene,
  direction: ViewDirection,
): readonly [width: number, height: number] {
  const view = sideView(scene, direction);
  return [view.to - view.from, tallest(view) + deepest(scene)];
}

/** How far what is set into the ceiling goes above it (m), as far as is known. */
function deepest(scene: Scene): number {
  const inCeiling = ceilingBoxes(scene).filter(({ kind }) => kind === "recessed");
  return Math.max(0, ...inCeiling.map(({ placed }) => statedDepth(scene, placed) ?? 0));
}

/** Paper beside the drawing itself that its figures take (points), left and right, above and below. */
export function elevationMargins(
  setOut: SetOut,
  words: PlanWords,
): { readonly side: number; readonly below: number; readonly above: number } {
  const widest = Math.max(paperTextWidth(`+${words.dimension(setOut.length)}`, LETTERING), 30);
  return { side: widest + 34, below: 26 + stringDepth([words.dimension(setOut.length)]), above: 24 };
}

/** A pendant and its place along the view (m). */
interface Seen {
  readonly box: SetOutBox;
  readonly s: number;
}

export function setOutElevation(
  scene: Scene,
  setOut: SetOut,
  direction: ViewDirection,
  perMetre: number,
  words: PlanWords,
  held: ReadonlySet<string> = new Set(),
): ElevationDrawing {
  const view = sideView(scene, direction, perMetre);
  const pendants = setOut.boxes
    .filter((box) => box.kind === "pendant")
    .map((box): Seen => ({ box, s: view.station(box.middle) }))
    .filter(({ s }) => s > view.from && s < view.to);
  // Across, pendants of a row stand behind one another: the first of each place by its tag is drawn. Along, what hangs at another height
  // behind one, as over the other leg of an L, is seen past it.
  const depth = ({ box }: Seen): number => view.axes.toIsland(box.middle)[1];
  const seen = pendants
    .filter(({ s, box }, i) =>
      pendants
        .slice(0, i)
        .every(
          (other) =>
            !isAt(other, s) ||
            other.box.type !== box.type ||
            (direction === "along" && !sameHeights(other.box, box)),
        ),
    )
    .sort((a, b) => a.s - b.s || depth(b) - depth(a));
  const margins = elevationMargins(setOut, words);
  const boxes = seen.map(({ box }) => box);
  const stations = seen.flatMap(({ box: { suspensions, ...box }, s }) => {
    if (suspensions === undefined) return [s];
    const hung = [...suspensions.points, suspensions.feed].map(view.station);
    const half = widthInView(view, box) / 2;
    // Of a long one, its ends too.
    return half > LONG ? [s - half, ...hung, s + half] : hung;
  });
  const marks: PaperMark[] = [
    ...bodiesBehind(view),
    ...islandMarks(view),
    ...shell(view),
    ...seen.flatMap(({ box, s }, i) =>
      pendantMarks(box, s, {
        view,
        words,
        // Of those behind one another along, the nearest bears the tags of all.
        name:
          direction === "along" && seen[i + 1] !== undefined && isAt(seen[i + 1], s)
            ? ""
            : nameOf(seen[i], view, pendants, held),
        written: writtenAt(boxes, i),
        beside: besideOf(view, seen, i) * perMetre,
        apart: apartOf(seen, i).map((metres) => metres * perMetre),
        width: widthInView(view, box),
        hangsAt: hangingStations(view, box),
      }),
    ),
    ...recessedInView(view, setOut, words),
    ...levels(view, boxes, words),
    ...string(view, setOut.unit, stations, words),
  ];
  return {
    marks: stackedTags(marks),
    left: -view.from * perMetre + 16,
    right: view.to * perMetre + margins.side,
    above: (tallest(view) + deepest(scene)) * perMetre + margins.above,
    below: margins.below,
  };
}

/** What sits in the ceiling, at its place and depth, with the depth at one of each type. */
function recessedInView(view: SideView, { boxes }: SetOut, words: PlanWords): PaperMark[] {
  const { scene, perMetre } = view;
  const named = new Set<string>();
  return boxes.flatMap((box): PaperMark[] => {
    const s = view.station(box.at);
    if (box.kind !== "recessed" || s <= view.from || s >= view.to) return [];
    const depth = statedDepth(scene, scene.layers[box.layer].luminaires[box.index]) ?? 0;
    const [x, y] = view.at(s, box.ceiling);
    const half = Math.max(2, (widthInView(view, box) / 2) * perMetre);
    const up = depth * perMetre;
    const marks = recessedMarks(x, y, { half, up, ink: "ink" });
    if (depth === 0 || named.has(box.type)) return marks;
    named.add(box.type);
    const figure = text([x, y - up - 2], `recessed ${words.dimension(depth)}`, "recessed body", {
      size: LETTERING,
      ink: "ink",
      anchor: "middle",
      ground: "sheet",
    });
    return [...marks, figure];
  });
}

function isAt(other: Seen, s: number): boolean {
  return Math.abs(other.s - s) < 0.02;
}

function sameHeights({ heights: a }: SetOutBox, { heights: b }: SetOutBox): boolean {
  return a?.ceiling === b?.ceiling && a?.bottom === b?.bottom;
}

/** From a pendant's middle to the next ones', left and right (m). */
function apartOf(seen: readonly Seen[], index: number): number[] {
  return [-1, 1].map((step) => {
    const next = seen[index + step];
    return next === undefined ? Number.POSITIVE_INFINITY : Math.abs(next.s - seen[index].s);
  });
}

/** Tags of what stands behind one another, in their order, and across under one height of the ceiling. */
function nameOf(
  { box: { heights }, s }: Seen,
  { direction }: SideView,
  all: readonly Seen[],
  held: ReadonlySet<string>,
): string {
  const tags = all
    .filter(
      (other) => isAt(other, s) && (direction === "along" || other.box.heights?.ceiling === heights?.ceiling),
    )
    .map((other) => other.box.tag)
    .sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)));
  const on = tags.filter((each) => held.has(each));
  const row = shortTags(tags);
  if (on.length === 0) return row;
  if (on.length === tags.length) return `${row} HOLD`;
  return `${row}, ${shortTags(on).replace(/, ([^,]+)$/, " and $1")} HOLD`;
}

/** From the middle of a pendant to the next body on its right (m). */
function besideOf(view: SideView, seen: readonly Seen[], index: number): number {
  const next = seen[index + 1];
  if (next === undefined) return Number.POSITIVE_INFINITY;
  return next.s - widthInView(view, next.box) / 2 - seen[index].s;
}

/** Which figures are written at a pendant: those that differ along the row at each, what all share at the last alone. */
function writtenAt(boxes: readonly SetOutBox[], index: number): ReadonlySet<"drop" | "body" | "gap"> {
  const last = index === boxes.length - 1;
  const differs = (part: "drop" | "body" | "gap"): boolean =>
    boxes.some(({ heights }) => heights?.[part] !== boxes[index].heights?.[part]);
  return new Set((["drop", "body", "gap"] as const).filter((part) => last || differs(part)));
}

export function shell(view: SideView): PaperMark[] {
  const { from, to, isOpen, at } = view;
  const ceiling = (s: number) => at(s, ceilingOver(view, s));
  return [
    line([at(from, 0), at(to, 0)], "floor", "ink", 1.5),
    line([ceiling(from), ceiling(to)], "ceiling", "ink", 1.5),
    ...otherCeilings(view),
    ...[from, to].map((s, end) =>
      isOpen[end]
        ? line([at(s, 0), ceiling(s)], "cut", "hairline", 0.75, { dash: "eye line" })
        : line([at(s, 0), ceiling(s)], "wall", "ink", 1.5),
    ),
  ];
}

/** Where a slope has other pendants under another height: a thinner line. */
function otherCeilings(view: SideView): PaperMark[] {
  const ends = [view.from, view.to];
  const [first, ...others] = view.depths;
  return others.flatMap((depth): PaperMark[] => {
    const heights = ends.map((s) => ceilingOver(view, s, depth));
    if (ends.every((s, i) => Math.abs(heights[i] - ceilingOver(view, s, first)) < SEEN)) return [];
    return [
      line(
        ends.map((s, i) => view.at(s, heights[i])),
        "ceiling",
        "ink",
        0.75,
      ),
    ];
  });
}

function bodiesBehind({ scene, axes, direction, from, to, at, station }: SideView): PaperMark[] {
  const { island } = scene;
  return (scene.bodies ?? []).flatMap((body): PaperMark[] => {
    // Seen from the near side: what stands on this side of the island is behind the eye.
    if (direction === "along" && body.outline.every((p) => axes.toIsland(p)[1] <= 0)) return [];
    const places = body.outline.map(station);
    const [a, b] = [Math.max(from, Math.min(...places)), Math.min(to, Math.max(...places))];
    if (b - a < 0.02) return [];
    const corners = [at(a, body.bottom), at(b, body.bottom), at(b, body.top), at(a, body.top)];
    const outline = line(corners, "cabinet", "hairline", 0.75, { closed: true });
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
