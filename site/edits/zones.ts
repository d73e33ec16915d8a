/** Zones and the top: strips that no zone judges, zones stretched over them, and targets of one's own. */

import type { Edit } from "../store/history.ts";
import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, metresOf, type RawStudy, type RawZone, tidy } from "./raw-study.ts";
import { topSize } from "./room-contents.ts";

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

/** Box around all zones in the island's frame; undefined where a zone is a polygon or cannot be read, or there is none. */
function reachOf(zones: readonly RawZone[]): Reach | undefined {
  if (zones.length === 0) return undefined;
  const boxes = zones.map((zone) => [0, 1].map((axis) => endsOf(zone, axis)));
  if (boxes.some((box) => box.some((ends) => ends === undefined))) return undefined;
  const of = (axis: number, end: 0 | 1): number[] => boxes.map((box) => (box[axis] as [number, number])[end]);
  return {
    low: [Math.min(...of(0, 0)), Math.min(...of(1, 0))],
    high: [Math.max(...of(0, 1)), Math.max(...of(1, 1))],
  };
}

function endsOf(zone: RawZone, axis: number): [number, number] | undefined {
  const from = metresOf(zone.from?.[axis]);
  const size = metresOf(zone.size?.[axis]);
  return from === undefined || size === undefined ? undefined : [from, from + size];
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

/** Zones that end where the box around all of them ends, stretched to the edges of the top. */
export function stretchZones(study: RawStudy): NamedEdit | undefined {
  const zones = study.island?.zones ?? [];
  const reach = reachOf(zones);
  if (reach === undefined) return undefined;
  const size = topSize(study);
  const stretched = zones.map((zone) => {
    const ends = [0, 1].map((axis) => {
      const [from, to] = endsOf(zone, axis) as [number, number];
      const low = Math.abs(from - reach.low[axis]) < 1e-3 ? 0 : Math.min(from, size[axis]);
      const high = Math.abs(to - reach.high[axis]) < 1e-3 ? size[axis] : Math.min(to, size[axis]);
      return [tidy(low), tidy(high - low)];
    });
    // A zone wholly beyond a shortened top has nowhere to go and stays as it is.
    if (ends.some(([, length]) => length <= 0)) return zone;
    return { ...zone, from: ends.map(([from]) => from), size: ends.map(([, length]) => length) };
  });
  return {
    name: "stretch the zones",
    edits: [{ path: ["island", "zones"], value: stretched as unknown as Json }],
  };
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
    source: "one's own",
  };
  const edits: Edit[] = [
    { path: ["targets", name], value: target },
    { path: ["island", "zones", zone, "target"], value: name },
  ];
  return { name: `own target for ${zones[zone].name}`, edits };
}

/** A zone beside those that are there: over the largest strip nothing judges, else over the whole top. */
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
