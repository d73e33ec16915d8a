/** Where those who sit at the island are: one at the middle of each seat that fits, facing its edge. */

import type { Vec2 } from "../geometry/vector.ts";
import { degrees } from "../units/quantities.ts";
import { overFloor } from "./inside-room.ts";
import { islandToRoom } from "./island-frame.ts";
import { sideAxes } from "./island-side.ts";
import type { Scene } from "./scene.ts";

/** How far from the edge of the top the feet of who sits at it are (m); common practice, no source. */
const FROM_EDGE = 0.23;

export interface SeatPlace {
  /** Room (m). */
  readonly at: Vec2;
  /** Counter-clockwise from x (degrees). */
  readonly facing: number;
}

/** @returns none without seats, and none for a seat that has no floor under it */
export function seatPlaces({ island, room }: Pick<Scene, "island" | "room">): SeatPlace[] {
  if (island?.seats === undefined) return [];
  const { side, from, width, fitting } = island.seats;
  const { at } = sideAxes(island, side);
  return Array.from({ length: fitting }, (_, i): SeatPlace => {
    const along = from + (i + 0.5) * width;
    const [feet, edge] = [-FROM_EDGE, 0].map((depth) => islandToRoom(island, at(along, depth)));
    return { at: feet, facing: degrees(Math.atan2(edge[1] - feet[1], edge[0] - feet[0])) };
  }).filter((place) => overFloor(place.at, room, 0));
}
