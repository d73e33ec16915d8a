/**
 * Readings of a meter on site: where, what was lit, how much.
 *
 * Columns, in any order: `along` and `across` (from the island's corner) or `x` and `y` (room), perhaps `z`; `lx` or
 * `fc`; perhaps `lit`: layers joined by +, each perhaps dimmed (`pendants@0.5+ambient`), `all` or `none` (what is there
 * with everything off, taken from the rest); perhaps `note`. Lengths are metres or carry their unit. Without `z` a
 * reading is taken on the top, or on the floor beside the island. Where semicolons part the fields, a comma is a decimal
 * point, as spreadsheets of half the world write it; where tabs do, only if no field holds a point, since 1,200 could
 * group thousands.
 */

import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { failure, type Issue, type Outcome, type Phrase, success } from "../../diagnostics/issue.ts";
import { issueTexts, phrase } from "../../diagnostics/phrase.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import { overFloor, spaceOfRoom } from "../../scene/inside-room.ts";
import { islandToRoom } from "../../scene/island-frame.ts";
import type { Scene } from "../../scene/scene.ts";
import { LUX_PER_FOOTCANDLE } from "../../units/quantities.ts";
import { readMetres } from "../../units/read-length.ts";
import { type CsvTable, lineFault, readCsv } from "./csv-reader.ts";
import { type Counted, isOffTop, levelAt } from "./site-views.ts";

export interface Reading {
  /** m, room */
  readonly at: Vec3;
  /** lx, background taken off. */
  readonly illuminance: number;
  /** Dim of each layer of the scene, 0…1. */
  readonly lit: readonly number[];
  readonly line: number;
}

export interface Readings {
  readonly readings: readonly Reading[];
  /** Mean of the readings with everything off (lx); 0 without any. */
  readonly background: number;
  /** The island where there is one, if not given. */
  readonly counted?: Counted;
}

const COLUMNS = ["along", "across", "x", "y", "z", "lx", "fc", "lit", "note"];
/** Farther along or across than any island (m): another unit. */
const NO_ROOM = 50;
/** The same where the light is in foot-candles and inches are likely. */
const NO_ROOM_OF_INCHES = 10;
const BRIGHTEST = 1e6;

export function readReadings(text: string, scene: Scene, file?: string): Outcome<Readings> {
  const at = (line: number) => ({ ...(file === undefined ? {} : { file }), line });
  const table = readCsv(text, file);
  if (!table.ok) return failure(...namelessColumns(text, at(1)), ...table.issues);
  const { header, rows: records, separator } = table.value;
  const rows = decimalCommas(records, separator);
  const names = header.map(columnOf);
  const issues: Issue[] = [];
  const fault = (line: number, message: string, expected?: Phrase, received?: Phrase): void => {
    issues.push(lineFault("readings", at(line), message, expected, received));
  };
  names.forEach((name, i) => {
    if (!COLUMNS.includes(name))
      fault(1, `A column is not known.${didYouMean(name, COLUMNS)}`, COLUMNS.join(", "), name);
    if (names.indexOf(name) < i) fault(1, "A column is given twice.", undefined, name);
  });
  const has = (name: string): boolean => names.includes(name);
  const onIsland = has("along") && has("across");
  if (onIsland === (has("x") && has("y")))
    fault(1, "The readings have no one place.", '"along" and "across", or "x" and "y"');
  if (onIsland && scene.island === undefined) fault(1, "There is no island to measure from.", '"x" and "y"');
  if (has("lx") === has("fc"))
    fault(
      1,
      has("lx") ? "The readings are in two units." : "The readings have no one unit.",
      'one column, "lx" or "fc"',
    );
  if (issues.length > 0) return failure(...issues);

  const { island } = scene;
  const placed = (a: number, b: number): Vec2 =>
    onIsland && island !== undefined ? islandToRoom(island, [a, b]) : [a, b];
  const taken = rows.flatMap(({ fields, line }) => {
    const cell = (name: string): string | undefined => (has(name) ? fields[names.indexOf(name)] : undefined);
    const length = (name: string): number => {
      const read = readMetres(cell(name) ?? "");
      if (read.ok) return read.metres;
      fault(line, `The column "${name}" holds no length.`, "metres, or a unit", cell(name));
      return 0;
    };
    const raw = cell("lx") ?? cell("fc") ?? "";
    const value = /^\d{1,9}(\.\d{1,20})?$/.test(raw)
      ? Number(raw) * (has("fc") ? LUX_PER_FOOTCANDLE : 1)
      : Number.NaN;
    if (!(value <= BRIGHTEST))
      fault(
        line,
        "The reading is no illuminance.",
        `a number from 0 to ${BRIGHTEST} in a column named lx or fc, without its unit`,
        raw,
      );
    const lit = litOf(cell("lit") ?? "all", scene, (message, expected, received) =>
      fault(line, message, expected, received),
    );
    const a = length(onIsland ? "along" : "x");
    const b = length(onIsland ? "across" : "y");
    const { room } = scene;
    const [x, y] = placed(a, b);
    const z = (cell("z") ?? "") === "" ? levelAt(scene, [x, y]) : length("z");
    if (!overFloor([x, y], room, 0) || z < 0) {
      const farthest = has("fc") ? NO_ROOM_OF_INCHES : NO_ROOM;
      const meant =
        Math.max(Math.abs(a), Math.abs(b)) > farthest
          ? ` Places without a unit are metres: were these millimetres or inches? Then write ${a} mm, ${b} mm or ${a} in, ${b} in.`
          : overFloor(placed(b, a), room, 0)
            ? " Are the columns exchanged?"
            : "";
      fault(
        line,
        `The reading was taken outside the room.${meant}`,
        spaceOfRoom(room),
        phrase`${onIsland ? `${cell("along")}, ${cell("across")} on the island: ` : ""}x ${x}, y ${y}`,
      );
    }
    return lit === undefined ? [] : [{ at: [x, y, z] as const, illuminance: value, lit, line }];
  });
  if (issues.length > 0) return failure(...issues.slice(0, 20));
  const dark = taken.filter(({ lit }) => lit.every((dim) => dim === 0));
  const background = dark.length === 0 ? 0 : dark.reduce((sum, r) => sum + r.illuminance, 0) / dark.length;
  const readings = taken
    .filter((reading) => !dark.includes(reading))
    .map((reading) => ({ ...reading, illuminance: Math.max(0, reading.illuminance - background) }));
  if (readings.length === 0) {
    fault(1, "There are no readings.", "a line a reading");
    return failure(...issues);
  }
  const counted = onIsland ? "island" : "room";
  const beside = readings.filter(({ at }) => isOffTop(scene, at, counted));
  return success(
    { readings, background, counted },
    beside.slice(0, 20).map(
      ({ at: [x, y], line }): Issue => ({
        code: "reading-off-top",
        severity: "warning",
        ...issueTexts({
          message: "The reading lies off the island's top.",
          expected: "a place on the top: are the columns exchanged, or counted from another corner?",
          received: phrase`${x}, ${y} in the room`,
        }),
        where: at(line),
      }),
    ),
  );
}

function columnOf(name: string): string {
  const plain = name.trim().toLowerCase();
  return plain === "lux" ? "lx" : plain;
}

/** Of a text that is no table, whether it was to be one of readings: its first line names at least one of their columns. */
function namelessColumns(text: string, where: Issue["where"]): Issue[] {
  const [first = ""] = text.replace(/^\ufeff/, "").split(/\r|\n/, 1);
  if (first.trim() === "" || first.split(/[,;\t]/).some((name) => COLUMNS.includes(columnOf(name))))
    return [];
  const message = "The first line names no column of readings.";
  return [lineFault("readings", where, message, COLUMNS.join(", "), first.slice(0, 60))];
}

/** Figures with decimal commas, with points in their place. */
function decimalCommas(records: CsvTable["rows"], separator: CsvTable["separator"]): CsvTable["rows"] {
  const pointed = records.some(({ fields }) => fields.some((field) => /\d\.\d/.test(field)));
  if (separator === "," || (separator === "\t" && pointed)) return records;
  return records.map(({ fields, line }) => ({
    fields: fields.map((field) => field.replace(/(\d),(\d)/g, "$1.$2")),
    line,
  }));
}

function litOf(
  text: string,
  { layers }: Scene,
  fault: (message: string, expected: string, received: string) => void,
): number[] | undefined {
  const word = text.trim();
  if (word === "" || word.toLowerCase() === "all") return layers.map(({ dim }) => dim);
  const lit = layers.map(() => 0);
  if (word.toLowerCase() === "none") return lit;
  const names = layers.map(({ name }) => name);
  for (const part of word.split("+")) {
    const [, name, dim] = /^\s*(.*?)\s*(?:@\s*(\d{1,9}(?:\.\d+)?)\s*)?$/.exec(part) ?? [];
    const index = names.indexOf(name ?? "");
    if (index < 0) {
      fault(
        `There is no such layer.${didYouMean(name ?? "", names)}`,
        names.map((n) => JSON.stringify(n)).join(", "),
        part.trim(),
      );
      return undefined;
    }
    lit[index] = dim === undefined ? layers[index].dim : Number(dim);
    if (lit[index] > 1) {
      fault("A layer is dimmed to more than all of its light.", "0 to 1, as pendants@0.5", part.trim());
      return undefined;
    }
  }
  return lit;
}
