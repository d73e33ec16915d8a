/**
 * The parts of the top where things are done: as the study says, or from hob, sink and seats by simple rules.
 *
 * Rules without zones (our own, common practice): cooking = the hob; washing = the sink, on the basin's floor
 * when there is a basin; eating = a strip 0.38 m deep along the seats; preparation = the longest run left beside
 * them, as deep as the top less that strip. With nothing given the whole top is one zone.
 */

import type { Ledger } from "../diagnostics/ledger.ts";
import { bounds, rectangle, rectangleBetween } from "../geometry/polygon.ts";
import { convexPieces, insidePoint } from "../geometry/polygon-pieces.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { IslandDocument } from "../study/island-schema.ts";
import { cutToOutline } from "./island.ts";
import { topHeightAt } from "./island-frame.ts";
import { sideAxes } from "./island-side.ts";
import { regionOutline } from "./room.ts";
import type { Island, Zone } from "./scene.ts";

/** Depth of a place setting with its reach (m). */
export const EATING_DEPTH = 0.38;
/** A run shorter than this is no place to prepare (m). */
const SHORTEST_RUN = 0.3;
/** Regions that share less than this (m) only touch. */
const TOUCHING = 1e-3;

export interface PlannedZone extends Zone {
  /** Document path for issues about it. */
  readonly path: string;
  /** Whether its height was stated, rather than the top's. */
  readonly ownHeight: boolean;
}

export function zonesOf(document: IslandDocument, island: Island, ledger: Ledger): PlannedZone[] {
  const given = document.zones ?? [];
  if (given.length === 0) return defaultZones(island, ledger);
  const names = given.map(({ name }) => name);
  return given.flatMap((zone, i) => {
    const path = `/island/zones/${i}`;
    const here = ledger.at(path);
    here.named("zone", names, i, "/name");
    const wanted = regionOutline(zone, here);
    const outline = wanted && cutToOutline(wanted, island.outline, here);
    if (outline === undefined) return [];
    const { name, target, height } = zone;
    if (target === undefined)
      here.warn(
        "zone-no-target",
        "/target",
        `Nothing is asked of "${name}": the key "target" is missing.`,
        "a target, or null where nothing is to be asked",
      );
    const inside = insidePoint(convexPieces(outline)) as Vec2;
    return [
      {
        name,
        outline,
        height: height ?? topHeightAt(island, inside),
        ...(target === undefined || target === null ? {} : { target }),
        ...withTask(target ?? undefined, name),
        path,
        ownHeight: height !== undefined,
      },
    ];
  });
}

function withTask(target: string | undefined, name: string): Pick<Zone, "task"> {
  const task = taskOf(target ?? "") ?? taskOf(name);
  return task === undefined ? {} : { task };
}

/** What a name tells of the task, in the words people use. */
export function taskOf(name: string): Zone["task"] | undefined {
  if (/\b(prep|worktop|counter|bak|chop)/i.test(name)) return "preparation";
  if (/\b(cook|hob|stove|range|grill)/i.test(name)) return "cooking";
  if (/\b(wash|sink|basin)/i.test(name)) return "washing";
  if (/\b(eat|din|seat|bar|breakfast|serv|homework|desk)/i.test(name)) return "eating";
  return undefined;
}

function defaultZones(island: Island, ledger: Ledger): PlannedZone[] {
  const zones: PlannedZone[] = [];
  const add = (
    name: string,
    task: NonNullable<Zone["task"]>,
    outline: readonly Vec2[],
    why: string,
    height?: number,
  ) => {
    const cut = cutToOutline(outline, island.outline, ledger.at("/island/zones"), false);
    if (cut === undefined) return;
    const own = height ?? topHeightAt(island, insidePoint(convexPieces(cut)) as Vec2);
    zones.push({
      name,
      outline: cut,
      height: own,
      target: task,
      task,
      path: "/island/zones",
      ownHeight: height !== undefined,
    });
    ledger.note(`/island/zones/${zones.length - 1}`, { name, polygon: cut, target: task }, why);
  };
  const { hob, sink, basin, seats } = island;
  if (hob === undefined && sink === undefined && seats === undefined) {
    const { outline, height } = island;
    const target = "preparation";
    ledger.note(
      "/island/zones",
      { name: "top", target },
      "no zones, hob, sink or seats; the whole top is one zone, lit for preparation",
    );
    return [{ name: "top", outline, height, target, task: target, path: "/island", ownHeight: false }];
  }
  const strip = seats === undefined ? undefined : eatingStrip(island, seats);
  const run = preparationRun(island, strip);
  if (run !== undefined)
    add("prep", "preparation", run, "no zones given; the longest run beside hob, sink and seats");
  if (hob !== undefined) add("cooking", "cooking", hob, "no zones given; the hob");
  if (sink !== undefined)
    add(
      "washing",
      "washing",
      sink,
      basin === undefined ? "no zones given; the sink" : "no zones given; the basin's floor",
      basin?.floor,
    );
  if (strip !== undefined) {
    const shared = zones.flatMap(({ name, outline }) => {
      const [along, across] = sharedExtents(outline, strip);
      const size = `${ledger.length(along)} × ${ledger.length(across)}`;
      return along > TOUCHING && across > TOUCHING
        ? [`${size} of it lie over ${name} and are judged as both`]
        : [];
    });
    const why = [
      `no zones given; a strip ${ledger.length(EATING_DEPTH)} deep along the seats`,
      ...shared,
    ].join("; ");
    add("eating", "eating", strip, why);
  }
  return zones;
}

/** How far two regions' bounding boxes reach into one another along each axis (m), negative where they are apart. */
export function sharedExtents(a: readonly Vec2[], b: readonly Vec2[]): readonly [number, number] {
  const [p, q] = [bounds(a), bounds(b)];
  return [Math.min(p[2], q[2]) - Math.max(p[0], q[0]), Math.min(p[3], q[3]) - Math.max(p[1], q[1])];
}

function eatingStrip(island: Island, { side, fitting, from, width }: NonNullable<Island["seats"]>): Vec2[] {
  const { along, across, at } = sideAxes(island, side);
  const [start, end] = [Math.max(0, from), Math.min(along, from + fitting * width)];
  return rectangleBetween(...bounds([at(start, 0), at(end, Math.min(EATING_DEPTH, across))]));
}

/** The longest stretch along the island free of hob, sink and seats at its ends. */
function preparationRun(island: Island, strip: readonly Vec2[] | undefined): Vec2[] | undefined {
  let [x0, y0, x1, y1] = [0, 0, island.length, island.width];
  const side = island.seats?.side;
  if (strip !== undefined && side !== undefined) {
    const [sx0, sy0, sx1, sy1] = bounds(strip);
    if (side === "x-") x0 = sx1;
    if (side === "x+") x1 = sx0;
    if (side === "y-") y0 = sy1;
    if (side === "y+") y1 = sy0;
  }
  const regions = [island.hob, island.sink]
    .filter((region) => region !== undefined)
    .map((region) => bounds(region))
    .sort((a, b) => a[0] - b[0]);
  let best: readonly [number, number] = [x0, x0];
  let from = x0;
  for (const [a, , b] of [...regions, [x1, 0, x1, 0] as const]) {
    const to = Math.min(a, x1);
    if (to - from > best[1] - best[0]) best = [from, to];
    from = Math.max(from, b);
  }
  const [a, b] = best;
  return b - a < SHORTEST_RUN || y1 - y0 < SHORTEST_RUN ? undefined : rectangle(a, y0, b - a, y1 - y0);
}
