/**
 * What is printed is what was calculated: places, heights, counts, loads and light of a hand-over, read back from PDF (poppler),
 * DXF (dxf-parser) and CSV (papaparse), none of them ours, against `check --json` of the same study. A figure agrees when it is the
 * calculated one rounded to the digits it is printed with; places and drops are rounded to the unit's step, once each.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import DxfParser from "dxf-parser";
import Papa from "papaparse";
import { afterAll, describe, expect, it } from "vitest";
import { called } from "../support/cli.ts";
import { ISLAND, type Json, kitchen } from "../support/studies.ts";

const hasPoppler = spawnSync("pdftotext", ["-v"]).error === undefined;
if (!hasPoppler) console.log("skipped: pdftotext (poppler-utils) is not installed, so no PDF is read back");

const EXAMPLE = fileURLToPath(new URL("../../fixtures-data/boathouse", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "candlespan-read-back-"));
afterAll(() => rmSync(folder, { recursive: true }));

interface Case {
  readonly name: string;
  readonly document: Json;
  readonly feet: boolean;
}

const { arrangements, luminaires } = kitchen() as {
  arrangements: { layers: Json[] }[];
  luminaires: Record<string, Json>;
};
const POWERED = { ...luminaires, dome: { ...luminaires.dome, watts: 9.5 } };
const example: Json = JSON.parse(readFileSync(join(EXAMPLE, "boathouse.study.json"), "utf8"));
const CASES: readonly Case[] = [
  {
    name: "the worked example",
    // Two of its three options: the first is read back, the second stands beside it on the client's sheet.
    document: { ...example, arrangements: (example.arrangements as Json[]).slice(0, 2) },
    feet: false,
  },
  {
    name: "feet and inches, a turned island",
    document: kitchen({
      luminaires: POWERED,
      display: { length: "ft-in", illuminance: "fc" },
      island: { ...ISLAND, turn: 17 },
      project: { client: "A. Client", number: "J-7" },
    }),
    feet: true,
  },
  {
    name: "a sloped ceiling, settings, a sink and a hob",
    document: kitchen({
      luminaires: POWERED,
      room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 20, towards: 90 } },
      island: {
        ...ISLAND,
        hob: { from: [1.6, 0.3], size: [0.6, 0.5] },
        sink: { from: [0.2, 0.3], size: [0.5, 0.4], basin: true },
      },
      arrangements: [
        {
          ...arrangements[0],
          settings: [
            { name: "dinner", dim: { pendants: 0.3 }, zones: { prep: null, cooking: null, washing: null } },
          ],
        },
      ],
    }),
    feet: false,
  },
];

type Row = Record<string, string>;
interface Answer {
  readonly name: string;
  readonly letter: string;
  readonly luminaires: readonly {
    readonly position: readonly number[];
    readonly clearance?: number;
    readonly turn: number;
    readonly tilt: number;
    readonly spin: number;
  }[];
  readonly planes: readonly {
    readonly name: string;
    readonly points: readonly number[][];
    readonly illuminance: readonly number[];
    readonly layers: Record<
      string,
      { readonly direct: readonly number[]; readonly interreflected: readonly number[] }
    >;
    readonly statistics: Record<string, number>;
    readonly fine?: Record<string, number>;
  }[];
  readonly zones: readonly {
    readonly name: string;
    readonly plane: string;
    readonly statistics: Record<string, number>;
    readonly checks: readonly {
      readonly quantity: string;
      readonly value: number;
      readonly target: number;
      readonly band: readonly number[];
    }[];
  }[];
  readonly energy: { readonly watts: number };
}

/** Compares figures and counts them by where they were read. */
class Comparison {
  readonly counts = new Map<string, number>();
  readonly differences: string[] = [];

  figure(where: string, what: string, printed: number, wanted: number, step: number): void {
    this.counts.set(where, (this.counts.get(where) ?? 0) + 1);
    // Half a step, and the noise of doubles.
    if (!(Math.abs(printed - wanted) <= step / 2 + 1e-9 * Math.max(1, Math.abs(wanted))))
      this.differences.push(`${where}, ${what}: ${printed}, not ${wanted}`);
  }

  /** A figure as it is written, to its own last digit. */
  text(where: string, what: string, text: string, wanted: number): void {
    const decimals = /\.(\d+)/.exec(text)?.[1].length ?? 0;
    this.figure(where, what, Number(text), wanted, 10 ** -decimals);
  }
}

/** Feet and inches, or millimetres, as printed (m). */
function metres(text: string): number {
  const plain = text.replaceAll("\u00a0", " ").replace(/ mm$/, "").trim();
  if (/^[+−-]?\d+$/.test(plain)) return Number(plain) / 1000;
  const [, feet = "0", inches = "0", over = "0", under = "1"] =
    /^\+?(?:(\d+)'-?)?(?: ?(\d+))?(?: ?(\d+)\/(\d+))?"?$/.exec(plain) ?? [];
  if (!/\d/.test(plain)) return Number.NaN;
  return 0.0254 * (12 * Number(feet) + Number(inches) + Number(over) / Number(under));
}

/** Laid out as on the sheet, for tables; or in its reading order, for sentences. */
function pdfText(path: string, order: "-layout" | "-raw" = "-layout"): string {
  const { stdout, status } = spawnSync("pdftotext", [order, "-enc", "UTF-8", path, "-"], {
    encoding: "utf8",
  });
  expect(status).toBe(0);
  return stdout.replaceAll("\u00a0", " ");
}

const table = (path: string): Row[] =>
  Papa.parse<Row>(readFileSync(path, "utf8"), { header: true, skipEmptyLines: true }).data;

/** boxes.csv, and the table of the set-out sheet, against the luminaires of the answer. */
function boxes(found: Comparison, out: string, { luminaires }: Answer, feet: boolean): void {
  const step = feet ? 0.0254 / 8 : 0.001;
  const rows = table(join(out, "boxes.csv"));
  expect(rows.length).toBe(luminaires.length);
  const paper = hasPoppler ? pdfText(join(out, "set-out.pdf")) : undefined;
  rows.forEach((row, i) => {
    const { position, clearance, turn, tilt, spin } = luminaires[i];
    const csv = (column: string, wanted: number): void => {
      if (row[column] !== "")
        found.figure("boxes.csv", `${row.box} ${column}`, Number(row[column]), wanted, 0.0001);
    };
    csv("x from wall 3 (m)", position[0]);
    csv("y from wall 0 (m)", position[1]);
    for (const [column, wanted] of [
      ["turn (°)", turn],
      ["tilt (°)", tilt],
      ["spin (°)", spin],
    ] as const)
      found.figure("boxes.csv", `${row.box} ${column}`, Number(row[column]), wanted, 2e-4);
    found.figure("boxes.csv as printed", `${row.box} x`, metres(row["x as printed"]), position[0], step);
    found.figure("boxes.csv as printed", `${row.box} y`, metres(row["y as printed"]), position[1], step);
    const hangs = row.kind === "pendant";
    if (hangs) {
      // The difference of two heights, each rounded once: within one step.
      const gap = Number(row["lower edge above top (m)"]);
      found.figure("boxes.csv", `${row.box} lower edge above top`, gap, clearance ?? Number.NaN, 2 * step);
      // Rounded parts sum to the ceiling: the drop takes the rounding of the others.
      found.figure(
        "boxes.csv",
        `${row.box} sum of the heights`,
        ["drop (m)", "body (m)", "lower edge above floor (m)"].reduce(
          (sum, key) => sum + Number(row[key]),
          0,
        ),
        Number(row["ceiling above floor (m)"]),
        4 * step,
      );
    }
    if (paper === undefined) return;
    const line = new RegExp(`(?:^|\\s{2,})${row.box}\\s+${row.type}\\s+(.+)$`, "m").exec(paper)?.[1] ?? "";
    const cells = line
      .trim()
      .split(/\s{2,}/)
      .slice(0, hangs ? 7 : 3)
      .map(metres);
    const wanted = hangs
      ? [
          position[0],
          position[1],
          Number(row["ceiling above floor (m)"]),
          Number(row["drop (m)"]),
          Number(row["body (m)"]),
          Number(row["lower edge above floor (m)"]),
          clearance ?? Number.NaN,
        ]
      : [position[0], position[1], Number(row["ceiling above floor (m)"])];
    expect(cells.length, `${row.box} in the PDF: ${line}`).toBe(wanted.length);
    cells.forEach((cell, k) => {
      found.figure(
        "set-out.pdf",
        `${row.box} column ${k + 3}`,
        cell,
        wanted[k],
        (k === 6 ? 2 * step : step) + 2e-4,
      );
    });
  });
}

function dxf(found: Comparison, out: string, { luminaires, energy }: Answer, feet: boolean): void {
  const unit = feet ? 0.0254 : 0.001;
  const entities = (new DxfParser().parseSync(readFileSync(join(out, "set-out.dxf"), "utf8"))?.entities ??
    []) as unknown as readonly { type: string; position?: { x: number; y: number }; text?: string }[];
  const inserts = entities.flatMap(({ type, position }) =>
    type === "INSERT" && position !== undefined ? [position] : [],
  );
  expect(inserts.length).toBe(luminaires.length);
  for (const { position } of luminaires) {
    const nearest = Math.min(
      ...inserts.map(({ x, y }) => Math.hypot(x * unit - position[0], y * unit - position[1])),
    );
    // In each of two directions rounded to a thousandth of the unit.
    found.figure("set-out.dxf", "place", nearest, 0, 0.0015 * unit);
  }
  const circuits = entities.flatMap(({ text }) => {
    const [, count, watts] = /^Circuit .*?, (\d+) luminaires?, ([\d.]+) W/.exec(text ?? "") ?? [];
    return count === undefined ? [] : [[Number(count), Number(watts)]];
  });
  found.figure(
    "set-out.dxf",
    "luminaires on circuits",
    circuits.reduce((sum, [n]) => sum + n, 0),
    luminaires.length,
    0,
  );
  expect(energy.watts).toBeGreaterThan(0);
}

function light(found: Comparison, out: string, answer: Answer): void {
  const rows = table(join(out, "illuminance.csv"));
  let at = 0;
  for (const { name, points, illuminance, layers } of answer.planes)
    points.forEach((point, i) => {
      const row = rows[at++];
      expect(row.plane).toBe(name);
      ["x (m)", "y (m)", "z (m)"].forEach((column, k) => {
        found.figure("illuminance.csv", `${name} ${i} ${column}`, Number(row[column]), point[k], 1e-4);
      });
      found.figure("illuminance.csv", `${name} ${i}`, Number(row["illuminance (lx)"]), illuminance[i], 0.01);
      for (const [layer, { direct, interreflected }] of Object.entries(layers)) {
        found.figure("illuminance.csv", layer, Number(row[`${layer} direct (lx)`]), direct[i], 0.01);
        found.figure(
          "illuminance.csv",
          layer,
          Number(row[`${layer} interreflected (lx)`]),
          interreflected[i],
          0.01,
        );
      }
    });
  expect(at).toBe(rows.length);
}

function loads(found: Comparison, out: string, { energy, luminaires }: Answer): void {
  const rows = table(join(out, "circuits.csv"));
  const sum = (column: string): number => rows.reduce((all, row) => all + Number(row[column]), 0);
  found.figure("circuits.csv", "luminaires", sum("luminaires"), luminaires.length, 0);
  found.figure("circuits.csv", "W as dimmed", sum("as dimmed (W)"), energy.watts, 0.1);
  const types = table(join(out, "luminaires.csv"));
  found.figure(
    "luminaires.csv",
    "count",
    types.reduce((all, row) => all + Number(row.count), 0),
    luminaires.length,
    0,
  );
  found.figure(
    "luminaires.csv",
    "W fitted",
    types.reduce((all, row) => all + Number(row.count) * Number(row["power (W)"]), 0),
    sum("fitted (W)"),
    0.1,
  );
  if (!hasPoppler) return;
  const schedule = pdfText(join(out, "schedule.pdf"));
  for (const row of types) {
    const [, count, flux, watts] =
      new RegExp(`^ *${row.type} {2,}${row.luminaire} {2,}(\\d+) {2,}(\\d+) {2,}([\\d.]+) `, "m").exec(
        schedule,
      ) ?? [];
    found.text("schedule.pdf", `${row.type} count`, count, Number(row.count));
    found.text("schedule.pdf", `${row.type} flux`, flux, Number(row["flux (lm)"]));
    found.text("schedule.pdf", `${row.type} power`, watts, Number(row["power (W)"]));
  }
  const setOut = pdfText(join(out, "set-out.pdf"));
  for (const row of rows) {
    const [, count, watts] = new RegExp(` ${row.layer} {2,}(\\d+) {2,}([\\d.]+) `).exec(setOut) ?? [];
    found.text("set-out.pdf", `${row.layer} count`, count, Number(row.luminaires));
    found.text("set-out.pdf", `${row.layer} load`, watts, Number(row["fitted (W)"]));
  }
}

/** Averages, bands, minima and evenness of the zones, on the client's sheet and in the report. */
function zones(
  found: Comparison,
  out: string,
  { zones: judged, planes, energy }: Answer,
  feet: boolean,
): void {
  if (!hasPoppler) return;
  const unit = feet ? 10.763910416709722 : 1;
  const client = pdfText(join(out, "client.pdf"), "-raw").replace(/\s+/g, " ");
  const report = pdfText(join(out, "report.pdf"));
  const flowing = pdfText(join(out, "report.pdf"), "-raw").replace(/\s+/g, " ");
  const name = feet ? "fc" : "lx";
  for (const { name: zone, statistics, checks } of judged) {
    const title = zone.charAt(0).toUpperCase() + zone.slice(1);
    const said = new RegExp(
      `${title} ([\\d.]+) ${name}(?: \\(([\\d.]+) to ([\\d.]+)\\))?, evenness ([\\d.]+)`,
    ).exec(flowing);
    expect(said, `${title} in the report`).not.toBeNull();
    const [, average, low, high, even] = said as unknown as string[];
    found.text("report.pdf", `${zone} average`, average, statistics.average / unit);
    found.text("report.pdf", `${zone} evenness`, even, statistics.uniformity);
    const band = checks.find(({ quantity }) => quantity === "illuminance")?.band;
    if (band !== undefined && low !== undefined) {
      found.text("report.pdf", `${zone} band`, low, band[0] / unit);
      found.text("report.pdf", `${zone} band`, high, band[1] / unit);
    }
    const row = new RegExp(
      `^ ${zone} {2,}([\\d.]+) {2,}([\\d.]+) \\([\\d.]+\\) {2,}([\\d.]+) \\([\\d.]+\\) {2,}([\\d.]+) {2,}([\\d.]+) {2,}(\\d+)`,
      "m",
    ).exec(report);
    const plane = planes.find((each) => each.name === zone);
    if (row !== null && plane !== undefined) {
      const { average: mean, minimum, maximum, uniformity, diversity, points } = plane.statistics;
      [mean / unit, minimum / unit, maximum / unit, uniformity, diversity, points].forEach((wanted, k) => {
        found.text("report.pdf", `${zone} column ${k + 2}`, row[k + 1], wanted);
      });
    }
    const plain = new RegExp(`${title}: about ([\\d.]+) ${name}`).exec(client);
    if (plain !== null) found.text("client.pdf", `${zone} average`, plain[1], statistics.average / unit);
  }
  const dark = new RegExp(`The darkest spot is [a-z ]+: ([\\d.]+) ${name}`).exec(client);
  if (dark !== null)
    found.text("client.pdf", "darkest spot", dark[1], Math.min(...planes[0].illuminance) / unit);
  const watts = /in the ceiling at most, (\d+) W (?:when all is on|with all on, dimmed as planned)/.exec(
    client,
  );
  found.text("client.pdf", "power", watts?.[1] ?? "", energy.watts);
}

/** Running strings and the heights of pendants in the DXF: every figure stands at its own place, and is a box's. */
function strings(
  found: Comparison,
  out: string,
  { luminaires }: Answer,
  { room }: Json,
  feet: boolean,
): void {
  const unit = feet ? 0.0254 : 0.001;
  const step = feet ? 0.0254 / 8 : 0.001;
  const entities = (new DxfParser().parseSync(readFileSync(join(out, "set-out.dxf"), "utf8"))?.entities ??
    []) as unknown as readonly {
    layer: string;
    text?: string;
    rotation?: number;
    startPoint?: { x: number; y: number };
    textHeight?: number;
  }[];
  const { length, width } = room as { length: number; width: number };
  const rows = table(join(out, "boxes.csv"));
  let figures: { value: number; at: number; axis: 0 | 1 }[] = [];
  let letters = 0;
  const seen = new Set<string>();
  for (const { layer, text = "", rotation = 0, startPoint, textHeight = 0 } of entities) {
    if (layer !== "DIMENSIONS" || startPoint === undefined) continue;
    const value = metres(text);
    if (!Number.isNaN(value)) {
      const axis = rotation === 90 ? 0 : 1;
      letters = textHeight * unit;
      figures.push({ value, at: (axis === 0 ? startPoint.x : startPoint.y) * unit, axis });
      continue;
    }
    // A string's name comes after its figures.
    const [first] = figures;
    // Figures too close to be read are spread, by no more than the height of a letter.
    for (const { value: each, at } of figures)
      found.figure("strings, place", `${text} ${each}`, at - first.at, each - first.value, 2 * letters);
    const kind = text === "pendants" ? "pendant" : text;
    const boxes = luminaires.filter((_, i) => rows[i].kind === kind);
    if (first !== undefined && boxes.length > 0) {
      const far = first.axis === 0 ? length : width;
      const wanted = [0, ...boxes.map(({ position }) => position[first.axis]), far].sort((a, b) => a - b);
      const places = wanted.filter((place, i) => i === 0 || place - wanted[i - 1] > step / 2);
      expect(figures.length, `${text} along ${first.axis}`).toBe(places.length);
      figures.forEach((figure, i) => {
        found.figure("strings, value", `${text} ${i}`, figure.value, places[i], step);
      });
      seen.add(`${kind} ${first.axis}`);
    }
    figures = [];
  }
  expect([...seen].sort()).toEqual(["pendant 0", "pendant 1", "recessed 0", "recessed 1"]);
  for (const { text = "" } of entities) {
    const [, tag, ceiling, drop, body, edge, gap] =
      /^(P\d+): ceiling (.+), drop (.+), body (.+), lower edge (.+) above the floor, (.+) above the top$/.exec(
        text,
      ) ?? [];
    const row = rows.find(({ box }) => box === tag);
    if (row === undefined) continue;
    for (const [printed, column] of [
      [ceiling, "ceiling above floor (m)"],
      [drop, "drop (m)"],
      [body, "body (m)"],
      [edge, "lower edge above floor (m)"],
      [gap, "lower edge above top (m)"],
    ])
      found.figure("set-out.dxf heights", `${tag} ${column}`, metres(printed), Number(row[column]), 2e-4);
    const clearance = luminaires[rows.indexOf(row)].clearance ?? Number.NaN;
    found.figure("set-out.dxf heights", `${tag} clearance`, metres(gap), clearance, 2 * step);
  }
}

/** Levels of the elevations, and the tapes and strings of the mock-up. */
function heights(
  found: Comparison,
  out: string,
  { luminaires }: Answer,
  { room, island }: Json,
  feet: boolean,
): void {
  if (!hasPoppler) return;
  const step = feet ? 0.0254 / 8 : 0.001;
  const top = (island as { height?: number }).height ?? 0.914;
  const rows = table(join(out, "boxes.csv"));
  const printed = pdfText(join(out, "elevations.pdf"))
    .split("\n")
    .flatMap((line) =>
      [...line.matchAll(/\+([\d'" /-]*\d["]?)(?=\s{2,}|\s*$)/g)].map(([, text]) => metres(text)),
    );
  const ceilings = rows.flatMap((row) =>
    row.kind === "pendant" ? [Number(row["ceiling above floor (m)"])] : [],
  );
  const edges = luminaires.flatMap(({ clearance }) => (clearance === undefined ? [] : [top + clearance]));
  for (const level of [0, top, ...edges, ...ceilings]) {
    const nearest = printed.reduce((a, b) => (Math.abs(b - level) < Math.abs(a - level) ? b : a), Infinity);
    found.figure("elevations.pdf", `level ${level}`, nearest, level, 2 * step);
  }
  const mockUp = pdfText(join(out, "mock-up.pdf"));
  const { length } = room as { length: number };
  rows.forEach((row, i) => {
    if (row.kind !== "pendant") return;
    const [x, y] = luminaires[i].position;
    const line = new RegExp(`^ ${row.box} ${row.luminaire} {2,}(.+)$`, "m").exec(mockUp)?.[1] ?? "";
    const cells = line
      .trim()
      .split(/\s{2,}/)
      .map(metres);
    expect(cells.length, `${row.box} in the mock-up: ${line}`).toBe(6);
    const edge = Number(row["ceiling above floor (m)"]) - Number(row["lower edge above floor (m)"]);
    const string = edge - Number(row["body (m)"]);
    [x, y, Math.hypot(x, y), Math.hypot(length - x, y), string, edge].forEach((wanted, k) => {
      found.figure(
        "mock-up.pdf",
        `${row.box} column ${k + 2}`,
        cells[k],
        wanted,
        (k >= 4 ? 2 : 1) * step + 2e-4,
      );
    });
  });
}

/** Every option's planes in the report, in brackets the least and most of both grids where a verdict rests on the plane. */
function options(found: Comparison, out: string, answers: readonly Answer[], feet: boolean): void {
  if (!hasPoppler) return;
  const unit = feet ? 10.763910416709722 : 1;
  const report = pdfText(join(out, "report.pdf"));
  const begin = answers.map(({ letter, name }) =>
    report.search(new RegExp(`^[ \\f]*${letter} +${name}: `, "m")),
  );
  answers.forEach(({ letter, planes, zones, energy }, i) => {
    expect(begin[i], `option ${letter} in the report`).toBeGreaterThan(0);
    const part = report.slice(begin[i], begin[i + 1]);
    for (const { name, statistics, fine } of planes) {
      const row = new RegExp(
        `^ ${name} {2,}([\\d.]+) {2,}([\\d.]+)(?: \\(([\\d.]+)\\))? {2,}([\\d.]+)(?: \\(([\\d.]+)\\))? {2,}([\\d.]+) {2,}([\\d.]+) {2,}(\\d+)`,
        "m",
      ).exec(part);
      if (row === null || fine === undefined) continue;
      const told = name === "island top" || zones.some((zone) => zone.plane === name);
      if (!told) expect([row[3], row[5]], name).toEqual([undefined, undefined]);
      const { average, minimum, maximum, uniformity, diversity, points } = statistics;
      // Of both grids together, where that reads otherwise: else the figure before the brackets is it as well.
      const least = Math.min(minimum, fine.minimum) / unit;
      const most = Math.max(maximum, fine.maximum) / unit;
      const columns: readonly (readonly [text: string | undefined, wanted: number])[] = [
        [row[1], average / unit],
        [row[2], minimum / unit],
        [told ? (row[3] ?? row[2]) : undefined, least],
        [row[4], maximum / unit],
        [told ? (row[5] ?? row[4]) : undefined, most],
        [row[6], uniformity],
        [row[7], diversity],
        [row[8], points],
      ];
      columns.forEach(([text, wanted], k) => {
        if (text === undefined) return;
        found.text("options of report.pdf", `${letter} ${name} column ${k + 2}`, text, wanted);
      });
    }
    const watts = /Power\s+([\d.]+)\s+W\s+as\s+dimmed/.exec(part)?.[1] ?? "";
    found.text("options of report.pdf", `${letter} power`, watts, energy.watts);
  });
  expect(found.counts.get("options of report.pdf")).toBeGreaterThanOrEqual(9 * answers.length);
}

describe("a hand-over read back", () => {
  it.each(CASES)("$name: every figure is the calculated one", async ({ name, document, feet }) => {
    const study = join(folder, `${CASES.findIndex((each) => each.name === name)}.study.json`);
    cpSync(join(EXAMPLE, "photometry"), join(folder, "photometry"), { recursive: true });
    writeFileSync(study, JSON.stringify({ ...document, calculation: { interreflection: false } }));
    const out = join(folder, `papers ${name}`);
    const made = await called("handover", study, "--out", out, "--date", "2024-05-01");
    expect(made.code, made.err).toBeLessThan(2);
    const checked = await called("check", study, "--json");
    expect(checked.code, checked.err).toBeLessThan(2);
    const answers = JSON.parse(checked.out).arrangements as readonly Answer[];
    const [answer] = answers;
    const found = new Comparison();
    boxes(found, out, answer, feet);
    dxf(found, out, answer, feet);
    light(found, out, answer);
    loads(found, out, answer);
    zones(found, out, answer, feet);
    strings(found, out, answer, document, feet);
    heights(found, out, answer, document, feet);
    options(found, out, answers, feet);
    const total = [...found.counts.values()].reduce((sum, n) => sum + n, 0);
    console.log(
      `${name}: ${total} figures read back (${[...found.counts].map(([where, n]) => `${where} ${n}`).join(", ")}), ${found.differences.length} differ`,
    );
    expect(found.differences).toEqual([]);
    expect(total).toBeGreaterThan(300);
  });
});
