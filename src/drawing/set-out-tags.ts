/**
 * Tags of boxes on the set-out plan: each plainly its own box's, clear of its neighbours, off the lines one measures from.
 *
 * Tags of pendants are placed together, since the place of one decides what is left to the next: places are chosen tag by
 * tag, and of what is begun the cheapest goes on (a beam search). What is lost at a place is weighed by what it costs the reader.
 */

import type { SetOutBox } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { type Box, line, overlaps, text, within } from "./drawing.ts";
import { lineMeetsBox, type OrientedBox, orientedBox } from "./oriented-box.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import { type BoxPage, bodyOutline, HELD_RING, pendantSymbol } from "./set-out-plan-boxes.ts";

const TAG = 8;
/** Farther from its symbol than this (points), a tag is led to it by a line. */
const BESIDE = 2;
/** Lines to tags keep so far apart (points). */
const APART = 4;
/** How many ways of placing go on. */
const KEPT = 60;

/** What it costs the reader. */
const COST = {
  covered: 16,
  outside: 8,
  disordered: 8,
  ambiguous: 4,
  tangled: 6,
  astray: 2,
  crossed: 2,
  led: 1,
};

interface TagPlace {
  readonly at: Vec2;
  readonly anchor: "start" | "middle" | "end";
  readonly leader?: readonly [Vec2, Vec2];
}

/** A box and the word that goes to it. */
interface Tag {
  readonly words: string;
  readonly size: number;
  readonly isPendant: boolean;
  readonly centre: Vec2;
  readonly layer: number;
}

interface PlacedTag extends TagPlace {
  readonly tag: Tag;
  readonly box: Box;
}

/** The tags of all boxes, those of pendants together; `page` has their symbols as the first of what is taken. */
export function tagMarks(page: BoxPage, boxes: readonly SetOutBox[], held: ReadonlySet<string>): PaperMark[] {
  const before: PlacedTag[] = [];
  return togetherOf(boxes).flatMap((group) => {
    const places = placedTogether(page, boxes, group, held, before);
    before.push(...places);
    page.taken.push(...places.map(({ box }) => box));
    return places.flatMap(({ at, anchor, leader, tag: { words, size, isPendant } }): PaperMark[] => [
      ...(leader === undefined ? [] : [line(leader, "leader", "hairline", 0.75)]),
      text(at, words, "tag", { anchor, size, strong: isPendant, ink: "ink", ground: "sheet" }),
    ]);
  });
}

/** Numbers of the boxes whose tags are placed together: all pendants; each of the others alone. */
function togetherOf(boxes: readonly SetOutBox[]): readonly (readonly number[])[] {
  const groups: number[][] = [];
  boxes.forEach(({ kind }, i) => {
    const before = boxes[i - 1];
    if (kind === "pendant" && before?.kind === "pendant") groups.at(-1)?.push(i);
    else groups.push([i]);
  });
  return groups;
}

function placedTogether(
  page: BoxPage,
  boxes: readonly SetOutBox[],
  group: readonly number[],
  held: ReadonlySet<string>,
  before: readonly PlacedTag[],
): readonly PlacedTag[] {
  let begun: readonly { readonly cost: number; readonly tags: readonly PlacedTag[] }[] = [
    { cost: 0, tags: [] },
  ];
  for (const own of group) {
    const places = placesOf(page, boxes[own], own, held.has(boxes[own].tag)).map(({ placed, cost }) => ({
      placed,
      cost: cost + (before.some((other) => areTangled(placed, other)) ? COST.tangled : 0),
    }));
    begun = begun
      .flatMap(({ cost, tags }) =>
        places.map((place) => ({
          cost: cost + place.cost + sum(tags.map((other) => costBeside(place.placed, other))),
          tags: [...tags, place.placed],
        })),
      )
      .sort((a, b) => a.cost - b.cost)
      .slice(0, KEPT);
  }
  return begun[0].tags;
}

/** The places around a box, the usual ones first, each with what is lost there. */
function placesOf(
  page: BoxPage,
  box: SetOutBox,
  own: number,
  held: boolean,
): readonly { readonly placed: PlacedTag; readonly cost: number }[] {
  const { scene, at, perMetre, taken, symbols, field, edges } = page;
  const isPendant = box.kind === "pendant";
  const centre = at(box.at);
  const { circuit } = scene.layers[box.layer];
  const words = `${box.tag}${circuit === undefined ? "" : ` · ${printable(circuit, 8)}`}${held ? " HOLD" : ""}`;
  const size = isPendant ? TAG : LETTERING;
  const tag: Tag = { words, size, isPendant, centre, layer: box.layer };
  const ring = pendantSymbol(page) + (held ? HELD_RING : 0);
  // How far the body reaches up and down the page.
  const upright = isPendant
    ? Math.max(...bodyOutline(page, box).map((p) => Math.abs(p[1] - box.at[1]))) * perMetre
    : 0;
  const w = paperTextWidth(words, size, isPendant);
  const self: Box = { x: centre[0] - ring, y: centre[1] - ring, width: 2 * ring, height: 2 * ring };
  const others = taken.filter((_, k) => k !== own);
  const neighbours = taken.slice(0, symbols).filter((_, k) => k !== own);
  return tagPlaces(tag, ring, Math.max(ring, upright)).map((place) => {
    const [px, py] = place.at;
    const there: Box = {
      x: px - (place.anchor === "middle" ? w / 2 : place.anchor === "end" ? w : 0),
      y: py - size * 0.8,
      width: w,
      height: size,
    };
    const { leader } = place;
    const nearest = Math.min(...neighbours.map((other) => gapOf(there, other)));
    const isAmbiguous = leader === undefined && nearest < gapOf(there, self) + 3;
    // Led away under another's symbol, it is read as that one's.
    const isAstray = leader !== undefined && nearest < gapOf(there, self);
    const isTangled = leader !== undefined && neighbours.some((other) => meets(leader, other));
    const lost = [
      [others.some((other) => overlaps(there, other, 1)), COST.covered],
      [!within(there, field), COST.outside],
      [isAmbiguous, COST.ambiguous],
      [isAstray, COST.astray],
      [isTangled, COST.tangled],
      [edges.some((edge) => meets(edge, there)), COST.crossed],
      [leader !== undefined, COST.led],
    ] as const;
    return { placed: { ...place, tag, box: there }, cost: sum(lost.map(([is, cost]) => (is ? cost : 0))) };
  });
}

/** What a tag loses by another: laid over it, out of the order of their row, or their lines close together. */
function costBeside(one: PlacedTag, other: PlacedTag): number {
  const [x, y] = between(middle(other.box), middle(one.box));
  const [u, v] = between(other.tag.centre, one.tag.centre);
  return (
    (overlaps(one.box, other.box, 1) ? COST.covered : 0) +
    (one.tag.layer === other.tag.layer && x * u + y * v <= 0 ? COST.disordered : 0) +
    (areTangled(one, other) ? COST.tangled : 0)
  );
}

/** Whether the line to one of two tags is close to the other's or runs under its words. */
function areTangled(one: PlacedTag, other: PlacedTag): boolean {
  const under = ({ leader }: PlacedTag, { box }: PlacedTag) => leader !== undefined && meets(leader, box);
  const [a, b] = [one.leader, other.leader];
  const close = a !== undefined && b !== undefined && lineMeetsBox(...a, around(b));
  return close || under(one, other) || under(other, one);
}

/** Places around a box, the usual ones first: beside its ring, then farther off with a line to it. */
function tagPlaces(
  { centre: [x, y], size, isPendant }: Tag,
  ring: number,
  upright: number,
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
  const led = [14, 26, 40, 54].flatMap((off) =>
    LED_TOWARDS.map(([u, v]): TagPlace => {
      const tip: Vec2 = [x + u * (ring + off), y + v * (ring + off)];
      return {
        at: [tip[0] + Math.sign(u) * BESIDE, tip[1] + size * 0.35],
        anchor: u > 0 ? "start" : "end",
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

const meets = ([p, q]: readonly [Vec2, Vec2], box: Box): boolean => lineMeetsBox(p, q, orientedBox(box));

/** A line with the room it keeps free. */
function around([p, q]: readonly [Vec2, Vec2]): OrientedBox {
  const [dx, dy] = between(p, q);
  return {
    centre: [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2],
    width: Math.hypot(dx, dy),
    height: 2 * APART,
    turn: (Math.atan2(dy, dx) * 180) / Math.PI,
  };
}

const between = (a: Vec2, b: Vec2): Vec2 => [b[0] - a[0], b[1] - a[1]];
const middle = ({ x, y, width, height }: Box): Vec2 => [x + width / 2, y + height / 2];
const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);

/** Free distance between two rectangles (points), 0 where they meet. */
function gapOf(a: Box, b: Box): number {
  const dx = Math.max(a.x - b.x - b.width, b.x - a.x - a.width, 0);
  const dy = Math.max(a.y - b.y - b.height, b.y - a.y - a.height, 0);
  return Math.hypot(dx, dy);
}
