/**
 * Visual weight: how much of the view between counter and ceiling the pendants take. Our own construction, no source.
 *
 *   covered = share of the view's lines that meet a pendant;  weight = mean of 1 − what is seen through it along them.
 *
 * The view is the upright rectangle through the middle of the island, its length (from an end: its width) wide, from
 * top to ceiling, seen from an eye; a see-through pendant covers as much as a solid one and weighs less. Under 3 % we
 * call it discreet, from 8 % bold.
 * Error: lines through the centres of 240 × 160 cells, so a silhouette is known to about 1/200 of itself.
 */

import type { Mesh } from "../../geometry/mesh.ts";
import { depthInside } from "../../geometry/polygon.ts";
import { box, placed, revolved } from "../../geometry/solids.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { type Solid, VisibilityTree } from "../../geometry/visibility-tree.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { planForm } from "../../luminaire/plan-extent.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import { isPendant } from "../../scene/is-pendant.ts";
import { islandDirection, islandToRoom, roomToIsland } from "../../scene/island-frame.ts";
import { USUAL_STATURE } from "../../scene/people.ts";
import type { Island, RoomShape, Scene } from "../../scene/scene.ts";
import { standingEyeHeight } from "../people/eye-height.ts";

export interface Viewpoint {
  /** From the middle of the island (m); of the usual one. */
  readonly away?: number;
  readonly name: string;
  /** m */
  readonly eye: Vec3;
}

export interface VisualWeight {
  readonly viewpoint: Viewpoint;
  /** Share of the view taken, and the same weighted by opacity, 0…1. */
  readonly covered: number;
  readonly weight: number;
  readonly words: "none" | "discreet" | "present" | "bold";
}

const CELLS = [240, 160] as const;
/** Lines go on behind the middle, to meet pendants hung off it. */
const BEYOND = 2.5;
const DISCREET = 0.03;
const BOLD = 0.08;
/** A flat opening as a solid (m). */
const THINNEST = 0.001;
const AWAY = 3;
/** Nobody that far from the top works or eats at it (m). */
const OUT_OF_REACH = 1.2;

/** Who looks on when no one is named: someone standing on the side of the seats, or on the roomier side, 3 m from the
 * middle of the island or as far as the room allows. */
export function usualViewpoint(island: Island, room: RoomShape): Viewpoint {
  const side = island.seats?.side ?? island.overhang?.side;
  const sign = side === "y+" ? 1 : side === "y-" ? -1 : roomierSide(island, room);
  const [ux, uy] = islandDirection(island, [0, sign]);
  let away = AWAY;
  while (away > island.width && !inside(room, island.centre[0] + away * ux, island.centre[1] + away * uy))
    away -= 0.1;
  const side1 = side === undefined ? "the roomier side" : "the side of the seats";
  return {
    name: `someone standing on ${side1}`,
    away,
    eye: [
      island.centre[0] + away * ux,
      island.centre[1] + away * uy,
      standingEyeHeight({ stature: USUAL_STATURE }),
    ],
  };
}

/** From whose eyes an arrangement is looked at: of the study's people the one farthest from the island, when that is out
 * of reach of it, as from a sofa; else {@link usualViewpoint}. */
export function viewpointOf({ island, room, people }: Scene): Viewpoint | undefined {
  if (island === undefined) return undefined;
  let farthest: Viewpoint | undefined;
  let most = OUT_OF_REACH;
  for (const { name, at, eye } of people) {
    const away = -depthInside(roomToIsland(island, at), island.outline);
    if (away > most) {
      most = away;
      farthest = { name, eye };
    }
  }
  return farthest ?? usualViewpoint(island, room);
}

/** Share of the view the pendants take; undefined without an island, where the eye is above nothing of it, or where the
 * size of no pendant is known. */
export function visualWeight(
  scene: Scene,
  viewpoint: Viewpoint | undefined = viewpointOf(scene),
): VisualWeight | undefined {
  const { island, room } = scene;
  if (island === undefined || viewpoint === undefined) return undefined;
  const from = viewpoint;
  const [cx, cy] = island.centre;
  const [ex, ey, ez] = from.eye;
  const [x, y] = roomToIsland(island, [ex, ey]);
  const fromEnd =
    Math.abs(x - island.length / 2) / island.length > Math.abs(y - island.width / 2) / island.width &&
    (x < 0 || x > island.length);
  const way = islandDirection(island, fromEnd ? [0, 1] : [1, 0]);
  const wide = fromEnd ? island.width : island.length;
  const high = ceilingAt(room, cx, cy) - island.height;
  if (!(high > 0)) return undefined;
  const bodies = scene.blockers.flatMap(({ kind, owner, mesh, transmittance }): Solid[] => {
    const layer = kind === "pendant" && owner !== undefined ? scene.layers[owner[0]] : undefined;
    const hung = owner === undefined ? undefined : layer?.luminaires[owner[1]];
    if (layer === undefined || hung === undefined || !isPendant(layer, hung)) return [];
    return [{ mesh, transmittance: hung.luminaire.body?.seeThrough ?? transmittance }];
  });
  const bare = scene.layers.flatMap((layer) =>
    layer.luminaires.filter((hung) => isPendant(layer, hung) && hung.luminaire.body === undefined),
  );
  const openings = bare.filter(({ luminaire }) => luminaire.emission.opening.shape !== "point");
  const pendants = [
    ...bodies,
    ...openings.map((each): Solid => ({ mesh: openingMesh(each), transmittance: 0 })),
  ];
  if (pendants.length === 0)
    return bare.length > 0 ? undefined : { viewpoint: from, covered: 0, weight: 0, words: "none" };
  const tree = new VisibilityTree(pendants);
  let covered = 0;
  let weight = 0;
  const [columns, rows] = CELLS;
  for (let i = 0; i < columns; i++) {
    const s = ((i + 0.5) / columns - 0.5) * wide;
    const [px, py] = [cx + s * way[0], cy + s * way[1]];
    for (let j = 0; j < rows; j++) {
      const pz = island.height + ((j + 0.5) / rows) * high;
      const passed = tree.transmittance(
        ex,
        ey,
        ez,
        ex + BEYOND * (px - ex),
        ey + BEYOND * (py - ey),
        ez + BEYOND * (pz - ez),
      );
      if (passed < 1) covered++;
      weight += 1 - passed;
    }
  }
  const cells = columns * rows;
  const share = weight / cells;
  return {
    viewpoint: from,
    covered: covered / cells,
    weight: share,
    words: share === 0 ? "none" : share < DISCREET ? "discreet" : share < BOLD ? "present" : "bold",
  };
}

/** Without a body a pendant is as large as its luminous opening. */
function openingMesh({ luminaire, frame }: PlacedLuminaire): Mesh {
  const { length, width, height } = luminaire.emission.opening;
  const h = Math.max(height, THINNEST) / 2;
  const r = length / 2;
  const profile = [[0, -h] as const, [r, -h] as const, [r, h] as const, [0, h] as const];
  return placed(planForm(luminaire) === "circle" ? revolved(profile, 24) : box(length, width, 2 * h), frame);
}

function roomierSide(island: Island, room: RoomShape): 1 | -1 {
  const free = (sign: number): number => {
    let reach = 0;
    for (; reach < 20; reach += 0.1) {
      const [px, py] = islandToRoom(island, [island.length / 2, island.width / 2 + sign * reach]);
      if (!inside(room, px, py)) break;
    }
    return reach;
  };
  return free(1) > free(-1) ? 1 : -1;
}

function inside({ length, width }: RoomShape, x: number, y: number): boolean {
  return x > 0 && y > 0 && x < length && y < width;
}
