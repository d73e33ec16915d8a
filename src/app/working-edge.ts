/**
 * Light where hands are: along a line 150 mm inside the edge of the top's outline that is worked at, read from the field that contours
 * are drawn from, at the middles of steps of 25 mm.
 *
 *   average, minimum over the steps on the top; U₀ = minimum / average
 *
 * The edge is the one nearest to who first stands or leans there; without anybody the longest of those that face away from the seats or the
 * overhang; else of those that face as y = 0 does, or of all where none does. The depth is our own, no source.
 * Known error: that of the field between its nodes, second differences of the light over a cell.
 */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import { statistics } from "../assessment/statistics.ts";
import { depthInside } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { gridMetres } from "../scene/grid-metres.ts";
import { islandToRoom, roomToIsland } from "../scene/island-frame.ts";
import type { IslandSide } from "../scene/island-side.ts";
import { type OutlineEdge, outlineEdges } from "../scene/outline-edges.ts";
import type { Island, Scene } from "../scene/scene.ts";
import { topPlane } from "../scene/top-plane.ts";
import { isoluxField, onGrid, readIsolux } from "./isolux-field.ts";

/** From the edge to the line (m). */
export const HANDS_INSIDE = 0.15;
const STEP = 0.025;

export interface WorkingEdge {
  readonly side: IslandSide;
  /** Who stands there; absent where the edge is a default. */
  readonly person?: string;
  /** Where the edge begins along the island's x or y (m). */
  readonly from: number;
  /** From the edge to the line (m). */
  readonly inside: number;
  /** From the line's first end, the island's x or y rising (m). */
  readonly distance: Float64Array;
  /** x, y, z in the room (m). */
  readonly points: Float64Array;
  /** lx, maintained and dimmed */
  readonly illuminance: Float64Array;
  readonly average: number;
  readonly minimum: number;
  readonly uniformity: number;
  /** Where the least is, from the line's first end (m). */
  readonly darkest: number;
}

/** Undefined without an island, and where its top has no grid or is too narrow for the line. */
export function workingEdge(
  scene: Scene,
  { planes }: Pick<ArrangementAssessment, "planes">,
): WorkingEdge | undefined {
  const { island } = scene;
  const index = topPlane(scene);
  const plane = scene.planes[index];
  const assessed = planes[index];
  if (island === undefined || plane?.role !== "top" || assessed === undefined) return undefined;
  const { fine } = assessed;
  const grid = fine?.grid ?? plane.grid;
  if (grid === undefined) return undefined;
  const light = fine?.grid === undefined ? assessed : fine;
  const field = isoluxField(
    grid,
    light.illuminance,
    fine?.grid === undefined ? undefined : fine.margin?.illuminance,
  );
  const { edge, person } = workedEdge(scene, island);
  const long = edge.to - edge.from;
  const count = Math.max(1, Math.round(long / STEP));
  const toGrid = gridMetres(grid);
  const line: { at: number; room: Vec2; lux: number }[] = [];
  for (let i = 0; i < count; i++) {
    const at = ((i + 0.5) * long) / count;
    const place = edge.at(edge.from + at, HANDS_INSIDE);
    if (depthInside(place, island.outline) < 0) continue;
    const room = islandToRoom(island, place);
    const [s, t] = toGrid(room);
    const lux = onGrid(grid, s, t) ? readIsolux(field, s, t) : Number.NaN;
    if (Number.isFinite(lux)) line.push({ at, room, lux });
  }
  if (line.length === 0) return undefined;
  const illuminance = Float64Array.from(line, ({ lux }) => lux);
  const { average, minimum, uniformity } = statistics(illuminance, new Float64Array(line.length).fill(1));
  return {
    side: edge.side,
    ...(person === undefined ? {} : { person }),
    from: edge.from,
    inside: HANDS_INSIDE,
    distance: Float64Array.from(line, ({ at }) => at),
    points: Float64Array.from(line.flatMap(({ room }) => [room[0], room[1], grid.corner[2]])),
    illuminance,
    average,
    minimum,
    uniformity,
    darkest: line[illuminance.indexOf(minimum)].at,
  };
}

const ACROSS: Readonly<Record<IslandSide, IslandSide>> = { "x-": "x+", "x+": "x-", "y-": "y+", "y+": "y-" };

function workedEdge(
  { people }: Scene,
  island: Island,
): { readonly edge: OutlineEdge; readonly person?: string } {
  const edges = outlineEdges(island.outline);
  const worker = people.find(({ posture }) => posture !== "seated");
  if (worker === undefined) {
    const away = island.seats?.side ?? island.overhang?.side;
    const side = away === undefined ? "y-" : ACROSS[away];
    const facing = edges.filter((each) => each.side === side);
    const [first, ...more] = facing.length === 0 ? edges : facing;
    return {
      edge: more.reduce((most, each) => (each.to - each.from > most.to - most.from ? each : most), first),
    };
  }
  const feet = roomToIsland(island, worker.at);
  // Beyond a corner two edges are equally near: the one that is farther behind is stood at.
  const isNearer = (one: OutlineEdge, other: OutlineEdge): boolean => {
    const apart = one.distance(feet) - other.distance(feet);
    return Math.abs(apart) < 1e-9 ? one.beyond(feet) > other.beyond(feet) : apart < 0;
  };
  return { edge: edges.reduce((best, each) => (isNearer(each, best) ? each : best)), person: worker.name };
}
