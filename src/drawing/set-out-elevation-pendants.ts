/** A pendant on elevation and section: profile, suspension and canopy, with drop, body and gap in one upright line. */

import type { SetOutBox } from "../app/set-out/set-out.ts";
import { rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { canopySize } from "../luminaire/product-facts.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Depicted } from "./depicted.ts";
import { line, segment, text } from "./drawing.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import type { PlanWords } from "./set-out-plan.ts";
import { ceilingOver, type SideView } from "./side-view.ts";
import { luminaireProfile, profileOutline, seenWidth } from "./silhouette.ts";

/** Pendants nearer to one another on paper (points) are in one place. */
const LEAST_APART = 8;
/** Height of a tag's letters (points). */
const TAG = 8;

/** A cord, a rod or the supply along a view, and the ceiling over it (m). */
interface HangingStation {
  readonly s: number;
  readonly ceiling: number;
}

/** How a pendant is shown on a view. */
export interface PendantView {
  readonly view: SideView;
  readonly words: PlanWords;
  /** Its tag, or those of all that stand behind it; none where one before it bears them. */
  readonly name: string;
  readonly written: ReadonlySet<"drop" | "body" | "gap">;
  /** Paper between its middle and the next body on its right (points). */
  readonly beside: number;
  /** Paper from its middle to those of the next pendants, left and right (points). */
  readonly apart: readonly number[];
  /** How wide its body and opening look from this side (m). */
  readonly width: number;
  readonly hangsAt: readonly HangingStation[];
}

export function pendantMarks(box: SetOutBox, s: number, shown: PendantView): PaperMark[] {
  const h = box.heights;
  if (h === undefined) return [];
  const { view, words, written } = shown;
  const { at, perMetre } = view;
  const { luminaire } = box;
  const [x] = at(s, 0);
  const [ceiling, bodyTop, bottom, top] = [h.ceiling, h.bodyTop, h.bottom, h.top].map((z) => at(s, z)[1]);
  const across = shown.width / 2;
  // Past the end of the body; only between bodies that leave no room for it over the body itself.
  const past = across * perMetre + 10;
  const offset = figuresAt(shown, past);
  const side = offset < 0 ? -1 : 1;
  const dimX = x + offset;
  const body = bodyMark(luminaire, x, bottom, across, perMetre);
  const drawn = [
    ...hangingMarks(view, shown.hangsAt, h.bodyTop),
    body,
    ...canopyMarks(box, at(view.station(box.at), box.ceiling), perMetre),
    ...(shown.name === "" ? [] : [tagMark(s, x, Math.min(ceiling, bodyTop), shown)]),
    ...feedMark(box, s, view),
  ];
  if (written.size === 0 || offset === 0) return drawn;
  return [
    ...drawn,
    // Drop, body and gap in one upright line beside the pendant.
    segment(dimX, ceiling, dimX, top, "dimension line", "ink", 0.75),
    ...[ceiling, bodyTop, bottom, top].map((y) =>
      segment(dimX - 2.5, y + 2.5, dimX + 2.5, y - 2.5, "dimension tick", "ink", 1),
    ),
    ...[bodyTop, bottom].map((y) =>
      side === -1
        ? segment(2 * x - edgeAt(body, y, x) - 1.5, y, dimX - 3, y, "extension line", "hairline", 0.75)
        : segment(
            Math.min(edgeAt(body, y, x) + 1.5, dimX),
            y,
            dimX + 3,
            y,
            "extension line",
            "hairline",
            0.75,
          ),
    ),
    ...(written.has("drop")
      ? [figure(dimX, ceiling, bodyTop, `drop ${words.dimension(h.drop)}`, "dimension drop", side)]
      : []),
    ...(written.has("body") && h.body > 0
      ? [figure(dimX, bodyTop, bottom, words.dimension(h.body), "dimension body", side)]
      : []),
    ...(written.has("gap") ? [figure(dimX, bottom, top, words.dimension(h.gap), "dimension gap", side)] : []),
  ];
}

/** How far from a pendant's middle its figures stand (points), to read as its own: right past its end or over it, left where only there is
 * room past it and past the figures that a like neighbour has on its right, else between it and the next; 0 where that stands in one place with it. */
function figuresAt({ beside, apart: [left, right] }: PendantView, past: number): number {
  const near = past + LETTERING < beside ? past : Math.min(past, 26);
  if (right > near + LETTERING) return near;
  if (left > 2 * past + LETTERING + 4) return -past;
  return right < LEAST_APART ? 0 : 0.65 * right;
}

/** Which end the supply comes down at, of what hangs on several points: named on the side of its middle, clear of dimensions. */
function feedMark({ at: box, suspensions, ceiling }: SetOutBox, s: number, view: SideView): PaperMark[] {
  const fed = view.station(box);
  if (suspensions === undefined || Math.abs(fed - s) < 0.05) return [];
  const [x, y] = view.at(fed, ceiling);
  const inwards = fed < s ? 1 : -1;
  return [
    text([x + inwards * 12, y + LETTERING + 3], "feed", "tag", {
      size: LETTERING,
      ink: "ink",
      anchor: inwards > 0 ? "start" : "end",
    }),
  ];
}

/** Tags over one another where those side by side would touch. */
export function stackedTags(marks: readonly PaperMark[]): PaperMark[] {
  const placed: { readonly left: number; readonly right: number; readonly y: number }[] = [];
  return marks.map((mark) => {
    if (mark.kind !== "text" || mark.depicts !== "tag" || mark.strong !== true) return mark;
    const half = paperTextWidth(mark.text, TAG, true) / 2 + 1.5;
    const [left, right] = [mark.at[0] - half, mark.at[0] + half];
    const beside = placed.filter((each) => each.left < right && each.right > left);
    let y = mark.at[1];
    for (let other = blocking(); other !== undefined; other = blocking()) y = other.y - TAG - 1;
    placed.push({ left, right, y });
    return { ...mark, at: [mark.at[0], y] };

    function blocking() {
      return beside.find((each) => Math.abs(each.y - y) < TAG + 0.9);
    }
  });
}

/** How far right an outline reaches at a height on paper (points); at least to `x`. */
function edgeAt(outline: PaperMark, y: number, x: number): number {
  const points = outline.kind === "line" ? outline.points : [];
  return Math.max(x, ...points.filter((p) => Math.abs(p[1] - y) < 0.5).map((p) => p[0]));
}

/** A cord or rod at each place it hangs on. */
export function hangingMarks(
  { at }: SideView,
  hangsAt: readonly HangingStation[],
  bodyTop: number,
): PaperMark[] {
  return hangsAt.map(({ s, ceiling }) => {
    const [x, y] = at(s, ceiling);
    return segment(x, y, x, at(s, bodyTop)[1], "pendant suspension", "ink", 1);
  });
}

/** The body in true profile; a long one is as long as it is seen from this side. */
export function bodyMark(
  luminaire: SetOutBox["luminaire"],
  x: number,
  bottom: number,
  across: number,
  perMetre: number,
): PaperMark {
  const lowest = luminaireProfile(luminaire).reduce((low, [, z]) => Math.min(low, z), Infinity);
  const outline = profileOutline(
    luminaire,
    2 * across,
    (s, z): Vec2 => [x + s * perMetre, bottom - (z - lowest) * perMetre],
  );
  return line(outline, "pendant body", "ink", 1.5, { closed: true, fill: "sheet" });
}

function canopyMarks({ luminaire }: SetOutBox, [x, y]: Vec2, perMetre: number): PaperMark[] {
  // On paper to build from only what is stated.
  if (luminaire.canopy === undefined) return [];
  const { diameter, height } = canopySize(luminaire);
  const half = (diameter / 2) * perMetre;
  const corners = rectangleBetween(x - half, y, x + half, y + height * perMetre);
  return [line(corners, "pendant canopy", "ink", 1, { closed: true, fill: "sheet" })];
}

/** The tag, over the ceiling wherever that rises to. */
function tagMark(s: number, x: number, y: number, { view, name }: PendantView): PaperMark {
  const half = paperTextWidth(name, TAG, true) / 2 / view.perMetre;
  const above = Math.min(y, ...[-half, 0, half].map((step) => view.at(s, ceilingOver(view, s + step))[1]));
  return text([x, above - 6], name, "tag", {
    anchor: "middle",
    size: TAG,
    strong: true,
    ink: "ink",
    ground: "sheet",
  });
}

/** Where along the view a pendant's cords or rods and its supply are (m), and the ceiling over each: its middle, or its own points. */
export function hangingStations(
  { scene: { room }, station }: SideView,
  { suspensions, at }: SetOutBox,
): readonly HangingStation[] {
  const stations = [...(suspensions?.points ?? []), at].map((point) => ({
    s: station(point),
    ceiling: ceilingAt(room, point[0], point[1]),
  }));
  return stations.filter(({ s }, i) => stations.findIndex((other) => Math.abs(other.s - s) < 0.002) === i);
}

/** How wide body and opening look in a view (m): a long one by the way it is turned. */
export function widthInView(
  { axes, direction }: Pick<SideView, "axes" | "direction">,
  { luminaire, orientation: { turn, spin } }: Pick<SetOutBox, "luminaire" | "orientation">,
): number {
  return seenWidth(luminaire, axes.turn + (direction === "along" ? 0 : Math.PI / 2) - turn - spin);
}

/** A figure along its part of an upright dimension, with its name where there is room; beside it, alone, where it is
 * longer than its part. */
function figure(
  x: number,
  y0: number,
  y1: number,
  words: string,
  depicts: Depicted,
  side: 1 | -1,
): PaperMark {
  const style = { size: LETTERING, ink: "ink", ground: "sheet" } as const;
  const middle = (y0 + y1) / 2;
  const alone = words.replace(/^drop /, "");
  const fits = (each: string): boolean => Math.abs(y1 - y0) > paperTextWidth(each, LETTERING) + 6;
  return fits(alone)
    ? text([x - 2.5, middle], fits(words) ? words : alone, depicts, { ...style, anchor: "middle", turn: -90 })
    : text([x + 4 * side, middle + LETTERING * 0.36], alone, depicts, {
        ...style,
        anchor: side > 0 ? "start" : "end",
      });
}
