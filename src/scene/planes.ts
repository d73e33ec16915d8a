/**
 * Calculation planes: on the island, on a zone, on any rectangle, or at points; and the default ones.
 */

import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { area, bounds, type Polygon } from "../geometry/polygon.ts";
import { convexPieces, inset, intersection } from "../geometry/polygon-pieces.ts";
import { cross, dot, length, normalize, scale, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { PlaneDocument } from "../study/study-schema.ts";
import { type GridArea, gridCells, gridPlane, MOST_CELLS, outlineSpacing } from "./calculation-grid.ts";
import type { CalculationPlane, ReceivedQuantity } from "./calculation-plane.ts";
import { insideRoom } from "./inside-room.ts";
import { islandDirection, islandToRoom } from "./island-frame.ts";
import type { Island, RoomShape } from "./scene.ts";
import { standsForTop } from "./top-plane.ts";
import type { PlannedZone } from "./zones.ts";

/** Most points of a study's planes together. */
const MOST_POINTS = 500_000;
const UP: Vec3 = [0, 0, 1];

interface Setting {
  readonly room: RoomShape;
  readonly island: Island | undefined;
  readonly zones: readonly PlannedZone[];
  /** Of the study; of a plane from its own place on. */
  readonly ledger: Ledger;
}

/** Planes as asked for, then the whole top and one for every zone, where none of those asked for is there. */
export function planesOf(
  documents: readonly PlaneDocument[] | undefined,
  setting: Setting,
): CalculationPlane[] {
  const { island, zones, ledger } = setting;
  const planes: CalculationPlane[] = [];
  let points = 0;
  for (const [i, document] of (documents ?? []).entries()) {
    const here = ledger.at(`/planes/${i}`);
    here.named("plane", [...planes.map(({ name }) => name), document.name], planes.length, "/name");
    const plane = planeOf(document, { ...setting, ledger: here });
    if (plane === undefined) continue;
    planes.push(plane);
    points += plane.weights.length;
    if (points <= MOST_POINTS) continue;
    const number = `${points} and more`;
    here.error("points-too-many", "", "The planes have too many points.", `at most ${MOST_POINTS}`, number);
    return [];
  }
  if (island !== undefined) {
    const wholeTop = zones.length === 1 && zones[0].path === "/island" ? zones[0] : undefined;
    const isMissing = !planes.some((plane) => standsForTop(plane, island));
    if (isMissing || (wholeTop !== undefined && !judged(planes, wholeTop))) {
      const top = onOutline(
        { name: free("island top", planes), role: "top", quantity: "planar", normal: UP },
        island.outline,
        undefined,
        {},
        { ...setting, ledger: ledger.at("/planes") },
      );
      if (top !== undefined) planes.push(wholeTop === undefined ? top : { ...top, zone: wholeTop.name });
      ledger.note(
        "/planes",
        "island top and zones",
        documents === undefined
          ? "not given; the default grids"
          : "no plane is the whole top; the default grid",
      );
    }
    for (const zone of zones) {
      if (zone === wholeTop || judged(planes, zone)) continue;
      if (documents !== undefined)
        ledger.note(`${zone.path}/plane`, zone.name, "no plane on this zone; the default grid judges it");
      const plane = onOutline(
        { name: free(zone.name, planes), role: "zone", zone: zone.name, quantity: "planar", normal: UP },
        zone.outline,
        zone,
        {},
        { ...setting, ledger: ledger.at(zone.path) },
      );
      if (plane !== undefined) planes.push(plane);
    }
  }
  return planes;
}

function judged(planes: readonly CalculationPlane[], zone: PlannedZone): boolean {
  return planes.some(
    (plane) => plane.zone === zone.name && plane.quantity === "planar" && plane.normal[2] === 1,
  );
}

function free(name: string, planes: readonly CalculationPlane[]): string {
  let candidate = name;
  for (let i = 2; planes.some((plane) => plane.name === candidate); i++) candidate = `${name} ${i}`;
  return candidate;
}

type About = Pick<CalculationPlane, "name" | "role" | "zone" | "target" | "quantity" | "normal">;

function planeOf(document: PlaneDocument, setting: Setting): CalculationPlane | undefined {
  const { ledger, island, zones, room } = setting;
  const { name, on, rectangle: flat, points, target, quantity = "planar" } = document;
  const ways = [on, flat, points].filter((way) => way !== undefined).length;
  if (ways !== 1) {
    ledger.error(
      "plane-place",
      "",
      "A plane is placed in one way.",
      '"on", "rectangle" or "points"',
      `${ways} of them`,
    );
    return undefined;
  }
  const about = {
    name,
    role: "user" as const,
    quantity,
    normal: normalOf(document, quantity, ledger),
    ...(target === undefined ? {} : { target }),
  };
  if (target !== undefined) checkJudged(document, setting);
  if (flat !== undefined) return onRectangle(about, flat, document, setting);
  if (points !== undefined) {
    if (document.spacing !== undefined || document.margin !== undefined)
      ledger.warn("plane-points-grid", "", "Points have neither spacing nor margin; these were left out.");
    const outside = points.findIndex((p) => !insideRoom(p, room));
    if (outside >= 0) ledger.error("point-outside", `/points/${outside}`, "The point lies outside the room.");
    return {
      ...about,
      points: Float64Array.from(points.flat()),
      weights: new Float64Array(points.length).fill(1),
    };
  }
  if (island === undefined) {
    ledger.error("plane-island", "/on", "The plane lies on the island, and there is none.");
    return undefined;
  }
  const zone = zones.find((z) => z.name === on);
  if (zone === undefined && on !== "island") {
    const names = ["island", ...zones.map((z) => z.name)].map((n) => `"${n}"`).join(", ");
    ledger.error("plane-zone", "/on", "There is no such zone.", `one of ${names}`, JSON.stringify(on));
    return undefined;
  }
  if (on === "island") {
    const whole = zones.length === 1 && zones[0].path === "/island" ? { zone: zones[0].name } : {};
    const role = quantity === "planar" && about.normal[2] > 0.9 ? "top" : "user";
    return onOutline({ ...about, role, ...whole }, island.outline, undefined, document, setting);
  }
  const own = zone as PlannedZone;
  return onOutline({ ...about, role: "zone", zone: own.name }, own.outline, own, document, setting);
}

/** A plane that is judged is one rectangle of its own name, and not of the island, whose zones are judged. */
function checkJudged(
  { name, rectangle, quantity = "planar" }: PlaneDocument,
  { zones, ledger }: Setting,
): void {
  if (rectangle === undefined || quantity !== "planar")
    ledger.error(
      "plane-target",
      "/target",
      "Only a planar rectangle is judged by a target of its own; the island is judged by its zones.",
      'a "rectangle" without "quantity"',
    );
  if (zones.some((zone) => zone.name === name))
    ledger.error("plane-name", "/name", `A zone is named "${name}" too: their verdicts would be mixed up.`);
}

function normalOf(
  { normal, rectangle: flat }: PlaneDocument,
  quantity: ReceivedQuantity,
  ledger: Ledger,
): Vec3 {
  const given = normal ?? (flat === undefined ? UP : cross(flat.u, flat.v));
  const n = normalize(given);
  if (length(n) === 0)
    ledger.error("plane-normal", "/normal", "The normal has no direction.", "not [0, 0, 0]");
  if (quantity === "semi-cylindrical" && Math.abs(n[2]) > 1e-6)
    ledger.error(
      "plane-facing",
      "/normal",
      "A semi-cylinder faces a horizontal direction.",
      "a normal with z = 0",
    );
  return n;
}

function onRectangle(
  about: About,
  { corner, u, v }: NonNullable<PlaneDocument["rectangle"]>,
  { spacing, margin = 0 }: PlaneDocument,
  { ledger, room }: Setting,
): CalculationPlane | undefined {
  const at = "/rectangle";
  const [a, b] = [length(u), length(v)];
  if (a < 1e-4 || b < 1e-4 || Math.abs(dot(u, v)) > 1e-6 * a * b) {
    ledger.error("plane-rectangle", at, '"u" and "v" do not span a rectangle.', "two sides at right angles");
    return undefined;
  }
  if (2 * margin >= Math.min(a, b)) {
    ledger.error(
      "plane-margin",
      "/margin",
      "The margin leaves nothing.",
      phrase`below ${Math.min(a, b) / 2}`,
    );
    return undefined;
  }
  const [eu, ev] = [scale(u, 1 / a), scale(v, 1 / b)];
  const shifted = corner.map((c, i) => c + margin * (eu[i] + ev[i])) as unknown as Vec3;
  const gridArea = { corner: shifted, u: scale(eu, a - 2 * margin), v: scale(ev, b - 2 * margin) };
  const far = [0, 1, 2, 3].map(
    (k) => corner.map((c, i) => c + (k & 1 ? u[i] : 0) + (k & 2 ? v[i] : 0)) as unknown as Vec3,
  );
  if (far.some((p) => !insideRoom(p, room)))
    ledger.error("plane-outside", at, "The rectangle reaches outside the room.");
  return grid(about, gridArea, spacing, ledger);
}

function onOutline(
  about: About,
  outline: Polygon,
  zone: PlannedZone | undefined,
  { spacing, margin = 0 }: Pick<PlaneDocument, "spacing" | "margin">,
  { island, ledger }: Setting,
): CalculationPlane | undefined {
  if (island === undefined) return undefined;
  const within = margin === 0 ? outline : inset(outline, margin);
  if (within === undefined) {
    ledger.error("plane-margin", "/margin", "The margin leaves nothing.", "a smaller margin", [margin]);
    return undefined;
  }
  const [x0, y0, x1, y1] = bounds(within);
  const pieces = convexPieces(within).map((piece) => piece.map(([x, y]): Vec2 => [x - x0, y - y0]));
  const whole = area(pieces) > (x1 - x0) * (y1 - y0) - 1e-9;
  const ground =
    zone?.ownHeight === true ? { z: zone.height, lifts: [] } : groundOf(island, within, [x0, y0]);
  const [cx, cy] = islandToRoom(island, [x0, y0]);
  const gridArea: GridArea = {
    corner: [cx, cy, ground.z],
    u: scale(islandDirection(island, [1, 0]), x1 - x0),
    v: scale(islandDirection(island, [0, 1]), y1 - y0),
    ...(whole ? {} : { region: pieces, regionSpacing: outlineSpacing(within) }),
    ...(ground.lifts.length === 0 ? {} : { lifts: ground.lifts }),
  };
  return grid(about, gridArea, spacing, ledger);
}

/** Height under a region: one level's when it lies wholly on it, else the main top's with the levels lifted. */
function groundOf(
  island: Island,
  outline: Polygon,
  [x0, y0]: Vec2,
): { z: number; lifts: NonNullable<GridArea["lifts"]> } {
  const pieces = convexPieces(outline);
  const whole = area(pieces);
  const lifts: { pieces: Polygon[]; lift: number }[] = [];
  for (const level of island.levels) {
    const common = intersection(convexPieces(level.outline), pieces);
    if (area(common) > whole - 1e-9) return { z: level.height, lifts: [] };
    if (area(common) > 1e-9)
      lifts.push({
        pieces: common.map((piece) => piece.map(([x, y]): Vec2 => [x - x0, y - y0])),
        lift: level.height - island.height,
      });
  }
  return { z: island.height, lifts };
}

function grid(
  about: About,
  gridArea: GridArea,
  spacing: number | undefined,
  ledger: Ledger,
): CalculationPlane | undefined {
  const [columns, rows] = gridCells(gridArea, spacing);
  // Written so that sides without length, which have no number of cells, are refused too.
  if (!(columns * rows <= MOST_CELLS)) {
    const size = `${columns} × ${rows}`;
    ledger.error(
      "plane-too-fine",
      "/spacing",
      "The grid has too many points.",
      `at most ${MOST_CELLS}`,
      size,
    );
    return undefined;
  }
  return gridPlane(about, gridArea, columns, rows);
}
