/** Zones and the top: strips that no zone judges, zones stretched over them, and targets of one's own. */

import { metresOf } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import { type Json, write } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawPoint2, type RawStudy, type RawZone, tidy } from "./raw-study.ts";
import { topSize } from "./room-contents.ts";
import { renamedInSettings } from "./settings.ts";
import { boxOf, type Corner, coveringZones, isSquare, type Outline, uncovered } from "./zone-cover.ts";

/** A strip along one side of the top in which nothing is judged. */
export interface UnjudgedStrip {
  readonly side: "near the left end" | "near the right end" | "along the near side" | "along the far side";
  /** m; below 0 where the zones reach beyond the top */
  readonly depth: number;
}

/** Narrower is a joint, not a strip (m). */
const NARROW = 0.01;

interface Reach {
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

/** Corners of every zone in the island's frame (m); undefined where one cannot be read or has oblique sides, or there is none. */
function outlinesOf(zones: readonly RawZone[]): readonly Outline[] | undefined {
  const outlines = zones.map((zone): Outline => {
    const numbers = (point: RawPoint2 | undefined): Corner => [
      metresOf(point?.[0]) ?? Number.NaN,
      metresOf(point?.[1]) ?? Number.NaN,
    ];
    if (zone.polygon !== undefined) return zone.polygon.map(numbers);
    const [[x, y], [length, width]] = [numbers(zone.from), numbers(zone.size)];
    return rectangle([x, y], [x + length, y + width]);
  });
  return outlines.length > 0 && outlines.every(isSquare) ? outlines : undefined;
}

function rectangle([x0, y0]: Corner, [x1, y1]: Corner): Outline {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** Box around all zones. */
function reachOf(zones: readonly RawZone[]): Reach | undefined {
  const outlines = outlinesOf(zones);
  if (outlines === undefined) return undefined;
  const [low, high] = boxOf(outlines.flat());
  return { low, high };
}

function topOf(study: RawStudy): Outline {
  const corners = study.island?.outline?.map(([x, y]): Corner => [metresOf(x) ?? 0, metresOf(y) ?? 0]);
  return corners ?? rectangle([0, 0], topSize(study));
}

/** Box around what no zone judges (m). */
export function unjudgedPart(study: RawStudy): readonly [low: Corner, high: Corner] | undefined {
  const outlines = outlinesOf(study.island?.zones ?? []);
  return outlines === undefined ? undefined : uncovered(topOf(study), outlines, NARROW);
}

export function unjudgedStrips(study: RawStudy): UnjudgedStrip[] {
  const reach = reachOf(study.island?.zones ?? []);
  if (reach === undefined) return [];
  const size = topSize(study);
  const strips: UnjudgedStrip[] = [
    { side: "near the left end", depth: reach.low[0] },
    { side: "near the right end", depth: size[0] - reach.high[0] },
    { side: "along the near side", depth: reach.low[1] },
    { side: "along the far side", depth: size[1] - reach.high[1] },
  ];
  return strips.filter(({ depth }) => Math.abs(depth) > NARROW);
}

/** Zones stretched until every point of the top belongs to one: those that end where the box around all of them ends to the edges of
 * the top, then over what lies between them. */
export function stretchZones(study: RawStudy): NamedEdit | undefined {
  const zones = study.island?.zones ?? [];
  const outlines = outlinesOf(zones);
  const reach = reachOf(zones);
  if (outlines === undefined || reach === undefined) return undefined;
  const size = topSize(study);
  const ends = outlines.map((outline): Outline => {
    const moved = (place: number, axis: 0 | 1): number => {
      if (Math.abs(place - reach.low[axis]) < 1e-3) return 0;
      return Math.abs(place - reach.high[axis]) < 1e-3 ? size[axis] : Math.min(place, size[axis]);
    };
    const stretched = outline.map(([x, y]): Corner => [moved(x, 0), moved(y, 1)]);
    const [low, high] = boxOf(stretched);
    // A zone wholly beyond a shortened top has nowhere to go and stays as it is.
    return high[0] - low[0] > 1e-6 && high[1] - low[1] > 1e-6 ? stretched : outline;
  });
  const names = zones.map(({ name }) => name);
  const value = coveringZones(topOf(study), ends).map(({ outline, of }, i) => {
    const { from: _, size: __, polygon: ___, ...zone } = zones[of];
    const name = i < zones.length ? zone.name : freshName(zone.name, names);
    names.push(name);
    const [low, high] = boxOf(outline);
    return outline.length === 4
      ? { ...zone, name, from: low.map(tidy), size: high.map((end, axis) => tidy(end - low[axis])) }
      : { ...zone, name, polygon: outline };
  });
  return {
    name: "stretch the zones",
    edits: [{ path: ["island", "zones"], value: value as unknown as Json }],
  };
}

/** One zone over the whole top, the others gone, with them what settings ask there; undefined where it is that already. */
export function onlyZone(study: RawStudy, index: number): NamedEdit | undefined {
  const zones = study.island?.zones ?? [];
  if (zones.length === 1 && unjudgedPart(study) === undefined) return undefined;
  const { from: _, size: __, polygon: ___, ...kept } = zones[index];
  const outline = study.island?.outline;
  const place = outline === undefined ? { from: [0, 0], size: topSize(study) } : { polygon: outline };
  const gone = zones.filter((_, i) => i !== index).map(({ name }) => name);
  return {
    name: `${kept.name} over the whole top`,
    edits: [
      { path: ["island", "zones"], value: [{ ...kept, ...place }] as unknown as Json },
      ...renamedInSettings(study, "zones", gone, undefined),
    ],
  };
}

/** A study whose zones are stretched where they leave a part of the top to nobody. */
export function withWholeTop(study: RawStudy): RawStudy {
  const edit = unjudgedPart(study) === undefined ? undefined : stretchZones(study);
  const [zones] = edit?.edits ?? [];
  return zones === undefined
    ? study
    : (write(study as unknown as Json, zones.path, zones.value) as unknown as RawStudy);
}

/** A target of one's own for a zone, beginning at what it is asked for now. */
export function ownTarget(
  study: RawStudy,
  zone: number,
  now: { readonly illuminance?: number; readonly uniformity?: number },
): NamedEdit {
  const zones = study.island?.zones ?? [];
  const name = freshName(`own, ${zones[zone].name}`, Object.keys(study.targets ?? {}));
  const target = {
    illuminance: now.illuminance ?? 300,
    ...(now.uniformity === undefined ? {} : { uniformity: now.uniformity }),
  };
  const edits: Edit[] = [
    { path: ["targets", name], value: target },
    { path: ["island", "zones", zone, "target"], value: name },
  ];
  return { name: `own target for ${zones[zone].name}`, edits };
}

/** A zone beside those that are there: over the largest strip nothing judges, else over what else is open, else over the middle of the top,
 * where its sides are in reach, or over the whole of it where there is none yet. */
export function addZone(study: RawStudy): NamedEdit {
  const zones = study.island?.zones ?? [];
  const [length, width] = topSize(study);
  const reach = reachOf(zones);
  const strip = unjudgedStrips(study)
    .filter(({ depth }) => depth > 0.05)
    .sort((a, b) => b.depth - a.depth)[0];
  let [from, size] = [
    [0, 0],
    [length, width],
  ];
  if (zones.length > 0) [from, size] = [from.map((_, axis) => size[axis] / 4), size.map((each) => each / 2)];
  const open = strip === undefined ? unjudgedPart(study) : undefined;
  if (open !== undefined) {
    const [low, high] = open;
    [from, size] = [[...low], [high[0] - low[0], high[1] - low[1]]];
  }
  if (strip !== undefined && reach !== undefined) {
    const axis = strip.side.includes("end") ? 0 : 1;
    const isFar = strip.side === "near the right end" || strip.side === "along the far side";
    from = [0, 1].map((each) => (each === axis && isFar ? reach.high[axis] : 0));
    size = [0, 1].map((each) => (each === axis ? strip.depth : [length, width][each]));
  }
  const name = freshName(
    "zone",
    zones.map((each) => each.name),
  );
  const zone = { name, from: from.map(tidy), size: size.map(tidy), target: "preparation" };
  return {
    name: `add ${name}`,
    edits: [{ path: ["island", "zones"], value: [...zones, zone] as unknown as Json }],
  };
}
