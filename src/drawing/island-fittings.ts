/** Hob, sink and seats in plan: outlines, and along its side of the top the width each seat takes, 60 mm deep. */

import { bounds } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { sideAxes } from "../scene/island-side.ts";
import type { Island, Scene } from "../scene/scene.ts";
import { type Box, line, type Mark, overlaps, type TextMark, text, textBox, textWidth } from "./drawing.ts";

/** Depth of a seat's mark (m). */
const DEPTH = 0.06;

/** @param at the page of a place in the island's own axes (m) */
export function fittings(top: Island | undefined, at: (own: Vec2) => Vec2): Mark[] {
  if (top === undefined) return [];
  const { hob, sink } = top;
  return [
    ...[hob, sink].flatMap((ring) =>
      ring ? [line(ring.map(at), "island fitting", "ink", 0.75, { closed: true })] : [],
    ),
    ...seatMarks(top).map((ends) => line(ends.map(at), "island fitting", "ink", 0.75)),
  ];
}

/** Names of hob and sink within their outlines, else right under or over them, where nothing of `blocked` lies and no zone says it already. */
export function fittingNames(
  { island, zones }: Pick<Scene, "island" | "zones">,
  at: (own: Vec2) => Vec2,
  blocked: readonly Box[] = [],
): TextMark[] {
  return (["hob", "sink"] as const).flatMap((name) => {
    const ring = island?.[name];
    if (!ring || zones.some((zone) => zone.name === name)) return [];
    const [x0, y0, x1, y1] = bounds(ring.map(at));
    if (textWidth(name, 11) > x1 - x0) return [];
    const words = [(y0 + y1) / 2 + 4, y0 + 13, y1 - 5, y1 + 13, y0 - 5].map((y) =>
      text([(x0 + x1) / 2, y], name, "fitting name", { ink: "ink", size: 11, anchor: "middle" }),
    );
    return words.filter((each) => !blocked.some((box) => overlaps(textBox(each), box, 2))).slice(0, 1);
  });
}

/** Seats side by side about the middle of their side, each open to the edge. */
function seatMarks(island: Island): Vec2[][] {
  const { seats } = island;
  if (!seats) return [];
  const { at } = sideAxes(island, seats.side);
  return Array.from({ length: seats.fitting }, (_, i) => {
    const from = seats.from + i * seats.width;
    const [a, b] = [from + 0.03, from + seats.width - 0.03];
    return [at(a, 0), at(a, DEPTH), at(b, DEPTH), at(b, 0)];
  });
}
