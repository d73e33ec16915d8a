/** Boxes on the set-out plan: a symbol each, the body of what hangs at its size, and a tag clear of its neighbours. */

import { BOX_WIDTH } from "../advice/clashes/ceiling-clashes.ts";
import type { SetOutBox } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { planPlacement } from "../geometry/plan-placement.ts";
import { rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { outlineBelow, planExtents, planForm } from "../luminaire/plan-extent.ts";
import type { Scene } from "../scene/scene.ts";
import { degrees } from "../units/quantities.ts";
import type { Depicted } from "./depicted.ts";
import { type Box, line, overlaps, segment, text, within } from "./drawing.ts";
import { lineMeetsBox, orientedBox } from "./oriented-box.ts";
import { circle, type PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import type { SetOutPage } from "./set-out-page.ts";
import { outlineOnPlan } from "./silhouette.ts";

const TAG = 8;

type Scaling = Pick<SetOutPage, "perMetre" | "isFullSize">;

/** Half of the cross that marks the place of a recessed luminaire at full size (m): whatever the paper's scale is, it says no size. */
const PLACE = 0.025;

/** What a box's symbol and body cover around its centre (points). */
export function symbolRadius(box: SetOutBox, page: Scaling): number {
  const extent = Math.max(...planExtents(box.luminaire)) / 2;
  return box.kind === "pendant"
    ? Math.max(pendantSymbol(page), Math.min(extent, 0.3) * page.perMetre)
    : Math.max(recessedSymbol(page), extent * page.perMetre);
}

/** Least radii (points): of a pendant's box, and of what sits in the ceiling. */
const pendantSymbol = ({ perMetre, isFullSize }: Scaling): number =>
  Math.max(isFullSize ? 0 : 4, (BOX_WIDTH / 2) * perMetre);
const recessedSymbol = ({ perMetre, isFullSize }: Scaling): number => (isFullSize ? PLACE * perMetre : 3.4);

/** A page with the boxes' symbols as the first of what is taken, and the lines to measure from, which words leave free where they can
 * (points). */
export interface BoxPage extends SetOutPage {
  readonly symbols: number;
  readonly edges: readonly (readonly [Vec2, Vec2])[];
}

/** @param own number of its symbol */
export function boxMarks(page: BoxPage, box: SetOutBox, own: number, held: boolean): PaperMark[] {
  const centre = page.at(box.at);
  const symbol = pendantSymbol(page);
  const attributes = boxAttributes(page.scene, box, held);
  const marks: PaperMark[] =
    box.kind === "pendant"
      ? pendantMarks(page, box, symbol, attributes)
      : box.kind === "fixed"
        ? [square(centre, 3.2, "fixed mark", "sheet")]
        : recessedMarks(page, box, attributes);
  if (held) marks.push(circle(centre, symbol + 4, "clash", { weight: 1.5 }));
  return [...marks, ...tagMark(page, box, own, symbol, held)];
}

type Attributes = Readonly<Record<string, string>>;

function recessedMarks(page: BoxPage, box: SetOutBox, attributes: Attributes): PaperMark[] {
  const centre = page.at(box.at);
  if (page.isFullSize)
    return [
      ...outlineMarks(page, box, "recessed"),
      { ...circle(centre, recessedSymbol(page), "recessed box"), attributes },
    ];
  const radius = symbolRadius(box, page);
  return [
    { ...circle(centre, radius, "recessed box", { weight: 1, fill: "sheet" }), attributes },
    circle(centre, radius / 2, "recessed ring", { weight: 0.75 }),
  ];
}

/** Body at its size, its box, which is where it is fed, and where a long one hangs. */
function pendantMarks(page: BoxPage, box: SetOutBox, symbol: number, attributes: Attributes): PaperMark[] {
  const { at } = page;
  const centre = at(box.at);
  const [x, y] = centre;
  const { suspensions } = box;
  return [
    ...outlineMarks(page, box, "pendant body", page.isFullSize ? 0 : symbol),
    { ...circle(centre, symbol, "pendant box", { weight: 1, fill: "sheet" }), attributes },
    segment(x - symbol, y, x + symbol, y, "pendant cross", "ink", 0.75),
    segment(x, y - symbol, x, y + symbol, "pendant cross", "ink", 0.75),
    ...(suspensions?.points ?? []).map((point) =>
      circle(at(point), 1.7, "suspension point", { weight: 0.75, fill: "ink" }),
    ),
  ];
}

/** What is known of its size from below: body, or opening where that is wider; of a point nothing, unless a circle has a least radius
 * (points). */
function outlineMarks(page: BoxPage, box: SetOutBox, depicts: Depicted, least = 0): PaperMark[] {
  if (planForm(box.luminaire) !== "circle")
    return [line(bodyOutline(page, box).map(page.at), depicts, "ink", 1, { closed: true })];
  const radius = Math.max(least, (planExtents(box.luminaire)[0] / 2) * page.perMetre);
  return radius === 0 ? [] : [circle(page.at(box.middle), radius, depicts, { weight: 1 })];
}

/** Outline of a body that is not round on the plan (m, room), on paper never thinner than can be seen. */
function bodyOutline({ scene, isFullSize }: BoxPage, { layer, index, luminaire, middle }: SetOutBox): Vec2[] {
  const { rotation } = scene.layers[layer].luminaires[index].frame;
  const heading = Math.atan2(rotation[1], rotation[0]);
  const outline = isFullSize ? outlineBelow(luminaire) : outlineOnPlan(luminaire, 1, 0);
  return outline.map(planPlacement(middle, heading));
}

function square([x, y]: Vec2, d: number, depicts: Depicted, fill: "sheet" | "ink"): PaperMark {
  const corners = rectangleBetween(x - d, y - d, x + d, y + d);
  return line(corners, depicts, "ink", 1, { closed: true, fill });
}

/** Farther from its symbol than this (points), a tag is led to it by a line. */
const BESIDE = 2;

interface TagPlace {
  readonly at: Vec2;
  readonly anchor: "start" | "middle" | "end";
  readonly leader?: readonly [Vec2, Vec2];
}

/** The tag at the best place around its box: clear of all else, plainly its own or led to it, off the lines one measures from. */
function tagMark(page: BoxPage, box: SetOutBox, own: number, symbol: number, held: boolean): PaperMark[] {
  const { scene, at, perMetre, taken, symbols, field, edges } = page;
  const isPendant = box.kind === "pendant";
  const centre = at(box.at);
  const { circuit } = scene.layers[box.layer];
  const words = `${box.tag}${circuit === undefined ? "" : ` · ${printable(circuit, 8)}`}${held ? " HOLD" : ""}`;
  const ring = symbol + (held ? 4 : 0);
  // How far the body reaches up and down the page.
  const upright = isPendant
    ? Math.max(...bodyOutline(page, box).map((p) => Math.abs(p[1] - box.at[1]))) * perMetre
    : 0;
  const size = isPendant ? TAG : LETTERING;
  const w = paperTextWidth(words, size, isPendant);
  const boxOf = ({ at: [px, py], anchor }: TagPlace): Box => ({
    x: px - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0),
    y: py - size * 0.8,
    width: w,
    height: size,
  });
  const self: Box = { x: centre[0] - ring, y: centre[1] - ring, width: 2 * ring, height: 2 * ring };
  // What is lost at a place, in the order of what it costs the reader.
  const cost = (place: TagPlace): number => {
    const there = boxOf(place);
    const covered = taken.some((other, k) => k !== own && overlaps(there, other, 1));
    const nearest = Math.min(
      ...taken
        .slice(0, symbols)
        .map((other, k) => (k === own ? Number.POSITIVE_INFINITY : gapOf(there, other))),
    );
    const isAmbiguous = place.leader === undefined && nearest < gapOf(there, self) + 3;
    // Led away under another's symbol, it is read as that one's.
    const isAtAnother = place.leader !== undefined && nearest < gapOf(there, self);
    const crossed = edges.some(([a, b]) => lineMeetsBox(a, b, orientedBox(there)));
    return (
      (covered ? 16 : 0) +
      (within(there, field) ? 0 : 8) +
      (isAmbiguous ? 4 : isAtAnother ? 2 : 0) +
      (crossed ? 2 : 0) +
      (place.leader === undefined ? 0 : 1)
    );
  };
  const places = tagPlaces(centre, ring, Math.max(ring, upright), size, isPendant);
  const costs = places.map(cost);
  const place = places[costs.indexOf(Math.min(...costs))];
  taken.push(boxOf(place));
  return [
    ...(place.leader === undefined ? [] : [line(place.leader, "leader", "hairline", 0.75)]),
    text(place.at, words, "tag", {
      anchor: place.anchor,
      size,
      strong: isPendant,
      ink: "ink",
      ground: "sheet",
    }),
  ];
}

/** Places around a box, the usual ones first: beside its ring, then farther off with a line to it. */
function tagPlaces(
  [x, y]: Vec2,
  ring: number,
  upright: number,
  size: number,
  isPendant: boolean,
): readonly TagPlace[] {
  const d = (ring + 2) * 0.72;
  const above: TagPlace = { at: [x, y - upright - 4], anchor: "middle" };
  const below: TagPlace = { at: [x, y + upright + 2 + size], anchor: "middle" };
  const beside: readonly TagPlace[] = [
    { at: [x + d, y - d], anchor: "start" },
    { at: [x - d, y - d], anchor: "end" },
    { at: [x + d, y + d + size * 0.7], anchor: "start" },
    { at: [x - d, y + d + size * 0.7], anchor: "end" },
    { at: [x + ring + 3, y + size * 0.35], anchor: "start" },
    { at: [x - ring - 3, y + size * 0.35], anchor: "end" },
  ];
  const led = [14, 26, 40].flatMap((off) =>
    LED_TOWARDS.map(([u, v]): TagPlace => {
      const tip: Vec2 = [x + u * (ring + off), y + v * (ring + off)];
      const anchor = u > 0 ? "start" : "end";
      return {
        at: [tip[0] + Math.sign(u) * BESIDE, tip[1] + size * 0.35],
        anchor,
        leader: [[x + u * ring, y + v * ring], tip],
      };
    }),
  );
  // Pendants stand in rows along the island: above them there is room.
  return [...(isPendant ? [above, below, ...beside] : [...beside, below, above]), ...led];
}

/** Directions of a leader on the page, right and up first. */
const LED_TOWARDS: readonly Vec2[] = [
  [0.8, -0.6],
  [-0.8, -0.6],
  [0.8, 0.6],
  [-0.8, 0.6],
  [0.4, -0.917],
  [-0.4, -0.917],
  [0.4, 0.917],
  [-0.4, 0.917],
];

/** Free distance between two rectangles (points), 0 where they meet. */
function gapOf(a: Box, b: Box): number {
  const dx = Math.max(a.x - b.x - b.width, b.x - a.x - a.width, 0);
  const dy = Math.max(a.y - b.y - b.height, b.y - a.y - a.height, 0);
  return Math.hypot(dx, dy);
}

/** What a CAD file keeps of a box: enough to hang and aim it again (metres from the datum, degrees). */
function boxAttributes(scene: Scene, box: SetOutBox, held: boolean): Attributes {
  const { tag, type, luminaire, at, middle, height, heights, ceiling, orientation, aim, suspensions } = box;
  const layer = scene.layers[box.layer];
  const angle = (radians: number): string => String(Number(degrees(radians).toFixed(10)) + 0);
  const metres = (value: number | undefined): string =>
    value === undefined ? "" : String(Number(value.toFixed(4)));
  return {
    TAG: tag,
    TYPE: type,
    CIRCUIT: printable(layer.circuit ?? "", 40),
    X_M: metres(at[0]),
    Y_M: metres(at[1]),
    MIDDLE_X_M: metres(middle[0]),
    MIDDLE_Y_M: metres(middle[1]),
    BOTTOM_M: metres(heights?.bottom ?? height),
    CEILING_M: metres(ceiling),
    DROP_M: metres(heights?.drop),
    BODY_M: metres(heights?.body),
    OVER_TOP_M: metres(heights?.overTop === true ? heights.gap : undefined),
    LUMINAIRE: printable(luminaire.name, 60),
    LAYER: printable(layer.name, 60),
    WATTS: luminaire.watts === undefined ? "" : String(Number(luminaire.watts.toPrecision(4))),
    WEIGHT_KG: luminaire.weight === undefined ? "" : String(luminaire.weight),
    FEED_X_M: metres(suspensions?.feed[0]),
    FEED_Y_M: metres(suspensions?.feed[1]),
    TURN_DEG: angle(orientation.turn),
    TILT_DEG: angle(orientation.tilt),
    SPIN_DEG: angle(orientation.spin),
    AIM_X_M: metres(aim?.[0]),
    AIM_Y_M: metres(aim?.[1]),
    AIM_Z_M: metres(aim?.[2]),
    HOLD: held ? "HOLD" : "",
  };
}

export function datum(): PaperMark[] {
  return [
    circle([0, 0], 5, "datum", { weight: 1, fill: "sheet" }),
    segment(-8, 0, 8, 0, "datum", "ink", 0.75),
    segment(0, -8, 0, 8, "datum", "ink", 0.75),
    text([-9, 14], "DATUM 0", "datum", { anchor: "end", size: LETTERING, strong: true, ink: "ink" }),
  ];
}
