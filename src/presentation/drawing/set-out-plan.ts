/**
 * The set-out plan: the ceiling as seen from above, drawn over the floor plan (not mirrored), so that cabinets and
 * island stay where one stands beside them. Every box with its tag; running strings from one datum below and on
 * the left. Room coordinates: x to the right, y up the page, the room's corner (0, 0) at the drawing's origin.
 */

import { printable } from "../../diagnostics/printable.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { planExtents } from "../../luminaire/extent.ts";
import { basePieces, islandToRoom } from "../../scene/island.ts";
import type { Scene, SolidBody } from "../../scene/scene.ts";
import { wallFrame } from "../../scene/surfaces.ts";
import { degrees } from "../../units/quantities.ts";
import type { SetOut, SetOutBox, SetOutString } from "../schedule/set-out.ts";
import { BOX_WIDTH } from "../schedule/suspension.ts";
import { type Box, line, type Mark, overlaps, text } from "./drawing.ts";
import { circle, type PaperMark, type ScaledView } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING, runningString, stringDepth } from "./running-string.ts";

const TAG = 8;
/** Thickness walls are drawn with (m): none is known; only the finished face is true. */
const WALL = 0.1;
/** From the finished face to the first string, and from string to string (points). */
const FIRST_LANE = 16;

export interface PlanWords {
  /** A dimension (m) as printed on the sheet. */
  dimension(metres: number): string;
}

/** Points the strings and walls take on the left and below, beyond the finished faces. */
export function planMargins(
  setOut: SetOut,
  words: PlanWords,
  perMetre: number,
): { readonly left: number; readonly below: number; readonly edge: number } {
  const lane = laneWidth(setOut, words);
  const lanes = (axis: "x" | "y"): number => setOut.strings.filter((string) => string.axis === axis).length;
  const edge = WALL * perMetre;
  return { left: edge + FIRST_LANE + lane * lanes("y"), below: edge + FIRST_LANE + lane * lanes("x"), edge };
}

function laneWidth({ strings }: SetOut, words: PlanWords): number {
  return Math.max(...strings.map(({ dims }) => stringDepth(dims.positions.map(words.dimension))));
}

export function setOutPlan(scene: Scene, setOut: SetOut, perMetre: number, words: PlanWords): ScaledView {
  const at = ([x, y]: Vec2): Vec2 => [x * perMetre, -y * perMetre];
  const taken: Box[] = setOut.boxes.map((box) => {
    const [x, y] = at(box.at);
    const reach = symbolRadius(box, perMetre);
    return { x: x - reach, y: y - reach, width: 2 * reach, height: 2 * reach };
  });
  const [lines, figures] = strings(scene, setOut, perMetre, words);
  const boxes = setOut.boxes.flatMap((box, i) => boxMarks(scene, box, at, perMetre, taken, i));
  const marks: PaperMark[] = [
    ...joists(scene, at),
    ...cabinets(scene, at),
    ...island(scene, at),
    ...keepOuts(scene, at),
    ...lines,
    ...walls(scene, at),
    ...boxes,
    ...slope(scene, at, taken),
    ...names(scene, at, taken),
    ...datum(),
    ...figures,
  ];
  return { marks, origin: [0, 0], perMetre };
}

function walls(scene: Scene, at: (p: Vec2) => Vec2): Mark[] {
  const { length: L, width: W, openings = [] } = scene.room;
  const ring = (d: number): Vec2[] =>
    (
      [
        [-d, -d],
        [L + d, -d],
        [L + d, W + d],
        [-d, W + d],
      ] as Vec2[]
    ).map(at);
  const marks: Mark[] = [
    line(ring(0), "wall, finished face", "ink", 1.5, { closed: true }),
    line(ring(WALL), "wall", "quiet", 0.75, { closed: true }),
  ];
  for (const { wall, from, length } of openings) {
    const { corner, direction, normal } = wallFrame(scene.room, wall);
    const point = (along: number, out: number): Vec2 =>
      at([
        corner[0] + direction[0] * along - normal[0] * out,
        corner[1] + direction[1] * along - normal[1] * out,
      ]);
    marks.push(
      line(
        [point(from, 0), point(from + length, 0), point(from + length, WALL), point(from, WALL)],
        "opening",
        "ink",
        0.75,
        {
          closed: true,
          fill: "sheet",
        },
      ),
      line([point(from, WALL / 2), point(from + length, WALL / 2)], "opening", "ink", 0.75),
    );
  }
  return marks;
}

/** Cabinets on the floor in thin lines; what hangs above the worktop dashed, as it is over the plane of the cut. */
function cabinets(scene: Scene, at: (p: Vec2) => Vec2): Mark[] {
  return (scene.bodies ?? []).map((body) =>
    line(body.outline.map(at), "cabinet", "quiet", 0.75, {
      closed: true,
      ...(isOverhead(body) ? { dash: "dashed" as const } : {}),
    }),
  );
}

function isOverhead({ bottom }: SolidBody): boolean {
  return bottom > 1.2;
}

/** Names of cabinets and walls, each at the first of several places where nothing else is written. */
function names(scene: Scene, at: (p: Vec2) => Vec2, taken: Box[]): Mark[] {
  const marks: Mark[] = [];
  const put = (words: string, depicts: string, places: readonly Vec2[], turn?: number): void => {
    const w = paperTextWidth(words, LETTERING);
    const boxAt = ([x, y]: Vec2): Box =>
      turn === undefined
        ? { x: x - w / 2, y: y - LETTERING * 0.8, width: w, height: LETTERING }
        : { x: x - LETTERING * 0.8, y: y - w / 2, width: LETTERING, height: w };
    const place = places.find((p) => !taken.some((other) => overlaps(boxAt(p), other, 1)));
    if (place === undefined) return;
    taken.push(boxAt(place));
    marks.push(
      text(place, words, depicts, { anchor: "middle", size: LETTERING, ink: "quiet", ground: "sheet", turn }),
    );
  };
  for (const body of scene.bodies ?? []) {
    const outline = body.outline.map(at);
    const xs = outline.map((p) => p[0]);
    const ys = outline.map((p) => p[1]);
    const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const y = [(y0 + y1) / 2 + 2.5, y1 - 3, y0 + 9];
    put(
      printable(body.name, 28),
      "cabinet name",
      y.flatMap((row) => [0.5, 0.3, 0.7, 0.2, 0.8].map((t): Vec2 => [x0 + t * (x1 - x0), row])),
    );
  }
  const { island: top } = scene;
  if (top !== undefined) {
    const half = paperTextWidth("CL island", LETTERING) / 2 + 3;
    const end = (along: number, side: number): Vec2 => {
      const [x, y] = at(islandToRoom(top, [along, top.width / 2]));
      return [x + side * half * Math.cos(top.turn), y - side * half * Math.sin(top.turn) + 2.4];
    };
    put("CL island", "centreline name", [
      end(top.length + 0.14, 1),
      end(-0.14, -1),
      end(top.length + 0.5, 1),
      end(-0.5, -1),
    ]);
  }
  const { length: L, width: W } = scene.room;
  for (let wall = 0; wall < 4; wall++) {
    const { corner, direction, normal, length } = wallFrame({ ...scene.room, length: L, width: W }, wall);
    const upright = direction[0] === 0;
    const places = [0.5, 0.25, 0.75, 0.12, 0.88].map((t): Vec2 => {
      const [x, y] = at([corner[0] + direction[0] * length * t, corner[1] + direction[1] * length * t]);
      return [x + normal[0] * 8 + (upright ? 2.4 : 0), y - normal[1] * 8 + (upright ? 0 : 2.4)];
    });
    put(`wall ${wall}`, "wall name", places, upright ? -90 : undefined);
  }
  return marks;
}

function middle(points: readonly Vec2[]): Vec2 {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
}

function island({ island: top }: Scene, at: (p: Vec2) => Vec2): Mark[] {
  if (top === undefined) return [];
  const room = (p: Vec2): Vec2 => at(islandToRoom(top, p));
  const marks: Mark[] = [line(top.outline.map(room), "island top", "ink", 1.5, { closed: true })];
  if (top.overhang !== undefined)
    for (const piece of basePieces(top))
      marks.push(line(piece.map(room), "island base", "quiet", 0.75, { closed: true, dash: "dashed" }));
  for (const { outline } of top.levels)
    marks.push(line(outline.map(room), "island level", "quiet", 0.75, { closed: true }));
  for (const outline of [top.hob, top.sink])
    if (outline !== undefined)
      marks.push(line(outline.map(room), "island fitting", "quiet", 0.75, { closed: true }));
  const [a, b] = [room([-0.14, top.width / 2]), room([top.length + 0.14, top.width / 2])];
  marks.push(line([a, b], "centreline of island", "ink", 0.75, { dash: "eye line" }));
  return marks;
}

function joists(scene: Scene, at: (p: Vec2) => Vec2): Mark[] {
  const { joists: grid, length, width } = scene.room;
  if (grid === undefined) return [];
  const far = grid.along === "x" ? width : length;
  const marks: Mark[] = [];
  for (let k = 0; k < 200 && grid.first + k * grid.spacing <= far + 1e-9; k++) {
    const c = grid.first + k * grid.spacing;
    const ends: Vec2[] =
      grid.along === "x"
        ? [
            [0, c],
            [length, c],
          ]
        : [
            [c, 0],
            [c, width],
          ];
    marks.push(line(ends.map(at), "joist centreline", "hairline", 0.75, { dash: "dotted" }));
  }
  return marks;
}

function keepOuts(scene: Scene, at: (p: Vec2) => Vec2): PaperMark[] {
  return (scene.room.keepOuts ?? []).flatMap(({ name, outline }): PaperMark[] => {
    const ring = outline.map(at);
    const [x, y] = middle(ring);
    return [
      { kind: "area", rings: [ring], hatch: true, depicts: "keep-out" },
      line(ring, "keep-out", "ink", 0.75, { closed: true }),
      text([x, y + 2.5], printable(name, 28), "keep-out name", {
        anchor: "middle",
        size: LETTERING,
        ink: "ink",
        ground: "sheet",
      }),
    ];
  });
}

/** Which way the ceiling rises: an arrow through free paper, with its angle. Heights at the walls are in the notes. */
function slope({ room }: Scene, at: (p: Vec2) => Vec2, taken: Box[]): Mark[] {
  if (room.slope === 0) return [];
  const [dx, dy] = [Math.cos(room.towards), -Math.sin(room.towards)];
  const half = 22;
  const words = `rises ${Number(degrees(room.slope).toFixed(1))}°`;
  const width = paperTextWidth(words, LETTERING);
  const boxAt = ([x, y]: Vec2): Box => ({
    x: x - Math.max(width / 2, half * Math.abs(dx)) - 2,
    y: y - half * Math.abs(dy) - LETTERING - 4,
    width: 2 * Math.max(width / 2, half * Math.abs(dx)) + 4,
    height: 2 * half * Math.abs(dy) + LETTERING + 8,
  });
  const places = [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((t) =>
    [0.28, 0.72, 0.5, 0.14, 0.86].map((u) => at([room.length * t, room.width * u])),
  );
  const free = (p: Vec2): boolean => !taken.some((other) => overlaps(boxAt(p), other, 1));
  const [x, y] = places.find(free) ?? places[0];
  taken.push(boxAt([x, y]));
  const [a, b]: Vec2[] = [
    [x - half * dx, y - half * dy],
    [x + half * dx, y + half * dy],
  ];
  const angle = Math.atan2(dy, dx);
  const barb = (turn: number): Vec2 => [b[0] - 7 * Math.cos(angle + turn), b[1] - 7 * Math.sin(angle + turn)];
  return [
    line([a, b], "slope", "ink", 1),
    line([barb(0.35), b, barb(-0.35)], "slope", "ink", 1),
    text([x, y - half * Math.abs(dy) - 3], words, "slope", {
      size: LETTERING,
      ink: "ink",
      anchor: "middle",
      ground: "sheet",
    }),
  ];
}

/** What a box's symbol and body cover around its centre (points). */
function symbolRadius(box: SetOutBox, perMetre: number): number {
  const extent = Math.max(...planExtents(box.luminaire)) / 2;
  return box.hangs
    ? Math.max(4, (BOX_WIDTH / 2) * perMetre, Math.min(extent, 0.3) * perMetre)
    : Math.max(3.4, extent * perMetre);
}

function boxMarks(
  scene: Scene,
  box: SetOutBox,
  at: (p: Vec2) => Vec2,
  perMetre: number,
  taken: Box[],
  own: number,
): PaperMark[] {
  const centre = at(box.at);
  const [length, width] = planExtents(box.luminaire);
  const symbol = Math.max(4, (BOX_WIDTH / 2) * perMetre);
  const marks: PaperMark[] = [];
  if (box.hangs) {
    const { rotation } = scene.layers[box.layer].luminaires[box.index].frame;
    const heading = Math.atan2(rotation[1], rotation[0]);
    const body = box.luminaire.body;
    if (Math.abs(length - width) < 1e-6 && body?.profile !== "box")
      marks.push(circle(centre, Math.max(symbol, (length / 2) * perMetre), "pendant body", { weight: 1 }));
    else {
      const [c, s] = [Math.cos(heading), Math.sin(heading)];
      const corner = (u: number, v: number): Vec2 => {
        const [a, b] = [(u * Math.max(length, 0.06)) / 2, (v * Math.max(width, 0.06)) / 2];
        return at([box.at[0] + c * a - s * b, box.at[1] + s * a + c * b]);
      };
      marks.push(
        line([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], "pendant body", "ink", 1, {
          closed: true,
        }),
      );
    }
    marks.push(
      circle(centre, symbol, "pendant box", { weight: 1, fill: "sheet" }),
      line(
        [
          [centre[0] - symbol, centre[1]],
          [centre[0] + symbol, centre[1]],
        ],
        "pendant cross",
        "ink",
        0.75,
      ),
      line(
        [
          [centre[0], centre[1] - symbol],
          [centre[0], centre[1] + symbol],
        ],
        "pendant cross",
        "ink",
        0.75,
      ),
    );
  } else {
    const radius = Math.max(3.4, (Math.max(length, width) / 2) * perMetre);
    marks.push(
      circle(centre, radius, "recessed box", { weight: 1, fill: "sheet" }),
      circle(centre, radius / 2, "recessed ring", { weight: 0.75 }),
    );
  }
  const { circuit } = scene.layers[box.layer];
  const words = `${box.tag}${circuit === undefined ? "" : ` · ${printable(circuit, 8)}`}`;
  const reach = Math.max(symbol, box.hangs ? (Math.max(length, width) / 2) * perMetre : 0) + 2;
  const size = box.hangs ? TAG : LETTERING;
  const w = paperTextWidth(words, size, box.hangs);
  const d = reach * 0.72;
  const places: readonly (readonly [Vec2, "start" | "middle" | "end"])[] = [
    [[centre[0] + d, centre[1] - d], "start"],
    [[centre[0] - d, centre[1] - d], "end"],
    [[centre[0] + d, centre[1] + d + size * 0.7], "start"],
    [[centre[0] - d, centre[1] + d + size * 0.7], "end"],
    [[centre[0], centre[1] - reach - 2], "middle"],
    [[centre[0], centre[1] + reach + size], "middle"],
  ];
  const boxOf = ([[x, y], anchor]: (typeof places)[number]): Box => ({
    x: x - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0),
    y: y - size * 0.8,
    width: w,
    height: size,
  });
  const place =
    places.find((each) => !taken.some((other, k) => k !== own && overlaps(boxOf(each), other, 1))) ??
    places[0];
  taken.push(boxOf(place));
  marks.push(
    text(place[0], words, "tag", { anchor: place[1], size, strong: box.hangs, ink: "ink", ground: "sheet" }),
  );
  return marks;
}

function datum(): PaperMark[] {
  return [
    circle([0, 0], 5, "datum", { weight: 1, fill: "sheet" }),
    line(
      [
        [-8, 0],
        [8, 0],
      ],
      "datum",
      "ink",
      0.75,
    ),
    line(
      [
        [0, -8],
        [0, 8],
      ],
      "datum",
      "ink",
      0.75,
    ),
    text([-9, 14], "DATUM 0", "datum", { anchor: "end", size: LETTERING, strong: true, ink: "ink" }),
  ];
}

function strings(
  scene: Scene,
  setOut: SetOut,
  perMetre: number,
  words: PlanWords,
): readonly [lines: PaperMark[], figures: PaperMark[]] {
  const lane = laneWidth(setOut, words);
  const lines: PaperMark[] = [];
  const figures: PaperMark[] = [];
  for (const axis of ["x", "y"] as const) {
    setOut.strings
      .filter((string) => string.axis === axis)
      .forEach(({ what, stations, dims }, k) => {
        const far = axis === "x" ? scene.room.length : scene.room.width;
        const exact = [0, ...stations, far];
        const made = runningString({
          axis,
          places: exact.map((metres) => metres * perMetre),
          texts: dims.positions.map(words.dimension),
          offset: WALL * perMetre + FIRST_LANE + k * lane,
          reach: (i) =>
            i === 0 || i === exact.length - 1 ? -3 : nearest(scene, setOut, what, axis, exact[i]) * perMetre,
          name: what === "island" ? "island top" : what,
          depicts: `dimension ${what} ${axis}`,
        });
        lines.push(...made.lines);
        figures.push(...made.figures);
      });
  }
  return [lines, figures];
}

/** How far into the room (m) an extension line reaches: to the nearest of what it dimensions. */
function nearest(
  scene: Scene,
  setOut: SetOut,
  what: SetOutString["what"],
  axis: "x" | "y",
  station: number,
): number {
  const [a, b] = axis === "x" ? [0, 1] : [1, 0];
  const places: readonly Vec2[] =
    what === "island"
      ? (scene.island?.outline ?? []).map((p) =>
          islandToRoom(scene.island as NonNullable<Scene["island"]>, p),
        )
      : setOut.boxes.filter((box) => box.hangs === (what === "pendants")).map((box) => box.at);
  const there = places.filter((p) => Math.abs(p[a] - station) < 0.004).map((p) => p[b]);
  return there.length === 0 ? 0 : Math.max(0, Math.min(...there));
}
