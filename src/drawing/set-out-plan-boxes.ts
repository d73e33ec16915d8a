/** Boxes on the set-out plan: a symbol each, and the body of what hangs at its size. */

import type { SetOutBox } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { planPlacement } from "../geometry/plan-placement.ts";
import { rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { cutOutOutline, cutOutSides } from "../luminaire/cut-out.ts";
import { outlineBelow, planExtents, planForm } from "../luminaire/plan-extent.ts";
import { boxWidth } from "../scene/box-places.ts";
import type { Scene } from "../scene/scene.ts";
import { degrees } from "../units/quantities.ts";
import type { Depicted } from "./depicted.ts";
import { line, segment, text } from "./drawing.ts";
import { circle, type PaperMark } from "./paper/paper.ts";
import { LETTERING } from "./running-string.ts";
import type { SetOutPage } from "./set-out-page.ts";
import { outlineOnPlan } from "./silhouette.ts";

type Scaling = Pick<SetOutPage, "scene" | "perMetre" | "isFullSize">;

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
export const pendantSymbol = ({ scene, perMetre, isFullSize }: Scaling): number =>
  Math.max(isFullSize ? 0 : 4, (boxWidth(scene.room) / 2) * perMetre);
const recessedSymbol = ({ perMetre, isFullSize }: Pick<Scaling, "perMetre" | "isFullSize">): number =>
  isFullSize ? PLACE * perMetre : 3.4;

/** A page with the boxes' symbols as the first of what is taken, and the lines to measure from, which words leave free where they can
 * (points). */
export interface BoxPage extends SetOutPage {
  readonly symbols: number;
  readonly edges: readonly (readonly [Vec2, Vec2])[];
}

/** How far the ring of what is on hold stands around that of its box (points). */
export const HELD_RING = 4;

export function boxMarks(page: BoxPage, box: SetOutBox, held: boolean): PaperMark[] {
  const centre = page.at(box.at);
  const symbol = pendantSymbol(page);
  const attributes = boxAttributes(page.scene, box, held);
  const marks: PaperMark[] =
    box.kind === "pendant"
      ? pendantMarks(page, box, symbol, attributes)
      : box.kind === "fixed"
        ? [square(centre, 3.2, "fixed mark", "sheet")]
        : recessedMarks(page, box, attributes);
  if (held) marks.push(circle(centre, symbol + HELD_RING, "clash", { weight: 1.5 }));
  return marks;
}

type Attributes = Readonly<Record<string, string>>;

function recessedMarks(page: BoxPage, box: SetOutBox, attributes: Attributes): PaperMark[] {
  const centre = page.at(box.at);
  if (page.isFullSize)
    return [
      ...outlineMarks(page, box, "recessed"),
      ...cutOutMarks(page, box),
      { ...circle(centre, recessedSymbol(page), "recessed box"), attributes },
    ];
  const radius = symbolRadius(box, page);
  return [
    { ...circle(centre, radius, "recessed box", { weight: 1, fill: "sheet" }), attributes },
    circle(centre, radius / 2, "recessed ring", { weight: 0.75 }),
  ];
}

/** The hole that the study states, at its size. */
function cutOutMarks({ scene, at, perMetre }: BoxPage, box: SetOutBox): PaperMark[] {
  const { cutOut } = box.luminaire;
  if (cutOut === undefined) return [];
  if (typeof cutOut === "number")
    return [circle(at(box.middle), (cutOut / 2) * perMetre, "cut-out", { weight: 1 })];
  const corners = onPlan(scene, box, cutOutOutline(cutOut));
  return [line(corners.map(at), "cut-out", "ink", 1, { closed: true })];
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
export function bodyOutline({ scene, isFullSize }: BoxPage, box: SetOutBox): Vec2[] {
  const { luminaire } = box;
  return onPlan(scene, box, isFullSize ? outlineBelow(luminaire) : outlineOnPlan(luminaire, 1, 0));
}

/** @param outline about its middle (m, local x and y) */
function onPlan(scene: Scene, { layer, index, middle }: SetOutBox, outline: readonly Vec2[]): Vec2[] {
  const { rotation } = scene.layers[layer].luminaires[index].frame;
  return outline.map(planPlacement(middle, Math.atan2(rotation[1], rotation[0])));
}

function square([x, y]: Vec2, d: number, depicts: Depicted, fill: "sheet" | "ink"): PaperMark {
  const corners = rectangleBetween(x - d, y - d, x + d, y + d);
  return line(corners, depicts, "ink", 1, { closed: true, fill });
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
    CUT_OUT_M:
      box.kind !== "recessed" || luminaire.cutOut === undefined
        ? ""
        : [...new Set(cutOutSides(luminaire.cutOut))].map(metres).join(" x "),
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
