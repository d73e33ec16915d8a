/**
 * Where every box goes: distances from two finished faces, running strings from one datum, and, for what hangs,
 * the heights from floor to ceiling.
 *
 * The datum is the room's corner (0, 0), where the finished faces of walls 0 and 3 meet. Each coordinate is
 * rounded once, as a distance from the datum (or from the floor); every gap is the difference of two rounded
 * figures, so that printed parts sum to printed totals in either unit.
 */

import { type Orientation, orientationOf } from "../../geometry/frame.ts";
import { rectangle } from "../../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import { highestPoint, lowestPoint } from "../../luminaire/extent.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { placedSuspensionPoints, type SuspensionPoints } from "../../luminaire/suspension-points.ts";
import { type BoxInPlace, boxesInPlace } from "../../scene/box-places.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import { islandToRoom, roomToIsland, topUnder } from "../../scene/island-frame.ts";
import type { Scene } from "../../scene/scene.ts";
import { lengthStep, type RunningDimensions, roundTo, runningDimensions } from "../../units/length-text.ts";

/** Units of construction sheets: whole millimetres, or feet and inches to 1/8 in. */
export type SetOutUnit = "mm" | "ft-in";

/** Heights above the finished floor at one pendant (m, rounded once) and the parts between them. */
export interface HangingHeights {
  /** 0, top of the island (where there is one), lowest point, highest point, ceiling. */
  readonly string: RunningDimensions;
  readonly overTop: boolean;
  readonly top: number;
  readonly bottom: number;
  readonly bodyTop: number;
  readonly ceiling: number;
  /** Rounded parts (m): they sum to `ceiling`. */
  readonly gap: number;
  readonly body: number;
  readonly drop: number;
}

export interface SetOutBox extends Omit<BoxInPlace, "placed"> {
  /** Mark of the luminaire type in the schedule. */
  readonly type: string;
  readonly luminaire: Luminaire;
  /** Middle of the luminaire on the plan (m, room): its box is elsewhere where it is fed elsewhere. */
  readonly middle: Vec2;
  /** Rounded distances of the box from the faces of wall 3 and wall 0 (m). */
  readonly x: number;
  readonly y: number;
  /** Height of the ceiling above the floor at the box (m, rounded). */
  readonly ceiling: number;
  /** As hung (rad). */
  readonly orientation: Orientation;
  /** The point it is aimed at (m, room), where it is. */
  readonly aim?: Vec3;
  /** Of a pendant on more than its middle: where it hangs and is fed (m, room); assumed where the study does not say. */
  readonly suspensions?: SuspensionPoints;
  /** Of a pendant. */
  readonly heights?: HangingHeights;
  /** Height of the photometric centre above the floor (m, rounded), of what is fixed elsewhere. */
  readonly height?: number;
}

/** A string of running dimensions from the datum to the far wall. */
export interface SetOutString {
  readonly what: "pendants" | "suspensions" | "recessed" | "island";
  readonly axis: "x" | "y";
  /** Exact positions of what is dimensioned (m), rising, the datum and the far face not among them. */
  readonly stations: readonly number[];
  /** Datum, stations and far face. */
  readonly dims: RunningDimensions;
}

export interface SetOut {
  readonly unit: SetOutUnit;
  readonly boxes: readonly SetOutBox[];
  readonly strings: readonly SetOutString[];
  /** How the pendants lie to the island's centreline, in words. */
  readonly centreline: string | undefined;
  /** Rounded size of the room (m). */
  readonly length: number;
  readonly width: number;
}

/** Luminaire types of a scene in order of first use, with their mark in the schedule: L1, L2 …; letters are options and circuits. */
export function typeMarks(scene: Scene): ReadonlyMap<Luminaire, string> {
  const marks = new Map<Luminaire, string>();
  for (const { luminaires } of scene.layers)
    for (const { luminaire } of luminaires)
      if (!marks.has(luminaire)) marks.set(luminaire, `L${marks.size + 1}`);
  return marks;
}

export function setOut(scene: Scene, unit: SetOutUnit, length: (metres: number) => string): SetOut {
  const marks = typeMarks(scene);
  const round = (metres: number): number => roundTo(metres, unit);
  const boxes = boxesInPlace(scene).map(({ placed, ...box }): SetOutBox => {
    const [x, y, z] = placed.frame.origin;
    const suspensions = box.kind === "pendant" ? placedSuspensionPoints(placed) : undefined;
    const heights = box.kind === "pendant" ? hangingHeights(scene, placed, unit) : undefined;
    return {
      ...box,
      type: marks.get(placed.luminaire) as string,
      luminaire: placed.luminaire,
      middle: [x, y],
      x: round(box.at[0]),
      y: round(box.at[1]),
      ceiling: round(ceilingAt(scene.room, box.at[0], box.at[1])),
      orientation: orientationOf(placed.frame.rotation),
      ...(placed.aim === undefined ? {} : { aim: placed.aim }),
      ...(heights === undefined ? {} : { heights }),
      ...(suspensions === undefined ? {} : { suspensions }),
      ...(box.kind === "fixed" ? { height: round(z) } : {}),
    };
  });
  return {
    unit,
    boxes,
    strings: strings(scene, boxes, unit),
    centreline: centrelineWords(scene, boxes, length),
    length: round(scene.room.length),
    width: round(scene.room.width),
  };
}

/** Heights at a hanging luminaire. Known limit: over a floor, `top` is the floor and `gap` the height above it. */
export function hangingHeights(
  scene: Scene,
  { luminaire, frame }: PlacedLuminaire,
  unit: SetOutUnit,
): HangingHeights {
  const [x, y, z] = frame.origin;
  const top = topUnder(scene.island, [x, y]);
  const exact = [
    0,
    top ?? 0,
    z + lowestPoint(luminaire, frame.rotation),
    z + highestPoint(luminaire, frame.rotation),
    ceilingAt(scene.room, x, y),
  ];
  const string = runningDimensions(exact, unit);
  const [, topAt, bottom, bodyTop, ceiling] = string.positions;
  const [, gap, body, drop] = string.gaps;
  return { string, overTop: top !== undefined, top: topAt, bottom, bodyTop, ceiling, gap, body, drop };
}

function strings(scene: Scene, boxes: readonly SetOutBox[], unit: SetOutUnit): SetOutString[] {
  const strings: SetOutString[] = [];
  for (const axis of ["x", "y"] as const) {
    const far = axis === "x" ? scene.room.length : scene.room.width;
    const add = (what: SetOutString["what"], places: readonly Vec2[]): void => {
      const stations = distinctStations(
        places.map((p) => p[axis === "x" ? 0 : 1]),
        unit,
      );
      if (stations.length === 0) return;
      strings.push({ what, axis, stations, dims: runningDimensions([0, ...stations, far], unit) });
    };
    add(
      "pendants",
      boxes.filter((box) => box.kind === "pendant").map((box) => box.at),
    );
    // Where a long one hangs and is fed, unless the boxes' figures say so already.
    const stations = strings.find((string) => string.axis === axis)?.stations ?? [];
    const hung = distinctStations(
      suspensionPlaces(boxes).map((p) => p[axis === "x" ? 0 : 1]),
      unit,
    );
    if (hung.some((place) => !stations.some((each) => roundTo(each, unit) === roundTo(place, unit))))
      add("suspensions", suspensionPlaces(boxes));
    add(
      "recessed",
      boxes.filter((box) => box.kind === "recessed").map((box) => box.at),
    );
    if (scene.island !== undefined) add("island", islandStations(scene.island));
  }
  return strings;
}

/** Where long pendants hang and are fed (m, room). */
export function suspensionPlaces(boxes: readonly SetOutBox[]): Vec2[] {
  return boxes.flatMap(({ suspensions }) =>
    suspensions === undefined ? [] : [...suspensions.points, suspensions.feed],
  );
}

/** Corners of the island in the room; of an outline with many, those of its bounding box alone. */
function islandStations(island: NonNullable<Scene["island"]>): Vec2[] {
  const { length, width, outline } = island;
  const corners: readonly Vec2[] = outline.length <= 8 ? outline : rectangle(0, 0, length, width);
  return corners.map((p) => islandToRoom(island, p));
}

/** Rising, one for each figure that is told apart when rounded. */
export function distinctStations(values: readonly number[], unit: SetOutUnit): number[] {
  const step = lengthStep(unit);
  const bySteps = new Map(values.map((value) => [Math.round(value / step), value]));
  return [...bySteps.entries()].sort(([a], [b]) => a - b).map(([, value]) => value);
}

function centrelineWords(
  scene: Scene,
  boxes: readonly SetOutBox[],
  length: (metres: number) => string,
): string | undefined {
  const { island } = scene;
  const over = boxes.filter((box) => box.heights?.overTop === true);
  if (island === undefined || over.length === 0) return undefined;
  const offs = over.map((box) => roomToIsland(island, box.middle)[1] - island.width / 2);
  const spread = Math.max(...offs) - Math.min(...offs);
  const mean = offs.reduce((sum, off) => sum + off, 0) / offs.length;
  if (spread < 0.002 && Math.abs(mean) < 0.001)
    return "Pendants follow the ISLAND centreline, not the room centreline.";
  if (spread < 0.002)
    return `Pendants follow the ISLAND, not the room: on a line ${length(Math.abs(mean))} off its centreline, towards its ${mean < 0 ? "near" : "far"} side.`;
  const lines = new Map<string, string[]>();
  over.forEach(({ tag }, i) => {
    const off = Math.abs(offs[i]);
    const where = off < 0.001 ? "on it" : `${length(off)} towards its ${offs[i] < 0 ? "near" : "far"} side`;
    lines.set(where, [...(lines.get(where) ?? []), tag]);
  });
  const places = [...lines].map(([where, tags]) => `${shortTags(tags)} ${where}`);
  return `Pendants follow the ISLAND, not the room; off its centreline: ${places.join("; ")}.`;
}
