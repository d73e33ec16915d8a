/**
 * What of a room's height an elevation shows, and how it maps to the page: stretch by stretch from under the top to the
 * ceiling, y = foot − Σ units of the stretches passed, linear within each.
 *
 * Without a height to keep to, everything from the top to the highest pendant is true to the horizontal scale and only
 * a long drop is cut. In a given height all open air is cut as well, so that the drawing is as high for every
 * arrangement, at one scale by which clearances of like bodies compare, and bodies only where they alone are too high;
 * what is cut carries a break mark and its true figure.
 */

import { rectangle } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import { dropOf, suspended } from "../scene/suspended.ts";
import type { Wording } from "../words/wording.ts";
import { type IslandAxes, islandAxes } from "./island-axes.ts";
import type { SheetScale } from "./sheet-scale.ts";

/** One stretch of the height, drawn at its own scale. */
export interface HeightStretch {
  /** m */
  readonly from: number;
  readonly to: number;
  /** Drawing units it takes. */
  readonly units: number;
  /** Shorter than the horizontal scale would have it. */
  readonly cut: boolean;
}

/** From the lowest height drawn: side of the island, open air and bodies by turns, drops. */
export interface ElevationExtent {
  readonly island: HeightStretch;
  readonly airAndBodies: readonly HeightStretch[];
  /** All bodies are shortened alike, being too high together. */
  readonly areBodiesCut?: boolean;
  readonly drop: HeightStretch;
  /** How far the deepest body goes into the ceiling (m). */
  readonly recess: number;
  /** Drawing units over the highest ceiling. */
  readonly head: number;
}

export interface ElevationRoom {
  /** Draws from floor to ceiling without a cut. */
  readonly whole?: boolean;
  /** Height of the whole drawing (drawing units); as its stretches need without. */
  readonly height?: number;
}

/** Over the ceiling, whose height stands under it, and under the lowest line, for the break (drawing units). */
const HEAD = 8;
/** A body in the ceiling is drawn no higher over it (drawing units). */
const RECESS = 20;
const FOOT = 6;
/** Height a cut drop is drawn with, and what a drop may exceed it by before it is cut (drawing units). */
const DROP = 46;
const SHORTEST_DROP = 24;
const SLACK = 16;
/** Side of the island drawn under its top before it breaks off: room for the length of the top (drawing units). */
const UNDER_TOP = 22;
/** Open air keeps so much (drawing units); bodies take no more than this share of what is left. */
const LEAST_OPEN = 30;
const BODIES = 0.7;
/** Open air of so much (m) is drawn at one scale whatever hangs in it, under any ceiling: a higher pendant is drawn higher by as much. */
const COMPARED = 2;

/** Heights worth drawing: from just under the top (or the floor, when `whole`) to the ceiling. */
export function elevationExtent(
  scene: Scene,
  scale: SheetScale,
  { whole = false, height }: ElevationRoom = {},
): ElevationExtent {
  const axes = islandAxes(scene);
  const m = scale.perMetre;
  const ceiling = highestCeiling(scene, axes, scale);
  const hung = suspended(scene).map(({ placed }) =>
    verticalExtent(placed.luminaire).map((z) => z + placed.frame.origin[2]),
  );
  const eyes = scene.people
    .filter((person) => isShown(axes.toIsland(person.at)[0], scale))
    .map((person) => person.eye[2] + 0.2);
  const over = (z: number): number => Math.max(axes.height, Math.min(ceiling, z));
  const highest = over(
    Math.max(...eyes, ...(hung.length === 0 ? [axes.height + 0.75] : hung.map(([, high]) => high + 0.02))),
  );
  const { island } = scene;
  const lower =
    whole || island === undefined ? 0 : Math.max(0, island.height - island.topThickness - UNDER_TOP / m);
  const stretch = (from: number, to: number, most = Number.POSITIVE_INFINITY): HeightStretch => {
    const units = Math.min(most, (to - from) * m);
    return { from, to, units, cut: units < (to - from) * m - 1e-6 };
  };
  const side = stretch(lower, axes.height);
  const recess = Math.max(
    0,
    ...scene.layers.flatMap(({ luminaires }) =>
      luminaires.map((placed) => (placed.luminaire.body ? -dropOf(scene, placed) : 0)),
    ),
  );
  const housing = Math.min(RECESS, recess * m);
  if (whole || height === undefined) {
    const isWorth = !whole && (ceiling - highest) * m > DROP + SLACK;
    return {
      island: side,
      airAndBodies: [stretch(axes.height, highest)],
      drop: stretch(highest, ceiling, isWorth ? DROP : undefined),
      recess,
      head: HEAD + housing,
    };
  }
  let at = axes.height;
  let bodies = 0;
  // Of each only what no lower one takes.
  const taken = hung
    .sort(([a], [b]) => a - b)
    .map((ends) => {
      const from = Math.max(at, over(ends[0]));
      at = Math.max(from, over(ends[1]));
      bodies += at - from;
      return [from, at];
    });
  const room = Math.max(2 * LEAST_OPEN, height - HEAD - FOOT - side.units);
  const left = room - SHORTEST_DROP;
  const ofBodies = Math.min(m, Math.min(BODIES * left, left - LEAST_OPEN) / bodies);
  const air = Math.max(highest, Math.min(ceiling, axes.height + COMPARED + bodies)) - axes.height - bodies;
  const ofAir = Math.min(m, (left - bodies * ofBodies) / air);
  at = axes.height;
  const [open, ...above] = [...taken, [highest, highest]].flatMap(([low, high]) => {
    const air = stretch(at, low, (low - at) * ofAir);
    at = high;
    return [air, stretch(low, high, (high - low) * ofBodies)];
  });
  // Each takes what the other leaves: no height of the page stays empty while anything is cut.
  const rest = above.reduce((sum, { units }) => sum - units, room);
  // What is over the ceiling is taken from the drops, so that clearances keep their scale.
  const drop = stretch(highest, ceiling, Math.max(SHORTEST_DROP, rest - open.units - housing));
  const longer = stretch(open.from, open.to, Math.max(open.units, rest - drop.units - housing));
  return {
    island: side,
    airAndBodies: [longer, ...above],
    areBodiesCut: ofBodies < m,
    drop,
    recess,
    head: HEAD + rest - longer.units - drop.units,
  };
}

/** Vertical mapping of an elevation. */
export interface ElevationScale {
  readonly height: number;
  y(z: number): number;
  z(y: number): number;
}

/** What every part of an elevation is drawn from. */
export interface ElevationPage extends ElevationScale {
  readonly scene: Scene;
  readonly axes: IslandAxes;
  readonly scale: SheetScale;
  readonly extent: ElevationExtent;
  readonly words: Wording;
}

export function elevationScale(extent: ElevationExtent): ElevationScale {
  const stretches = [extent.island, ...extent.airAndBodies, extent.drop];
  const base = extent.head + stretches.reduce((sum, { units }) => sum + units, 0);
  // Height and page place where each stretch ends; between them the mapping is linear.
  const zs = [extent.island.from];
  const ys = [base];
  for (const { from, to, units } of stretches) {
    if (to - from < 1e-9) continue;
    zs.push(to);
    ys.push(ys[ys.length - 1] - units);
  }
  return {
    height: Math.ceil(base + FOOT - 1e-6),
    y: (z) => interpolate(zs, ys, z),
    z: (y) => interpolate([...ys].reverse(), [...zs].reverse(), y),
  };
}

/** Linear between rising places; beyond the ends on in the outermost stretch that has any extent. */
function interpolate(places: readonly number[], values: readonly number[], at: number): number {
  if (places.length < 2) return values[0];
  let i = 0;
  while (i < places.length - 2 && at > places[i + 1]) i++;
  const run = places[i + 1] - places[i];
  return values[i] + (run === 0 ? 0 : ((at - places[i]) / run) * (values[i + 1] - values[i]));
}

/** Whether a height (m) is drawn in fewer units than the horizontal scale would have it, by more than a stroke. */
export function isCut(height: number, units: number, { perMetre }: SheetScale): boolean {
  return units < height * perMetre - 1;
}

export function isShown(along: number, scale: SheetScale): boolean {
  return along >= scale.from - 0.05 && along <= scale.to + 0.05;
}

function highestCeiling(scene: Scene, axes: IslandAxes, scale: SheetScale): number {
  const heights = [scale.from, scale.to].map((a) => ceilingAt(scene.room, ...clampToRoom(scene, axes, a)));
  return Math.max(...heights);
}

export function clampToRoom(scene: Scene, axes: IslandAxes, along: number): Vec2 {
  const [x, y] = axes.toRoom([along, axes.width / 2]);
  const { room } = scene;
  return [Math.max(0, Math.min(room.length, x)), Math.max(0, Math.min(room.width, y))];
}

/** Where the island's long axis leaves the room (m along), for islands parallel to a wall. */
export function roomEnds(scene: Scene, axes: IslandAxes): readonly [number, number] {
  const { length, width } = scene.room;
  const alongs = rectangle(0, 0, length, width).map((c) => axes.toIsland(c)[0]);
  return [Math.min(...alongs), Math.max(...alongs)];
}
