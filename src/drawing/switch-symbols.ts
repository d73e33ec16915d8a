/**
 * Places of switches on the set-out plan: a ring with S and its leg's letter beside it, 2 where it is one of a two-way pair, X between
 * them, D where it dims; a dotted line leads from each to the box of the leg's nearest luminaire. Rings that would lie over one another on paper stand
 * side by side, each with a line to a dot at its place; at full size each is at its place. Common practice, no source; the sheet explains
 * them.
 */

import { switchOf } from "../advice/switch-of.ts";
import { type SwitchKind, switchingLegs } from "../advice/switching.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { boxesInPlace } from "../scene/box-places.ts";
import type { Layer } from "../scene/scene.ts";
import { type Box, overlaps, segment, text, within } from "./drawing.ts";
import { circle, type PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import type { SetOutPage } from "./set-out-page.ts";

const RING = 4;
const DOT = 1.2;
const KIND: Readonly<Record<SwitchKind, string>> = { "one-way": "S", "two-way": "S2", intermediate: "SX" };

/** What stands beside a switch: `S2D a`. */
export function switchWords(kind: SwitchKind, dims: boolean, leg: string, assumed = false): string {
  return `${KIND[kind]}${dims ? "D" : ""} ${leg}${assumed ? " assumed" : ""}`;
}

interface NamedSwitch {
  /** Its place in plan (m, room). */
  readonly place: Vec2;
  readonly words: string;
  readonly layer: Layer;
}

/** Every switch of an arrangement with what stands beside it. */
export function namedSwitches(layers: readonly Layer[]): NamedSwitch[] {
  return switchingLegs(layers).flatMap(({ leg, layer }) => {
    const switches = layer.switches ?? [];
    return switches.map(({ at: place, assumed }, i) => {
      const { kind, dims } = switchOf(layer, i);
      return { place, words: switchWords(kind, dims, leg, assumed), layer };
    });
  });
}

export function switchMarks(page: SetOutPage): PaperMark[] {
  const { scene, at, taken } = page;
  const leads: PaperMark[] = [];
  const symbols: PaperMark[] = [];
  const dots: PaperMark[] = [];
  const rings: Box[] = [];
  const switches = namedSwitches(scene.layers).map((each) => {
    const place = at(each.place);
    const ring = beside(place, rings, page);
    rings.push(ringBox(ring));
    return { ...each, place, ring };
  });
  taken.push(...rings);
  const boxes = boxesInPlace(scene);
  switches.forEach(({ place, ring, words, layer }, i) => {
    const own = boxes.filter((box) => scene.layers[box.layer] === layer).map((box) => at(box.at));
    const lamp = nearest(own, place);
    leads.push(segment(...ring, ...lamp, "switch", "quiet", 0.75, { dash: "dotted" }));
    if (ring !== place) {
      leads.push(segment(...place, ...ring, "switch", "ink", 0.75));
      dots.push(circle(place, DOT, "switch place", { weight: 0.75, fill: "ink" }));
    }
    symbols.push(
      circle(ring, RING, "switch", { weight: 0.75, fill: "sheet" }),
      name(words, ring, rings[i], page),
    );
  });
  // A place may lie within another's ring.
  return [...leads, ...symbols, ...dots];
}

const ringBox = ([x, y]: Vec2): Box => ({ x: x - RING, y: y - RING, width: 2 * RING, height: 2 * RING });

/** From ring to ring side by side (points). */
const PITCH = 2 * RING + 1;
const STEPS = [1, 2, 3, 4, 5, 6, 7, 8];

/** The place itself, else on paper the nearest beside it where no ring stands. */
function beside(place: Vec2, rings: readonly Box[], { field, taken, isFullSize }: SetOutPage): Vec2 {
  const isClear = (each: Vec2): boolean => !rings.some((ring) => overlaps(ringBox(each), ring));
  if (isFullSize || isClear(place)) return place;
  const [x, y] = place;
  // One under the other first, where each has its name beside it.
  const places = [0, 1].flatMap((across) =>
    STEPS.flatMap((step) =>
      [step * PITCH, -step * PITCH].map((d): Vec2 => (across === 0 ? [x, y + d] : [x + d, y])),
    ),
  );
  const inField = places.filter((each) => isClear(each) && within(ringBox(each), field, 2 * RING));
  const isFree = (each: Vec2): boolean => !taken.some((other) => overlaps(ringBox(each), other));
  return inField.find(isFree) ?? inField[0] ?? place;
}

/** @param own box of its ring */
function name(words: string, [x, y]: Vec2, own: Box, { taken, field }: SetOutPage): PaperMark {
  const width = paperTextWidth(words, LETTERING, true);
  const boxAt = ([left, foot]: Vec2): Box => ({
    x: left,
    y: foot - 0.8 * LETTERING,
    width,
    height: LETTERING,
  });
  const places: readonly Vec2[] = [
    [x + RING + 2, y + 0.35 * LETTERING],
    [x - RING - 2 - width, y + 0.35 * LETTERING],
    [x - width / 2, y - RING - 2],
    [x - width / 2, y + RING + LETTERING],
  ];
  const clear = (each: Vec2): boolean =>
    !taken.some((other) => other !== own && overlaps(boxAt(each), other, 1));
  const place =
    places.find((each) => clear(each) && within(boxAt(each), field)) ?? places.find(clear) ?? places[0];
  taken.push(boxAt(place));
  return text(place, words, "switch", { size: LETTERING, strong: true, ink: "ink", ground: "sheet" });
}

function nearest(places: readonly Vec2[], [x, y]: Vec2): Vec2 {
  return places.reduce((best, each) =>
    Math.hypot(each[0] - x, each[1] - y) < Math.hypot(best[0] - x, best[1] - y) ? each : best,
  );
}
