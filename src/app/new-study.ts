/**
 * A study to start from: one's own island under one's own ceiling, lit by a typical pendant. The command `new` writes every default out, so
 * that each can be seen in the file; the viewer leaves them out and marks them where they are set. Both ask it here.
 *
 * The room is the island with an aisle of 1.2 m (4 ft) all round; pendants and downlights are typical ones, from flux and beam, and say so.
 * All of it common practice, no source.
 */

import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import { type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { issueTexts, phrase } from "../diagnostics/phrase.ts";
import { bounds, rectangle } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { beamLuminaire } from "../luminaire/beam-luminaire.ts";
import { resolveStudyWith } from "../scene/resolve-with.ts";
import { EATING_DEPTH, sharedExtents } from "../scene/zones.ts";
import { checkStudy } from "../study/study.ts";
import { formatLength } from "../units/length-text.ts";
import { METRES_PER_INCH } from "../units/quantities.ts";

export interface NewStudy {
  readonly title?: string;
  /** Of the island's top (m). */
  readonly length: number;
  readonly width: number;
  /** Of the top above the floor (m); a default of the study when it is left out. */
  readonly height?: number;
  /** Height of the ceiling above the floor (m). */
  readonly ceilingHeight: number;
  /** Size of the room (m); an aisle all round the island by default. */
  readonly room?: { readonly length: number; readonly width: number };
  /** Middle of the island in the room (m); a default of the study when it is left out. */
  readonly centre?: readonly [number, number];
  readonly pendants?: number;
  /** Seats along the island's far side. */
  readonly seats?: number;
  readonly hob?: boolean;
  readonly sink?: boolean;
  readonly display?: { readonly length: "mm" | "m" | "ft-in"; readonly illuminance: "lx" | "fc" };
}

export const TYPICAL_KITCHEN: NewStudy = { length: 2.4, width: 1.1, ceilingHeight: 2.6, pendants: 3 };

/** The same in feet. */
export const TYPICAL_KITCHEN_FEET: NewStudy = {
  length: inches(96),
  width: inches(42),
  ceilingHeight: inches(102),
};

/** One pendant for so much of the island's length (m). */
const BAY = 0.8;
/** One downlight for so much of the room (m). */
const DOWNLIGHT_SPACING = 1.5;

/** Usual sizes of what is not asked for (m), each as it is made where people measure so; and the step that places are rounded to. */
interface UsualSizes {
  readonly step: number;
  readonly aisle: number;
  readonly hob: readonly [along: number, across: number];
  readonly sink: readonly [along: number, across: number];
  /** Least top between the near edge and what is let into it. */
  readonly frontEdge: number;
  readonly pendant: { readonly diameter: number; readonly height: number; readonly opening: number };
  readonly downlight: number;
  /** Set only where the study's own defaults are of the other system. */
  readonly topHeight?: number;
  readonly clearance?: number;
  readonly seat?: number;
}

const METRIC: UsualSizes = {
  step: 0.001,
  aisle: 1.2,
  hob: [0.6, 0.52],
  sink: [0.6, 0.4],
  frontEdge: 0.05,
  pendant: { diameter: 0.3, height: 0.22, opening: 0.26 },
  downlight: 0.08,
};
const FEET: UsualSizes = {
  step: inches(1 / 8),
  aisle: inches(48),
  hob: [inches(24), inches(20.5)],
  sink: [inches(24), inches(16)],
  frontEdge: inches(2),
  pendant: { diameter: inches(12), height: inches(9), opening: inches(10) },
  downlight: inches(3),
  topHeight: inches(36),
  clearance: inches(33),
  seat: inches(24),
};
// Their names say so wherever one is named: results of a search, tables of options, sheets.
const TYPICAL_PENDANT = "typical pendant";
const TYPICAL_DOWNLIGHT = "typical downlight";
const TYPICAL = "Typical, from flux and beam: replace it by the luminaire's own photometry.";

type Json = Record<string, unknown>;

/** The study's document, or what is wrong with the sizes, each at its place in the document. `written` says every default in it; `open` only
 * the zones, which are the study's to change. */
export function newStudy(sizes: NewStudy, defaults: "written" | "open" = "written"): Outcome<Json> {
  const document = starter(sizes);
  const checked = checkStudy(document);
  if (!checked.ok) return checked;
  const resolved = resolveStudyWith(
    checked.value,
    { photometry: new Map(), publishedTargets: PUBLISHED_TARGETS_BY_ID, buildBeam: beamLuminaire },
    () => {
      throw new Error("A starter names no shade.");
    },
  );
  if (!resolved.ok) return resolved;
  for (const { path, value } of resolved.value.defaults)
    if (defaults === "written" || path.startsWith("/island/zones"))
      writeDefault(document, path, value, usualSizes(sizes).step);
  return success(document, [...resolved.value.warnings, ...seatsAtTheHob(document)]);
}

/** On a narrow top who eats sits at the hob or the sink. */
function seatsAtTheHob({ island }: Json): Issue[] {
  const { zones = [], seats } = island as Json & { readonly zones?: readonly ZoneRectangle[] };
  const eating = zones.find(({ name }) => name === "eating");
  if (seats === undefined || eating === undefined) return [];
  const outlineOf = ({ from, size }: ZoneRectangle): Vec2[] => rectangle(...from, ...size);
  return zones
    .filter((zone) => ["cooking", "washing"].includes(zone.name))
    .flatMap((zone): Issue[] => {
      const [along, across] = sharedExtents(outlineOf(zone), outlineOf(eating));
      if (along <= 1e-3 || across <= 1e-3) return [];
      return [
        {
          code: "seats-at-the-hob",
          severity: "warning",
          ...issueTexts({
            message: phrase`The strip of the seats and ${zone.name} share ${across} of the depth: that light is judged as both.`,
            expected: "a wider top, fewer seats, or the zones moved apart",
          }),
          where: { path: "/island/zones" },
        },
      ];
    });
}

interface ZoneRectangle {
  readonly name: string;
  readonly from: readonly [number, number];
  readonly size: readonly [number, number];
}

/** Pendants over a top of a length (m), one for each bay. */
export function usualPendants(length: number): number {
  return Math.max(1, Math.round(length / BAY));
}

function usualSizes({ display }: NewStudy): UsualSizes {
  return display?.length === "ft-in" ? FEET : METRIC;
}

function starter(sizes: NewStudy): Json {
  const usual = usualSizes(sizes);
  const rounded = (metres: number): number => roundedTo(usual.step, metres);
  const { title, length, width, height, ceilingHeight, room, centre, pendants, seats, hob, sink, display } =
    sizes;
  const size = room ?? { length: length + 2 * usual.aisle, width: width + 2 * usual.aisle };
  const count = pendants ?? usualPendants(length);
  // Clear of the strip of the seats where the top is wide enough.
  const clear = (seats ?? 0) > 0 ? width - EATING_DEPTH : width;
  const fitting = ([along, across]: readonly [number, number], at: number) => ({
    from: [
      rounded(at - along / 2),
      rounded(Math.min((width - across) / 2, Math.max(usual.frontEdge, clear - across))),
    ],
    size: [along, across],
  });
  return {
    format: "candlespan-study",
    version: 1,
    title: title ?? "My kitchen",
    ...(display === undefined ? {} : { display }),
    room: { length: rounded(size.length), width: rounded(size.width), ceilingHeight },
    island: {
      ...(centre === undefined ? {} : { centre: centre.map(rounded) }),
      length,
      width,
      ...given("height", height ?? usual.topHeight),
      ...(hob === true ? { hob: fitting(usual.hob, length * 0.75) } : {}),
      ...(sink === true ? { sink: fitting(usual.sink, length * 0.25) } : {}),
      ...(seats === undefined || seats === 0
        ? {}
        : { seats: { side: "y+", count: seats, ...given("width", usual.seat) } }),
      // Called as beside a hob: by what is done there, whatever else the top may get.
      ...(hob === true || sink === true || (seats ?? 0) > 0
        ? {}
        : { zones: [{ name: "prep", from: [0, 0], size: [length, width], target: "preparation" }] }),
    },
    luminaires: {
      [TYPICAL_PENDANT]: {
        beam: { flux: 1000, angle: 90 },
        opening: { diameter: usual.pendant.opening },
        body: { profile: "dome", diameter: usual.pendant.diameter, height: usual.pendant.height },
        watts: 10,
        note: TYPICAL,
      },
      [TYPICAL_DOWNLIGHT]: {
        beam: { flux: 650, angle: 60 },
        opening: { diameter: usual.downlight },
        watts: 7,
        note: TYPICAL,
      },
    },
    arrangements: [
      {
        name: `${count} ${count === 1 ? "pendant" : "pendants"}`,
        layers: [
          {
            name: "pendants",
            role: "pendant",
            luminaire: TYPICAL_PENDANT,
            row: { count, ...given("clearance", usual.clearance) },
          },
          {
            name: "ambient",
            role: "recessed",
            luminaire: TYPICAL_DOWNLIGHT,
            grid: downlightGrid(size),
          },
        ],
      },
    ],
  };
}

/** Downlights in the ceiling of a room of this size (m). */
export function downlightGrid({ length, width }: NonNullable<NewStudy["room"]>): {
  columns: number;
  rows: number;
} {
  return {
    columns: Math.max(2, Math.round(length / DOWNLIGHT_SPACING)),
    rows: Math.max(2, Math.round(width / DOWNLIGHT_SPACING)),
  };
}

function given<K extends string>(key: K, value: number | undefined): { readonly [key in K]?: number } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [key in K]?: number });
}

function inches(count: number): number {
  return count * METRES_PER_INCH;
}

function roundedTo(step: number, metres: number): number {
  return plainNumber(Math.round(metres / step) * step);
}

/** A document's text, numbers to a millionth: 9 ft is 2.7432 m to whoever reads it. */
export function documentText(document: unknown): string {
  const plain = (_: string, value: unknown): unknown =>
    typeof value === "number" ? plainNumber(value) : value;
  return `${JSON.stringify(document, plain, 2)}\n`;
}

/** What of a started study is a length, alone or in a list. */
const LENGTHS: ReadonlySet<string> = new Set([
  ...["length", "width", "height", "ceilingHeight", "centre", "from", "size"],
  ...["diameter", "spacing", "clearance"],
]);
const DENOMINATOR = 16;

/** A started study with its lengths as feet and inches, which its owner can edit: those that are no whole sixteenth of an inch stay metres. */
export function inFeet(document: Json): Json {
  const text = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(text);
    if (typeof value !== "number" || value === 0) return value;
    const parts = (value / METRES_PER_INCH) * DENOMINATOR;
    return Math.abs(parts - Math.round(parts)) < 1e-3 ? formatLength(value, "ft-in", DENOMINATOR) : value;
  };
  const walked = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(walked);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, each]) => [key, LENGTHS.has(key) ? text(each) : walked(each)]),
    );
  };
  return walked(document) as Json;
}

/** A default put where the document would say it. Left alone: what stands for several keys at once (grids, half a spacing of a grid, whose
 * two margins are no one number), and places inside what is not there. */
function writeDefault(document: Json, path: string, value: unknown, step: number): void {
  if (path === "/planes" || path.endsWith("/margin")) return;
  const keys = path.split("/").slice(1);
  if (keys[0] === "island" && keys[1] === "zones") {
    const island = document.island as Json;
    island.zones = [...((island.zones as unknown[] | undefined) ?? []), zoneOf(value, step)];
    return;
  }
  let holder: unknown = document;
  for (const key of keys.slice(0, -1)) {
    if (typeof holder !== "object" || holder === null) return;
    const inner = holder as Json;
    inner[key] ??= {};
    holder = inner[key];
  }
  if (typeof holder === "object" && holder !== null)
    (holder as Json)[keys[keys.length - 1]] = typeof value === "number" ? plainNumber(value) : value;
}

/** To a millionth: 2.4 m / 3 is 0.8 m to whoever reads it. */
function plainNumber(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

/** As a rectangle, which is how a zone is edited: every default zone is one. */
function zoneOf(value: unknown, step: number): unknown {
  const { polygon, ...zone } = value as Json & { readonly polygon: readonly (readonly [number, number])[] };
  const [x0, y0, x1, y1] = bounds(polygon).map((edge) => roundedTo(step, edge));
  return { ...zone, from: [x0, y0], size: [roundedTo(step, x1 - x0), roundedTo(step, y1 - y0)] };
}
