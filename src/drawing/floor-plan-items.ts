/** What stands in a room as things of a floor plan: outline, marks, and the sides that can be drawn outwards or inwards. */

import { planPlacement } from "../geometry/plan-placement.ts";
import { bounds, ellipse, rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { basePieces } from "../scene/island.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import { sideAxes } from "../scene/island-side.ts";
import type { Island, Scene } from "../scene/scene.ts";
import { wallFrame } from "../scene/surfaces.ts";
import { line, type Mark, segment } from "./drawing.ts";

export type FloorPlanKind = "body" | "opening" | "person" | "zone" | "island";

/** A side of an item that can be drawn outwards or inwards. */
export interface FloorPlanSide {
  /** Which side: of boxes 0…3 for x−, x+, y−, y+; of openings 0 and 1 for start and end; of the island the index of the edge
   * of its outline, or −1 for the base under the overhang. */
  readonly index: number;
  readonly label: string;
  /** Middle of the side, on the page. */
  readonly at: Vec2;
  /** Outwards, in the room (unit vector). */
  readonly normal: Vec2;
}

export interface FloorPlanItem {
  readonly kind: FloorPlanKind;
  /** Its place in its list; 0 for the island. */
  readonly index: number;
  readonly name: string;
  /** Closed, on the page. */
  readonly outline: readonly Vec2[];
  readonly marks: readonly Mark[];
  readonly sides: readonly FloorPlanSide[];
}

/** Where the room lies on the page. */
export interface FloorPlanPage {
  readonly at: (room: Vec2) => Vec2;
  readonly perMetre: number;
}

/** Least thickness of an opening as a thing to take hold of (m). */
const GRIP = 0.14;
/** Half the shoulders and half the depth of a person seen from above (m); common practice, no source. */
const SHOULDER = 0.24;
const CHEST = 0.14;
/** What hangs higher than this is over the plane of the cut (m). */
export const CUT = 1.2;

const BOX_SIDES = ["left side", "right side", "near side", "far side"] as const;

/** Sides of four corners, counter-clockwise from the least of its own axes, which are turned by `turn` (rad). */
function boxSides(
  corners: readonly Vec2[],
  turn: number,
  { at }: FloorPlanPage,
  name: string,
): FloorPlanSide[] {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const ends = [
    [3, 0],
    [1, 2],
    [0, 1],
    [2, 3],
  ] as const;
  const normals: readonly Vec2[] = [
    [-c, -s],
    [c, s],
    [s, -c],
    [-s, c],
  ];
  return ends.map(([from, to], index) => ({
    index,
    label: `${BOX_SIDES[index]} of ${name}`,
    at: at([(corners[from][0] + corners[to][0]) / 2, (corners[from][1] + corners[to][1]) / 2]),
    normal: normals[index],
  }));
}

export function bodyItems({ bodies = [] }: Scene, page: FloorPlanPage): FloorPlanItem[] {
  return bodies.map(({ name, outline, bottom }, index) => {
    const corners = outline.map(page.at);
    const turn = Math.atan2(outline[1][1] - outline[0][1], outline[1][0] - outline[0][0]);
    return {
      kind: "body",
      index,
      name,
      outline: corners,
      marks: [
        line(corners, "cabinet", "ink", 1, {
          closed: true,
          ...(bottom > CUT ? { dash: "dashed" as const } : { fill: "sheet" as const }),
        }),
      ],
      sides: outline.length === 4 ? boxSides(outline, turn, page, name) : [],
    };
  });
}

export function openingItems({ room }: Scene, { at, perMetre }: FloorPlanPage): FloorPlanItem[] {
  return (room.openings ?? []).map(({ name, wall, from, length }, index) => {
    const { corner, direction, normal } = wallFrame(room, wall);
    const depth = Math.max(GRIP, 24 / perMetre);
    const point = (along: number, out: number): Vec2 => [
      corner[0] + direction[0] * along - normal[0] * out,
      corner[1] + direction[1] * along - normal[1] * out,
    ];
    const outline = [
      point(from, 0),
      point(from + length, 0),
      point(from + length, depth),
      point(from, depth),
    ];
    return {
      kind: "opening",
      index,
      name,
      outline: outline.map(at),
      // Drawn with its wall.
      marks: [],
      sides: [-1, 1].map((sense, end) => ({
        index: end,
        label: `${end === 0 ? "start" : "end"} of ${name}`,
        at: at(point(from + end * length, depth / 2)),
        normal: [sense * direction[0], sense * direction[1]] as const,
      })),
    };
  });
}

export function islandItem({ island: top }: Scene, page: FloorPlanPage): FloorPlanItem[] {
  if (top === undefined) return [];
  const room = (p: Vec2): Vec2 => islandToRoom(top, p);
  const outline = top.outline.map((p) => page.at(room(p)));
  return [
    {
      kind: "island",
      index: 0,
      name: "island",
      outline,
      marks: [
        line(outline, "island top", "ink", 1.5, { closed: true, fill: "sheet" }),
        ...(top.overhang === undefined
          ? []
          : basePieces(top).map((piece) =>
              line(
                piece.map((p) => page.at(room(p))),
                "island base",
                "quiet",
                0.75,
                { closed: true, dash: "dotted" },
              ),
            )),
      ],
      sides: [...outlineSides(top, page), ...overhangSide(top, page)],
    },
  ];
}

/** Names of an outline's edges by where they look, of several that look the same way with a number. */
function outlineSides(top: Island, { at }: FloorPlanPage): FloorPlanSide[] {
  const [c, s] = [Math.cos(top.turn), Math.sin(top.turn)];
  const { outline } = top;
  return outline.map((from, index) => {
    const to = outline[(index + 1) % outline.length];
    const [u, v] = [to[0] - from[0], to[1] - from[1]];
    const run = Math.hypot(u, v);
    const [nu, nv] = [v / run, -u / run];
    const looks = Math.abs(nu) > Math.abs(nv) ? (nu < 0 ? "left" : "right") : nv < 0 ? "near" : "far";
    return {
      index,
      label: `${looks} side of the island${outline.length > 4 ? `, edge ${index + 1}` : ""}`,
      at: at(islandToRoom(top, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2])),
      normal: [c * nu - s * nv, s * nu + c * nv],
    };
  });
}

function overhangSide(top: Island, { at }: FloorPlanPage): FloorPlanSide[] {
  const { overhang } = top;
  if (overhang === undefined) return [];
  const { side, depth } = overhang;
  const sign = side.endsWith("+") ? 1 : -1;
  const axes = sideAxes(top, side);
  // A quarter along, clear of the grip in the middle of the top's own edge.
  const middle = axes.at(axes.along / 4, depth);
  const own: Vec2 = side.startsWith("x") ? [sign, 0] : [0, sign];
  const [c, s] = [Math.cos(top.turn), Math.sin(top.turn)];
  return [
    {
      index: -1,
      label: "base under the overhang",
      at: at(islandToRoom(top, middle)),
      normal: [c * own[0] - s * own[1], s * own[0] + c * own[1]],
    },
  ];
}

export function zoneItems({ island: top, zones }: Scene, page: FloorPlanPage): FloorPlanItem[] {
  if (top === undefined) return [];
  return zones.map(({ name, outline }, index) => {
    const room = outline.map((p) => islandToRoom(top, p));
    return {
      kind: "zone",
      index,
      name,
      outline: room.map(page.at),
      marks: [line(room.map(page.at), "zone", "ink", 0.75, { closed: true, dash: "dashed" })],
      sides:
        outline.length === 4
          ? boxSides(
              cornersOf(outline).map((p) => islandToRoom(top, p)),
              top.turn,
              page,
              name,
            )
          : [],
    };
  });
}

/** Corners of an upright rectangle from the least one counter-clockwise, whichever it begins with. */
function cornersOf(outline: readonly Vec2[]): Vec2[] {
  return rectangleBetween(...bounds(outline));
}

export function personItems({ people }: Scene, { at, perMetre }: FloorPlanPage): FloorPlanItem[] {
  return people.map(({ name, at: feet, facing }, index) => {
    const [x, y] = at(feet);
    const place = planPlacement([x, y], -facing);
    const around = (rx: number, ry: number): Vec2[] =>
      ellipse(0, 0, rx * perMetre, ry * perMetre, 24).map(place);
    const shoulders = around(CHEST, SHOULDER);
    const nose = 1.25 * CHEST * perMetre;
    return {
      kind: "person",
      index,
      name,
      outline: shoulders,
      marks: [
        line(shoulders, "person", "quiet", 0.75, { closed: true, fill: "sheet" }),
        line(around(0.09, 0.08), "person", "quiet", 0.75, { closed: true }),
        segment(...place([0.5 * nose, 0]), ...place([nose, 0]), "person", "quiet", 1),
      ],
      sides: [],
    };
  });
}
