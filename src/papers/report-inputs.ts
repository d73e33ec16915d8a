/** What went into the calculation, in the study's unit: whoever has it can run it again. */

import { loadReport } from "../advice/load.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Block, bullet, heading } from "../drawing/paper/flow.ts";
import { column, endColumn } from "../drawing/paper/table.ts";
import { orientationOf } from "../geometry/frame.ts";
import { area, bounds, type Polygon } from "../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { EVIDENCE } from "../luminaire/evidence.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import type { CalculationPlane } from "../scene/calculation-plane.ts";
import type { Island, Person, RoomShape, Scene, SolidBody } from "../scene/scene.ts";
import { degrees } from "../units/quantities.ts";
import { chosenOption, type Handover, type HandoverWords } from "./handover.ts";
import { SIZE, table } from "./report-style.ts";

export function inputs(handover: Handover, words: HandoverWords): Block[] {
  const { scene } = chosenOption(handover);
  const { room, island, bodies = [], people } = scene;
  const types = [...new Set(handover.options.flatMap((option) => luminairesOf(option.scene)))];
  return [
    heading("5  What went in", 12),
    bullet(
      "Places in the room are x from wall 3 and y from wall 0; on the island along and across from its left near corner.",
      SIZE,
    ),
    ...[
      ...roomWords(room, words),
      ...(island === undefined ? [] : islandWords(island, words)),
      ...bodies.map((body) => bodyWords(body, words)),
      ...scene.zones.map(
        (zone) =>
          `Zone ${printable(zone.name, 40)} of the top: ${extentWords(zone.outline, words)}, ${words.length(zone.height)} above the floor.`,
      ),
      ...scene.planes.flatMap((plane) => planeWords(plane, words)),
      ...people.map((person) => personWords(person, words)),
      reflectanceWords(scene),
      `Maintenance factor ${scene.maintenance.toFixed(2)} on every figure called maintained.`,
    ].map((line) => bullet(line, SIZE)),
    luminaireTable(handover, types, words),
    placesTable(handover, words),
    ...loadReport(scene).remarks.map((remark) => bullet(printable(remark, 300), SIZE)),
  ];
}

const WAYS = ["wall 1", "wall 2", "wall 3", "wall 0"];

/** `towards wall 2`, or an angle where no wall is that way. */
function risingWords(towards: number): string {
  const turn = ((degrees(towards) % 360) + 360) % 360;
  const quarter = Math.round(turn / 90);
  return Math.abs(turn - 90 * quarter) < 0.05
    ? `towards ${WAYS[quarter % 4]}`
    : `towards ${Number(turn.toFixed(1))}° counter-clockwise from +x`;
}

function roomWords(room: RoomShape, words: HandoverWords): string[] {
  const { length: say } = words;
  const { openings = [], doors = [], joists, ceilingBox, ceilingVoid, keepOuts = [] } = room;
  return [
    `Room ${say(room.length)} × ${say(room.width)}, ceiling ${say(room.ceilingHeight)}${room.slope === 0 ? ", flat" : ` at its lowest, rising ${Number(degrees(room.slope).toFixed(2))}° ${risingWords(room.towards)}`}.`,
    ...openings.map(
      ({ name, wall, from, length, sill, height }) =>
        `${printable(name, 40)} in wall ${wall}: ${say(from)} from its corner with wall ${(wall + 3) % 4}, ${say(length)} wide, sill ${say(sill)}, ${say(height)} high.`,
    ),
    ...doors.map(
      ({ name, wall, from, width, height, swing }) =>
        `${printable(name, 40)} in wall ${wall}: ${say(from)} from its corner with wall ${(wall + 3) % 4}, ${say(width)} wide, ${say(height)} high, swing ${swing}.`,
    ),
    ...(joists === undefined
      ? []
      : [
          `Joists along ${joists.along}: the first at ${say(joists.first)}, every ${say(joists.spacing)}${joists.width === undefined ? "" : `, ${say(joists.width)} wide`}.`,
        ]),
    ...(ceilingVoid === undefined ? [] : [`Above the ceiling ${say(ceilingVoid)} clear.`]),
    ...(ceilingBox === undefined ? [] : [`Boxes in the ceiling ${say(ceilingBox)} wide.`]),
    ...keepOuts.map(
      ({ name, outline }) => `No box at ${printable(name, 40)}: ${extentWords(outline, words, ROOM)}.`,
    ),
  ];
}

const ENDS = { "x-": "left end", "x+": "right end", "y-": "near side", "y+": "far side" } as const;

function islandWords(island: Island, words: HandoverWords): string[] {
  const { length: say } = words;
  const { centre, turn, overhang, levels, basin, hob, sink, seats, outline } = island;
  const parts = [
    ...(isRectangle(outline) ? [] : [`outline ${cornerWords(outline, words)}`]),
    ...(overhang === undefined ? [] : [`overhanging ${say(overhang.depth)} at the ${ENDS[overhang.side]}`]),
    ...levels.map((level) => `raised to ${say(level.height)} at ${extentWords(level.outline, words)}`),
    ...(hob === undefined ? [] : [`hob ${extentWords(hob, words)}`]),
    ...(sink === undefined ? [] : [`sink ${extentWords(sink, words)}`]),
    ...(basin === undefined ? [] : [`floor of the basin ${say(basin.floor)} above the floor`]),
    ...(seats === undefined
      ? []
      : [
          `${seats.count === 1 ? "1 seat" : `${seats.count} seats, each`} ${say(seats.width)} wide, at the ${ENDS[seats.side]}`,
        ]),
  ];
  return [
    `Island ${say(island.length)} × ${say(island.width)}, top at ${say(island.height)}, ${say(island.topThickness)} thick, centre at ${say(centre[0])}, ${say(centre[1])}${turn === 0 ? "" : `, turned ${Number(degrees(turn).toFixed(2))}° counter-clockwise`}; finish ${island.finish}.`,
    ...parts.map((part) => `Island: ${part}.`),
  ];
}

function bodyWords({ name, outline, bottom, top }: SolidBody, words: HandoverWords): string {
  return `Body ${printable(name, 40)}: ${extentWords(outline, words, ROOM)}, from ${words.length(bottom)} to ${words.length(top)} above the floor.`;
}

function planeWords({ name, role, target, grid }: CalculationPlane, words: HandoverWords): string[] {
  if (role !== "user" || grid === undefined) return [];
  const { corner, u, v } = grid;
  const place = (p: Vec3): string => p.map(words.length).join(", ");
  const to: Vec3 = [corner[0] + u[0] + v[0], corner[1] + u[1] + v[1], corner[2] + u[2] + v[2]];
  return [
    `Plane ${printable(name, 40)}: from ${place(corner)} to ${place(to)} (x, y, height), ${grid.columns} × ${grid.rows} cells${target === undefined ? "" : ", judged"}.`,
  ];
}

function personWords(
  { name, stature, posture, at, facing, age, hand }: Person,
  words: HandoverWords,
): string {
  const more = [age === undefined ? [] : `${age} years`, hand === undefined ? [] : `${hand}-handed`].flat();
  return `${printable(name, 40)}: ${words.length(stature)} tall, ${posture} at ${at.map(words.length).join(", ")}, facing ${(Math.round(degrees(facing)) + 360) % 360}° from +x${more.map((each) => `, ${each}`).join("")}.`;
}

const TOP = ["along", "across"] as const;
const ROOM = ["x", "y"] as const;

/** `along 0 mm to 1200 mm, across 0 mm to 900 mm`; corner by corner what is no upright rectangle. */
function extentWords(
  outline: Polygon,
  words: HandoverWords,
  [first, second]: typeof TOP | typeof ROOM = TOP,
): string {
  if (!isRectangle(outline)) return cornerWords(outline, words);
  const range = (axis: 0 | 1): string => {
    const values = outline.map((p) => p[axis]);
    return `${words.length(Math.min(...values))} to ${words.length(Math.max(...values))}`;
  };
  return `${first} ${range(0)}, ${second} ${range(1)}`;
}

function cornerWords(outline: Polygon, words: HandoverWords): string {
  return outline.map((corner: Vec2) => `(${corner.map(words.length).join(", ")})`).join(" ");
}

/** Whether an outline fills its own bounding box (to 1 mm²). */
function isRectangle(outline: Polygon): boolean {
  const [x0, y0, x1, y1] = bounds(outline);
  return Math.abs((x1 - x0) * (y1 - y0) - area([outline])) < 1e-6;
}

function reflectanceWords({ surfaces }: Scene): string {
  const reflectances = new Map<string, Set<string>>();
  for (const { part, name, reflectance } of surfaces) {
    const label = part === "body" || part === "opening" ? printable(name, 30) : part;
    reflectances.set(label, (reflectances.get(label) ?? new Set()).add(reflectance.toFixed(2)));
  }
  return `Diffuse reflectances: ${[...reflectances].map(([name, values]) => `${name} ${[...values].join("/")}`).join(", ")}.`;
}

function luminaireTable({ lamps }: Handover, types: readonly Luminaire[], words: HandoverWords): Block {
  return table(types, [
    column("luminaire", 1.2, ({ name }) => printable(name, 40)),
    endColumn("flux, lm", 0.7, ({ flux }) => flux.toFixed(0)),
    endColumn("rated, lm", 0.7, ({ ratedFlux }) => ratedFlux?.toFixed(0) ?? "–"),
    endColumn("power, W", 0.7, ({ watts }) =>
      watts === undefined ? "–" : `${Number(watts.toPrecision(3))}`,
    ),
    column("light leaves from", 1.7, ({ emission }) => openingWords(emission.opening, words)),
    column("evidence and its band", 1.7, ({ evidence }) => evidenceWords(evidence)),
    column("source", 2, ({ name, origin }) => {
      const shade = lamps.get(name)?.shade;
      return `${printable(origin, 160)}${shade === undefined ? "" : `; ${printable(shade, 120)}`}`;
    }),
  ]);
}

function placesTable(handover: Handover, words: HandoverWords): Block {
  const rows = handover.options.flatMap(({ scene: { letter, layers } }) =>
    layers.map((layer) => ({ letter, ...layer })),
  );
  return table(rows, [
    column("option", 0.75, ({ letter }) => letter),
    column("layer", 1.2, ({ name }) => printable(name, 30)),
    column("luminaire", 1.2, ({ luminaires }) =>
      [...new Set(luminaires.map(({ luminaire }) => printable(luminaire.name, 30)))].join(", "),
    ),
    endColumn("count", 0.5, ({ luminaires }) => `${luminaires.length}`),
    endColumn("level", 0.6, ({ dim }) => `${Math.round(dim * 100)} %`),
    column(
      "places: x, y, height of the photometric centre",
      5,
      ({ luminaires }) =>
        luminaires
          .slice(0, 24)
          .map(({ frame }) => frame.origin.map(words.dimension).join(", "))
          .join("; ") +
        (luminaires.length > 24 ? "; and more, see the tables of boxes" : "") +
        leanWords(luminaires),
    ),
  ]);
}

/** `; tilted 15° from plumb`, as what lies in a slope or is aimed. */
function leanWords(luminaires: readonly PlacedLuminaire[]): string {
  const tilts = luminaires.map(({ frame }) => Number(degrees(orientationOf(frame.rotation).tilt).toFixed(1)));
  const [least, most] = [Math.min(...tilts), Math.max(...tilts)];
  if (luminaires.length === 0 || most === 0) return "";
  return `; tilted ${least === most ? "" : `${least}° to `}${most}° from plumb`;
}

function luminairesOf(scene: Scene): Luminaire[] {
  return scene.layers.flatMap(({ luminaires }) => luminaires.map(({ luminaire }) => luminaire));
}

function openingWords(
  { shape, length, width, height }: Luminaire["emission"]["opening"],
  words: HandoverWords,
): string {
  return shape === "point"
    ? "a point"
    : `${shape} ${words.dimension(length)}${shape === "disc" && Math.abs(length - width) < 0.0005 ? " across" : ` × ${words.dimension(width)}`}${height > 0 ? ` × ${words.dimension(height)}` : ""}`;
}

function evidenceWords(evidence: Luminaire["evidence"]): string {
  const { words, band } = EVIDENCE[evidence];
  const [down, up] = band.map((share) => Math.round(share * 100));
  return `${words}, ${down === up ? `±${up}` : `−${down} +${up}`} %`;
}
