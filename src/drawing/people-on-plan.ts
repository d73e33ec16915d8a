/**
 * People in plan: shoulders and head seen from above, joined as they are on a person, facing shown by the nose.
 *
 * Head and shoulders stand where the calculation's figure has them: the eye is 10 mm in front of the face; leaning,
 * the shoulders go about 0.7 of the way the head goes forward (both turn about the hips); seated, the trunk is
 * upright under the head. Breadths and depths of a typical adult: common practice, no source.
 */

import { planPlacement } from "../geometry/plan-placement.ts";
import { ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Person } from "../scene/scene.ts";
import type { Wording } from "../words/wording.ts";
import type { Depicted } from "./depicted.ts";
import { type Box, line, type Mark, text, textBox, textWidth } from "./drawing.ts";
import type { IslandAxes } from "./island-axes.ts";
import type { PlanPage } from "./plan-page.ts";
import type { SheetScale } from "./sheet-scale.ts";

/** Half depth and half breadth (m). */
const SHOULDERS = [0.12, 0.22] as const;
const HEAD = [0.096, 0.077] as const;
/** From the eye back to the middle of the head (m). */
const EYE_TO_HEAD = HEAD[0] + 0.01;
const SHOULDERS_FOLLOW = 0.7;
/** People further from the top than this are named instead of drawn, unless asked otherwise (m). */
const REACH = 0.8;
/** Height of a line that names them, and the size of its words (drawing units). */
const NAME_LINE = 18;
const NAME_SIZE = 11.5;

export interface PeopleOnPlan {
  /** On the light, in ink that reads there. */
  readonly over: readonly Mark[];
  /** Beside the top, in the sheet's ink. */
  readonly beside: readonly Mark[];
  /** What words keep clear of. */
  readonly taken: readonly Box[];
}

/** Room people need beyond the far and near edge of the top (drawing units). */
export interface RoomForPeople {
  readonly above: number;
  readonly below: number;
  /** Between the near edge and whoever stands nearest to it; without end where nobody does. */
  readonly clear: number;
  /** For the line that names those too far to be drawn, under everything else. */
  readonly names: number;
}
export const NO_ROOM: RoomForPeople = { above: 0, below: 0, clear: Number.POSITIVE_INFINITY, names: 0 };

type Place = Pick<PlanPage, "scene" | "axes" | "scale">;

interface Standing {
  readonly person: Person;
  readonly head: Vec2;
  readonly shoulders: Vec2;
  /** Direction faced, in the island's axes (rad). */
  readonly facing: number;
  /** How far the shoulders' near side is from the top across it (m), signed: above 0 beyond the far edge. */
  readonly beyond: number;
}

function standing(person: Person, axes: IslandAxes): Standing {
  const facing = person.facing - axes.turn;
  const eye = axes.toIsland(person.eye);
  const head: Vec2 = [eye[0] - EYE_TO_HEAD * Math.cos(facing), eye[1] - EYE_TO_HEAD * Math.sin(facing)];
  const feet = axes.toIsland(person.at);
  const follow = person.posture === "seated" ? 1 : SHOULDERS_FOLLOW;
  const shoulders: Vec2 = [feet[0] + follow * (head[0] - feet[0]), feet[1] + follow * (head[1] - feet[1])];
  const beyond = shoulders[1] > axes.width ? shoulders[1] - axes.width : shoulders[1] < 0 ? shoulders[1] : 0;
  return { person, head, shoulders, facing, beyond };
}

function isFar({ beyond }: Standing, reach: number): boolean {
  return Math.abs(beyond) + SHOULDERS[0] > reach;
}

/** Where words of the plan end: beside it stands the scale of light. */
function endOfWords({ width, right }: SheetScale): number {
  return Math.min(width, right + 8);
}

interface NamePlace {
  readonly x: number;
  /** Row from the top. */
  readonly row: number;
  /** Whether the words stand left of the mark, for want of room at its right. */
  readonly isLeft: boolean;
}

/** Where the names of those too far to be drawn stand: one row, and further ones where they would meet. */
function rowsOfNames(
  far: readonly Standing[],
  scale: SheetScale,
): { readonly count: number; readonly places: ReadonlyMap<Person, NamePlace> } {
  const ends: number[] = [];
  const edge = endOfWords(scale);
  const places = new Map<Person, NamePlace>();
  for (const { person, shoulders } of [...far].sort((a, b) => a.shoulders[0] - b.shoulders[0])) {
    const own = scale.x(shoulders[0]);
    // The longest way a distance is written.
    const width = textWidth(`${person.name}, 00'-00 00/00" from the near edge`, NAME_SIZE) + 10;
    const fitsRight = own + width <= edge;
    const isLeft = !fitsRight && own >= width;
    // Where neither side has room the mark gives way, so that no name is cut off.
    const x = fitsRight || isLeft ? own : Math.max(8, edge - width);
    const [from, to] = isLeft ? [x - width, x + 8] : [x - 8, x + width];
    const free = ends.findIndex((end) => end < from);
    const row = free < 0 ? ends.length : free;
    ends[row] = to;
    places.set(person, { x, row, isLeft });
  }
  return { count: ends.length, places };
}

/** Everyone whose place along the island is on the page. */
function shownPeople({ scene, axes, scale }: Place): Standing[] {
  return scene.people
    .map((person) => standing(person, axes))
    .filter(({ shoulders }) => shoulders[0] >= scale.from && shoulders[0] <= scale.to);
}

export function roomForPeople(
  place: Place,
  reach: number = REACH,
  cut: number = Number.POSITIVE_INFINITY,
): RoomForPeople {
  const { scale } = place;
  let above = 0;
  let below = 0;
  let clear = Number.POSITIVE_INFINITY;
  const far: Standing[] = [];
  for (const stands of shownPeople(place)) {
    const room = Math.min(cut, (Math.abs(stands.beyond) + SHOULDERS[0]) * scale.perMetre + 4);
    if (isFar(stands, reach)) far.push(stands);
    else if (stands.beyond > 0) above = Math.max(above, room);
    else if (stands.beyond < 0) {
      below = Math.max(below, room);
      clear = Math.min(clear, (-stands.beyond - SHOULDERS[0]) * scale.perMetre);
    }
  }
  return { above, below, clear, names: NAME_LINE * rowsOfNames(far, scale).count };
}

export function peopleOnPlan(plan: PlanPage, reach: number = REACH): PeopleOnPlan {
  const { axes, scale, frame, words } = plan;
  const over: Mark[] = [];
  const beside: Mark[] = [];
  const taken: Box[] = [];
  const m = scale.perMetre;
  const people = shownPeople(plan);
  const far = people.filter((stands) => isFar(stands, reach));
  const names = rowsOfNames(far, scale);
  for (const stands of far) {
    const place = names.places.get(stands.person);
    if (place === undefined) continue;
    const y = frame.height - 8 - NAME_LINE * (names.count - 1 - place.row);
    beside.push(...named(stands, place, y, words));
  }
  for (const stands of people) {
    if (isFar(stands, reach)) continue;
    const { person, head, shoulders, facing } = stands;
    // Page y grows downward, so angles turn the other way.
    const [c, s] = [Math.cos(-facing), Math.sin(-facing)];
    const onPage = ([along, across]: Vec2, [u, v]: Vec2): Vec2 => [
      scale.x(along) + (c * u - s * v) * m,
      frame.y(across) + (s * u + c * v) * m,
    ];
    const isOverTop = ([x, y]: Vec2): boolean => {
      const along = scale.along(x);
      return along > 0 && along < axes.length && y > frame.y(axes.width) && y < frame.y(0);
    };
    // Over the light in the ink that reads on it, beside it in the sheet's.
    const draw = (points: readonly Vec2[], depicts: Depicted): void => {
      for (const part of runs(points, (p) => !isOverTop(p))) over.push(line(part, depicts, "ink", 0.75));
      for (const part of runs(points, (p) => isOverTop(p) || isCut(p)))
        beside.push(line(part, depicts, "quiet", 0.75));
    };
    const isCut = ([, y]: Vec2): boolean => y < 1 || y > frame.height - 1;
    // What the head covers of the shoulders is not drawn through it.
    const [hx, hy] = [scale.x(head[0]), frame.y(head[1])];
    const covered = ([x, y]: Vec2): boolean => {
      const [dx, dy] = [(x - hx) / m, (y - hy) / m];
      const [u, v] = [c * dx + s * dy, c * dy - s * dx];
      return (u / HEAD[0]) ** 2 + (v / HEAD[1]) ** 2 < 1;
    };
    const trunk = ellipse(0, 0, SHOULDERS[0], SHOULDERS[1], 64).map((p) => onPage(shoulders, p));
    const outline = closed(trunk);
    for (const part of runs(outline, covered)) draw(part, "person");
    draw(closed(ellipse(0, 0, HEAD[0], HEAD[1], 48).map((p) => onPage(head, p))), "head");
    const nose = [
      [HEAD[0] - 0.005, -0.02],
      [HEAD[0] + 0.022, 0],
      [HEAD[0] - 0.005, 0.02],
    ] as const;
    draw(
      nose.map((p) => onPage(head, p)),
      "facing",
    );
    const box = { x: hx - 0.12 * m, y: hy - 0.12 * m, width: 0.24 * m, height: 0.24 * m };
    taken.push(box);
    // Beside the shoulders: on the light in ink, else in the margin.
    const half = (SHOULDERS[1] * Math.abs(s) + SHOULDERS[0] * Math.abs(c)) * m;
    const isLeft = scale.x(shoulders[0]) + half + 6 + textWidth(person.name, NAME_SIZE) > endOfWords(scale);
    const at: Vec2 = [
      scale.x(shoulders[0]) + (isLeft ? -1 : 1) * (half + 6),
      Math.max(12, Math.min(frame.height - 4, frame.y(shoulders[1]) + 4)),
    ];
    const isOnLight = isOverTop(at);
    const name = text(at, person.name, "person", {
      ink: isOnLight ? "ink" : "quiet",
      anchor: isLeft ? "end" : "start",
    });
    taken.push(textBox(name));
    (isOnLight ? over : beside).push(name);
  }
  return { over, beside, taken };
}

/** Who stands too far to be drawn: which way they face, their name, their distance from the top. */
function named(
  { person, facing, beyond }: Standing,
  { x, isLeft }: NamePlace,
  y: number,
  words: Wording,
): Mark[] {
  const chevron = (
    [
      [-3, -5],
      [4, 0],
      [-3, 5],
    ] as const
  ).map(planPlacement([x, y], -facing));
  const where = beyond > 0 ? "from the far edge" : "from the near edge";
  const label = `${person.name}, ${words.length(Math.abs(beyond))} ${where}`;
  return [
    line(chevron, "facing", "quiet", 1),
    text([x + (isLeft ? -10 : 10), y + 4], label, "person", {
      size: NAME_SIZE,
      anchor: isLeft ? "end" : "start",
    }),
  ];
}

function closed(points: readonly Vec2[]): Vec2[] {
  return [...points, points[0]];
}

/** The parts of a line outside what covers it, each unbroken, and up to the first covered point of it. */
function runs(points: readonly Vec2[], isCovered: (point: Vec2) => boolean): Vec2[][] {
  const parts: Vec2[][] = [];
  let part: Vec2[] = [];
  points.forEach((point, i) => {
    if (!isCovered(point)) {
      if (part.length === 0 && i > 0) part.push(points[i - 1]);
      part.push(point);
    } else if (part.length > 0) {
      parts.push([...part, point]);
      part = [];
    }
  });
  if (part.length > 1) parts.push(part);
  return parts;
}
