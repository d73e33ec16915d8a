/**
 * The whole room in plan: walls by the numbers that fields and papers use, cupboards, windows, people, island and zones, each
 * a thing that can be taken and whose sides can be drawn, and the luminaires over them with their switches.
 *
 * Drawing units from metres: x = left + perMetre · x, y = foot − perMetre · y; the room's x runs to the right, its y up the page.
 */

import { printable } from "../diagnostics/printable.ts";
import { planPlacement } from "../geometry/plan-placement.ts";
import { bounds, ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { islandToRoom } from "../scene/island-frame.ts";
import type { Scene } from "../scene/scene.ts";
import { wallFrame } from "../scene/surfaces.ts";
import { hangs } from "../scene/suspended.ts";
import type { Wording } from "../words/wording.ts";
import type { Depicted } from "./depicted.ts";
import { line, type Mark, text } from "./drawing.ts";
import {
  bodyItems,
  CUT,
  type FloorPlanItem,
  type FloorPlanPage,
  islandItem,
  openingItems,
  personItems,
  zoneItems,
} from "./floor-plan-items.ts";
import { fittingNames, fittings } from "./island-fittings.ts";
import { withoutCollisions } from "./label-layout.ts";
import { walls } from "./set-out-plan-room.ts";
import { outlineOnPlan } from "./silhouette.ts";
import { namedSwitches } from "./switch-symbols.ts";

export interface FloorPlan {
  readonly width: number;
  readonly height: number;
  readonly perMetre: number;
  readonly walls: readonly Mark[];
  /** In the order they lie over each other, the lowest first. */
  readonly items: readonly FloorPlanItem[];
  /** Hob, sink and seats, over the light. */
  readonly fittings: readonly Mark[];
  readonly luminaires: readonly Mark[];
  /** A ring at each place from which they are switched; its name is among the names. */
  readonly switches: readonly Mark[];
  /** Names of everything, clear of each other. */
  readonly names: readonly Mark[];
  readonly summary: string;
  at(room: Vec2): Vec2;
}

/** Room for walls and their names (drawing units). */
const MARGIN = 38;
/** Radius of a switch (drawing units). */
const SWITCH = 4;

export function floorPlan(
  scene: Scene,
  width: number,
  words: Wording,
  largestHeight = Number.POSITIVE_INFINITY,
): FloorPlan {
  const { length, width: across } = scene.room;
  const perMetre = Math.max(
    8,
    Math.min((width - 2 * MARGIN) / length, (largestHeight - 2 * MARGIN) / across),
  );
  const left = (width - perMetre * length) / 2;
  const height = Math.ceil(perMetre * across + 2 * MARGIN);
  const at = ([x, y]: Vec2): Vec2 => [left + perMetre * x, height - MARGIN - perMetre * y];
  const page = { at, perMetre };
  const bodies = bodyItems(scene, page);
  const isOver = ({ index }: FloorPlanItem): boolean => (scene.bodies?.[index].bottom ?? 0) > CUT;
  const items = [
    ...bodies.filter((item) => !isOver(item)),
    ...islandItem(scene, page),
    ...zoneItems(scene, page),
    ...openingItems(scene, page),
    ...bodies.filter(isOver),
    ...personItems(scene, page),
  ];
  const size = { width, height };
  const { island } = scene;
  return {
    width,
    height,
    perMetre,
    at,
    walls: walls(scene, at),
    items,
    fittings: fittings(island, (own) => at(island ? islandToRoom(island, own) : own)),
    luminaires: luminaireMarks(scene, page),
    switches: namedSwitches(scene.layers).map(({ place }) =>
      line(ellipse(...at(place), SWITCH, SWITCH), "switch", "ink", 1, { closed: true, fill: "sheet" }),
    ),
    names: withoutCollisions(
      [
        ...wallNames(scene, page, words),
        ...namedSwitches(scene.layers).map(({ place, words: beside }) =>
          switchName(at(place), beside, width),
        ),
        ...items.flatMap((item) => nameOf(item, item.kind === "body" && isOver(item))),
        ...(island === undefined ? [] : fittingNames(scene, (own) => at(islandToRoom(island, own)))),
      ],
      size,
    ),
    summary: `Floor plan of the room, ${words.length(length)} by ${words.length(across)}, wall 0 at the foot.`,
  };
}

/** Beside its ring, on the side where the drawing has room. */
function switchName([x, y]: Vec2, words: string, width: number): Mark {
  const isLeft = x > width / 2;
  const aside = (isLeft ? -1 : 1) * (SWITCH + 3);
  return text([x + aside, y + 4], words, "switch", {
    ink: "ink",
    ground: "sheet",
    strong: true,
    anchor: isLeft ? "end" : "start",
  });
}

/** A name on its item: of what stands on the floor low, below what hangs over it; of a person and the island beside it. */
function nameOf({ kind, name, outline }: FloorPlanItem, isOver: boolean): Mark[] {
  const [x0, y0, x1, y1] = bounds(outline);
  const words = (at: Vec2, depicts: Depicted, more: Parameters<typeof text>[3] = {}): Mark[] => [
    text(at, printable(name, 28), depicts, { ink: "ink", ground: "sheet", ...more }),
  ];
  switch (kind) {
    case "zone":
      return words([x0 + 7, y1 - 7], "zone name", { strong: true });
    case "island":
      return words([x0 + 7, y1 + 14], "cabinet name");
    case "person":
      return words([x1 + 4, (y0 + y1) / 2 + 4], "person");
    default: {
      const isLow = kind === "body" && !isOver && y1 - y0 > 40;
      const y = isLow ? y1 - 10 : isOver && y1 - y0 > 40 ? y0 + 18 : (y0 + y1) / 2 + 4;
      return words([(x0 + x1) / 2, y], "cabinet name", { anchor: "middle" });
    }
  }
}

function wallNames({ room }: Scene, { at }: FloorPlanPage, words: Wording): Mark[] {
  return [0, 1, 2, 3].map((wall) => {
    const { corner, direction, normal, length } = wallFrame(room, wall);
    const [x, y] = at([corner[0] + (direction[0] * length) / 2, corner[1] + (direction[1] * length) / 2]);
    const isUpright = direction[0] === 0;
    // Beyond the thickness a wall is drawn with.
    const off = 26;
    return text(
      [x - normal[0] * off + (isUpright ? 4 : 0), y + normal[1] * off + (isUpright ? 0 : 4)],
      `wall ${wall}, ${words.length(length)}`,
      "wall name",
      { anchor: "middle", turn: isUpright ? -90 : undefined },
    );
  });
}

function luminaireMarks(scene: Scene, { at, perMetre }: FloorPlanPage): Mark[] {
  return scene.layers.flatMap((layer) =>
    layer.luminaires.map((placed) => {
      const { luminaire, frame } = placed;
      const [x, y] = at([frame.origin[0], frame.origin[1]]);
      const turn = Math.atan2(frame.rotation[1], frame.rotation[0]);
      const rim = outlineOnPlan(luminaire, perMetre, 6).map(planPlacement([x, y], -turn));
      return hangs(scene, layer, placed)
        ? line(rim, "pendant", "luminaire", 1, { closed: true })
        : line(rim, "recessed", "luminaire", 0.75, { closed: true, dash: "dotted" });
    }),
  );
}
