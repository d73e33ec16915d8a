/**
 * Rows, grids and single places turned into luminaires that hang where they were asked to.
 *
 * Row along the island's +x about the middle of its bounding box: x_i = L/2 + (i − (n − 1)/2)·s + along, with
 * s = L/n (equal bays), the given spacing, gap + rim, or (L − 2·end − rim)/(n − 1).
 * Height: top's surface + clearance − lowest point of body and opening relative to the photometric centre.
 */

import { type Ledger, TYPICAL } from "../diagnostics/ledger.ts";
import { lengthList, phrase } from "../diagnostics/phrase.ts";
import { type Frame, frame, rotationOf, UPRIGHT } from "../geometry/frame.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { highestPoint, lowestPoint } from "../luminaire/extent.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { ofKnownHeight } from "../luminaire/of-known-height.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { planExtents, widthAlong } from "../luminaire/plan-extent.ts";
import { tiltedLuminaire } from "../luminaire/tilted.ts";
import type { GridDocument, LayerDocument, PlaceDocument, RowDocument } from "../study/arrangement-schema.ts";
import { radians } from "../units/quantities.ts";
import { aimed, checkAim, checkAimedAway } from "./aim.ts";
import { ceilingAt } from "./ceiling-height.ts";
import { overFloor, spaceOfRoom } from "./inside-room.ts";
import { islandToRoom, topHeightAt, topUnder } from "./island-frame.ts";
import { checkDimmer, switchPlaces } from "./layer-controls.ts";
import { rowSpacing } from "./row-spacing.ts";
import type { Island, Layer, LayerRole, RoomShape } from "./scene.ts";

/** 33 in, the middle of the range heard most (m). */
const CLEARANCE = 0.84;
const NEGLIGIBLE = 1e-6;
/** So far above the ceiling (m) only another unit takes a luminaire. */
const NO_HOUSE = 20;

interface Surroundings {
  readonly room: RoomShape;
  readonly island: Island | undefined;
  readonly luminaires: ReadonlyMap<string, Luminaire>;
  /** From the place of the layer on, or of its row, grid or single place. */
  readonly ledger: Ledger;
}

/** The layer placed; undefined, with errors, when it cannot be. */
export function layerOf(document: LayerDocument, around: Surroundings): Layer | undefined {
  const { room, ledger } = around;
  const luminaire = around.luminaires.get(document.luminaire);
  const { row, grid, at, name, circuit, dimmer, switches, hours, beyondTop } = document;
  const ways = [row, grid, at].filter((way) => way !== undefined).length;
  if (ways !== 1) {
    const count = ways === 0 ? "none" : `${ways} of them`;
    ledger.error("layer-places", "", "A layer is placed in one way.", '"row", "grid" or "at"', count);
    return undefined;
  }
  if (luminaire === undefined) return undefined;
  if (dimmer !== undefined) checkDimmer(dimmer, ledger.at("/dimmer"));
  const role: LayerRole = ledger.fill(
    document.role,
    "/role",
    row !== undefined ? "pendant" : grid !== undefined ? "recessed" : "other",
    row !== undefined ? "not given; a row hangs over the island" : "not given; from the way it is placed",
  );
  const hereOf = (i: number): Surroundings => {
    const way = row !== undefined ? "/row" : grid !== undefined ? "/grid" : `/at/${i}`;
    return { ...around, ledger: ledger.at(way) };
  };
  const frames =
    row !== undefined
      ? rowFrames(row, luminaire, role, hereOf(0))
      : grid !== undefined
        ? gridFrames(grid, role, hereOf(0))
        : (at ?? []).map((place, i) => placeFrame(place, hereOf(i).ledger));
  frames.forEach((placedAt, i) => {
    checkPlace(luminaire, placedAt, role, hereOf(i));
  });
  return {
    name,
    role,
    dim: ledger.fill(document.dim, "/dim", 1, "not given; at full output"),
    luminaires: frames.map((placedAt, i): PlacedLuminaire => {
      const aim = row?.aim ?? grid?.aim ?? at?.[i].aim;
      return {
        luminaire: tiltedLuminaire(luminaire, placedAt.rotation),
        frame: placedAt,
        ...(aim === undefined ? {} : { aim }),
      };
    }),
    ...(grid !== undefined && isMarginAssumed(grid) ? { isMarginAssumed: true } : {}),
    ...(circuit === undefined ? {} : { circuit }),
    ...(dimmer === undefined ? {} : { dimmer }),
    ...(switches === undefined ? {} : { switches: switchPlaces(switches, room, ledger) }),
    ...(hours === undefined ? {} : { hours }),
    ...(beyondTop === undefined ? {} : { beyondTop }),
  };
}

function rowFrames(
  row: RowDocument,
  luminaire: Luminaire,
  role: LayerRole,
  { room, island, ledger }: Surroundings,
): Frame[] {
  if (island === undefined) {
    ledger.error("row-island", "", "A row follows the island, and there is none.", '"island", or "at"');
    return [];
  }
  const ways = (["spacing", "gap", "end"] as const).filter((key) => row[key] !== undefined);
  if (ways.length > 1) {
    const keys = ways.map((key) => `"${key}"`).join(" and ");
    ledger.error("row-spacing", "", "The spacing is given twice.", '"spacing", "gap", "end" or none', keys);
    return [];
  }
  if (ways.length === 0 && row.count > 1)
    ledger.note("/spacing", island.length / row.count, "neither spacing, gap nor end; equal bays");
  checkAim(row, ["turn", "followSlope"], ledger);
  const ownTurn = rowTurn(row, luminaire, ledger);
  const rim = widthAlong(luminaire, -ownTurn);
  const spacing = rowSpacing(row, island.length, rim);
  if (row.gap !== undefined && rim === 0)
    ledger.warn(
      "row-gap-of-points",
      "/gap",
      "The luminaire has no extent: the gap is taken centre to centre.",
    );
  if (!(spacing > 0) && row.count > 1) {
    ledger.error("row-end", "/end", "The ends leave no room for the row.", "smaller ends");
    return [];
  }
  const whole = (row.count - 1) * spacing + rim;
  const [along, across] = row.offset ?? [0, 0];
  const beyond = (whole - island.length) / 2 + Math.abs(along);
  if (whole > island.length + NEGLIGIBLE)
    ledger.warn(
      "row-too-long",
      "",
      phrase`The row is ${whole} long, longer than the top (${island.length}).`,
    );
  else if (beyond > NEGLIGIBLE)
    ledger.warn("row-beyond-top", "", phrase`The row reaches ${beyond} beyond the end of the top.`);
  if (row.count > 1 && spacing < rim - NEGLIGIBLE)
    ledger.warn(
      "row-collides",
      "",
      "The luminaires of the row stand in one another: spacing below their width.",
    );
  const clearance = ledger.fill(row.clearance, "/clearance", CLEARANCE, `33 in: ${TYPICAL}`);
  const orientation = hung(island.turn + ownTurn, followsSlope(row, role, room, ledger), room);
  const lowest = lowestPoint(luminaire, rotationOf(orientation));
  return Array.from({ length: row.count }, (_, i) => {
    const p: Vec2 = [
      island.length / 2 + (i - (row.count - 1) / 2) * spacing + along,
      island.width / 2 + across,
    ];
    if (row.aim === undefined) return frame(hungAt(island, p, clearance, lowest), orientation);
    const placed = hungAimed(island, p, clearance, luminaire, row.aim);
    checkAimedAway(placed.origin, row.aim, ledger);
    return placed;
  });
}

/** Height and tilt depend on one another: the more it tilts, the lower its rim, the higher it hangs, the more it
 * tilts. Each step shrinks by body size / distance of the aim. */
function hungAimed(island: Island, p: Vec2, clearance: number, luminaire: Luminaire, aim: Vec3): Frame {
  let placed = frame(hungAt(island, p, clearance, 0));
  for (let step = 0; step < 30; step++) {
    const orientation = aimed(placed.origin, aim);
    const lowest = lowestPoint(luminaire, rotationOf(orientation));
    const higher = frame(hungAt(island, p, clearance, lowest), orientation);
    const still = Math.abs(higher.origin[2] - placed.origin[2]) < 1e-12;
    placed = higher;
    if (still && step > 0) break;
  }
  return placed;
}

/** Photometric centre (m, room) of a luminaire hung over a point of the island's frame. @param lowest height of its
 * lowest point relative to the photometric centre, at or below zero */
export function hungAt(island: Island, p: Vec2, clearance: number, lowest: number): Vec3 {
  const [x, y] = islandToRoom(island, p);
  return [x, y, topHeightAt(island, p) + clearance - lowest];
}

function rowTurn(row: RowDocument, luminaire: Luminaire, ledger: Ledger): number {
  const [alongX, alongY] = planExtents(luminaire);
  if (row.turn !== undefined || row.aim !== undefined || alongY <= alongX + NEGLIGIBLE)
    return radians(row.turn ?? 0);
  ledger.note("/turn", 90, "not given; the luminaire is longer across its own x and is laid along the row");
  return Math.PI / 2;
}

/** Whether luminaires stand square to a sloped ceiling: as asked, else those of role recessed, whose housings follow it. */
function followsSlope(
  { followSlope, aim }: RowDocument | GridDocument,
  role: LayerRole,
  { slope }: RoomShape,
  ledger: Ledger,
): boolean {
  if (followSlope !== undefined || role !== "recessed" || slope === 0 || aim !== undefined)
    return followSlope === true;
  ledger.note("/followSlope", true, "not given; recessed luminaires follow the ceiling's slope");
  return true;
}

/** Plumb, or square to the ceiling: nadir leans towards its rise, and the spin keeps the wanted heading. */
function hung(heading: number, followSlope: boolean, { slope, towards }: RoomShape) {
  if (!followSlope || slope === 0) return { ...UPRIGHT, turn: heading };
  return { turn: towards, tilt: slope, spin: heading - towards };
}

function gridFrames(grid: GridDocument, role: LayerRole, { room, ledger }: Surroundings): Frame[] {
  const [[x0, y0], [x1, y1]] = grid.over ?? [
    [0, 0],
    [room.length, room.width],
  ];
  const [low, high] = [
    [Math.min(x0, x1), Math.min(y0, y1)],
    [Math.max(x0, x1), Math.max(y0, y1)],
  ];
  const { margin } = grid;
  const [marginX, marginY] = typeof margin === "object" ? margin : [margin, margin];
  const xs = gridStations(low[0], high[0], grid.columns, marginX);
  const ys = gridStations(low[1], high[1], grid.rows, marginY);
  if (xs === undefined || ys === undefined) {
    ledger.error(
      "grid-margin",
      "/margin",
      "The margins leave no room for the grid.",
      phrase`less than ${Math.min(...(xs === undefined ? [high[0] - low[0]] : []), ...(ys === undefined ? [high[1] - low[1]] : [])) / 2}`,
      phrase`${(xs === undefined ? marginX : marginY) ?? 0}`,
    );
    return [];
  }
  if (isMarginAssumed(grid))
    ledger.note(
      "/margin",
      [(high[0] - low[0]) / grid.columns / 2, (high[1] - low[1]) / grid.rows / 2],
      "not given; half a spacing",
    );
  const { aim, offset: [along, across] = [0, 0] } = grid;
  checkAim(grid, ["turn", "followSlope"], ledger);
  const orientation = hung(radians(grid.turn ?? 0), followsSlope(grid, role, room, ledger), room);
  return ys.flatMap((row) =>
    xs.map((column) => {
      const [x, y] = [column + along, row + across];
      const place: Vec3 = [x, y, grid.height ?? ceilingAt(room, x, y)];
      if (aim === undefined) return frame(place, orientation);
      checkAimedAway(place, aim, ledger);
      return frame(place, aimed(place, aim));
    }),
  );
}

/** Whether half a spacing stands in for a distance from the walls that nobody gave. */
const isMarginAssumed = ({ margin, columns, rows }: GridDocument): boolean =>
  margin === undefined && columns * rows > 1;

/** Centres of `count` luminaires between two walls; undefined when the margins meet. */
export function gridStations(from: number, to: number, count: number, margin?: number): number[] | undefined {
  if (count === 1) return [(from + to) / 2];
  const bay = (to - from) / count;
  const first = margin === undefined ? from + bay / 2 : from + margin;
  const step = margin === undefined ? bay : (to - from - 2 * margin) / (count - 1);
  return step > 0 ? Array.from({ length: count }, (_, i) => first + i * step) : undefined;
}

function placeFrame(place: PlaceDocument, ledger: Ledger): Frame {
  const { position, turn, tilt, spin, aim } = place;
  checkAim(place, ["turn", "tilt"], ledger);
  if (aim === undefined)
    return frame(position, { turn: radians(turn ?? 0), tilt: radians(tilt ?? 0), spin: radians(spin ?? 0) });
  checkAimedAway(position, aim, ledger);
  return frame(position, aimed(position, aim, radians(spin ?? 0)));
}

function checkPlace(
  luminaire: Luminaire,
  { origin, rotation }: Frame,
  role: LayerRole,
  { room, ledger }: Surroundings,
): void {
  const [x, y, z] = origin;
  const where = phrase`(${lengthList(origin)})`;
  if (!overFloor(origin, room, NEGLIGIBLE) || z < -NEGLIGIBLE) {
    ledger.error("luminaire-outside", "", "The luminaire hangs outside the room.", spaceOfRoom(room), where);
    return;
  }
  const ceiling = ceilingAt(room, x, y);
  // A recessed body goes through the ceiling; a hung one must not.
  const top = role === "pendant" ? z + Math.max(0, highestPoint(ofKnownHeight(luminaire), rotation)) : z;
  if (top > ceiling + NEGLIGIBLE) {
    const what =
      role === "pendant" ? "The pendant reaches above the ceiling." : "The luminaire is above the ceiling.";
    const unit = top > ceiling + NO_HOUSE ? ' A number is metres; millimetres are written "750 mm".' : "";
    ledger.error("luminaire-above-ceiling", "", `${what}${unit}`, phrase`at most ${ceiling}`, [top]);
  }
}

/** Height of a luminaire's lowest point above the top under its centre (m); undefined where no top lies there. */
export function clearanceOf(
  { luminaire, frame: { origin, rotation } }: PlacedLuminaire,
  island?: Island,
): number | undefined {
  const top = topUnder(island, origin);
  return top === undefined ? undefined : origin[2] + lowestPoint(luminaire, rotation) - top;
}
