/** 2026-11-29: what a fitter and an electrician stumbled over on set-out and mock-up. Each `it` says what was wrong. */

import DxfParser from "dxf-parser";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { ceilingFootprint } from "../../src/advice/clashes/ceiling-clashes.ts";
import { type Box, boxAround, overlaps, textBox } from "../../src/drawing/drawing.ts";
import { lineMeetsBox, orientedBox } from "../../src/drawing/oriented-box.ts";
import { type Block, flow, heading, paragraph } from "../../src/drawing/paper/flow.ts";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import { column, table } from "../../src/drawing/paper/table.ts";
import { setOutElevation } from "../../src/drawing/set-out-elevation.ts";
import { boxesCsv, luminairesCsv } from "../../src/formats/handover-csv.ts";
import { viewDxf } from "../../src/formats/view-dxf.ts";
import { bounds } from "../../src/geometry/polygon.ts";
import { mockUpSheets } from "../../src/papers/mock-up-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { boxesInPlace } from "../../src/scene/box-places.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

type Marked = { readonly marks: readonly PaperMark[] };
const texts = ({ marks }: Marked, depicts: string) =>
  marks.flatMap((mark) => (mark.kind === "text" && mark.depicts === depicts ? [mark] : []));
const lines = ({ marks }: Marked, depicts: string) =>
  marks.flatMap((mark) => (mark.kind === "line" && mark.depicts === depicts ? [mark.points] : []));

describe("the mock-up", () => {
  it("tells the string to the top of a cut-out, where it hangs, and not only to its lower edge", () => {
    const [first] = mockUpSheets(handoverOf(kitchen()));
    const cells = first.marks.flatMap((mark) =>
      mark.kind === "text" && (mark.depicts === "tape row" || mark.depicts === "table head")
        ? [{ column: mark.reading?.column, text: mark.text, isHead: mark.depicts === "table head" }]
        : [],
    );
    const columnOf = (words: RegExp): string[] => {
      const titles = new Map<number, string>();
      for (const { column: k = -1, text, isHead } of cells)
        if (isHead) titles.set(k, `${titles.get(k) ?? ""} ${text}`.trim());
      const [k] = [...titles].find(([, title]) => words.test(title)) ?? [];
      return cells.flatMap((each) => (each.column === k && !each.isHead ? [each.text] : []));
    };
    // Ceiling 2700, top 920, clearance 850, dome 220 high: lower edge at 1770, its top at 1990.
    expect(columnOf(/^string, ceiling to its top$/)).toEqual(["710", "710", "710"]);
    expect(columnOf(/^ceiling to lower edge$/)).toEqual(["930", "930", "930"]);
  });
});

describe("a heading", () => {
  const box = (height: number) => (): Box => ({ x: 0, y: 0, width: 200, height });
  const tall = "a cell of many words that takes one row after another ".repeat(6);
  const followers: readonly [string, Block][] = [
    ["a table whose first row is tall", table([tall, "b", "c"], [column("title", 1, (each) => each)], {})],
    ["a paragraph that is not parted", paragraph("four rows of words ".repeat(8))],
  ];
  it.each(followers)("stays with %s", (_, block) => {
    // In less than a hundred points heading and follower do not stand together at all.
    for (let height = 100; height < 260; height += 3) {
      const boxes = flow([paragraph("before"), heading("Circuits"), block], box(height));
      for (const marks of boxes) {
        const last = marks[marks.length - 1];
        expect(last?.depicts, `a box ${height} high`).not.toBe("heading");
      }
    }
  });
});

describe("a long pendant's set-out", () => {
  const document: Json = kitchen({
    room: { length: 8, width: 6, ceilingHeight: 2.7 },
    island: { centre: [4, 3], length: 2.6, width: 1.1, height: 0.92 },
    luminaires: {
      bar: { beam: { flux: 1800, angle: 110 }, opening: { length: 1.2, width: 0.05 } },
      spot: { beam: { flux: 650, angle: 36 }, watts: 7 },
    },
    arrangements: [
      {
        name: "bars",
        layers: [
          { name: "bars", luminaire: "bar", row: { count: 2, clearance: 0.85 } },
          { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.7 } },
        ],
      },
    ],
  });

  it("names each point it hangs on where its table has it", () => {
    const { sheets, setOut } = setOutSheets(handoverOf(document));
    const wanted = setOut.boxes.flatMap(({ tag, suspensions }) =>
      (suspensions?.points ?? []).map((_, i) => `${tag}.${i + 1}`),
    );
    expect(wanted).toEqual(["P1.1", "P1.2", "P2.1", "P2.2"]);
    const named = sheets.find((sheet) => texts(sheet, "view title").length > 0) as Marked;
    const names = texts(named, "suspension point");
    // In the detail all of them; on the smaller plan of the room those that can stand nearer to their dot than to another.
    expect(names.slice(-wanted.length).map(({ text }) => text)).toEqual(wanted);
    const dots = named.marks.flatMap((mark) =>
      mark.kind === "circle" && mark.depicts === "suspension point" ? [mark.centre] : [],
    );
    expect(dots.length).toBe(2 * wanted.length);
    for (const [i, name] of names.entries()) {
      const { x: left, y: top, width, height } = textBox(name);
      const isInDetail = i >= names.length - wanted.length;
      const own = (isInDetail ? wanted.length : 0) + wanted.indexOf(name.text);
      const gaps = dots.map(([x, y]) =>
        Math.hypot(Math.max(left - x, 0, x - left - width), Math.max(top - y, 0, y - top - height)),
      );
      expect(gaps.indexOf(Math.min(...gaps)), name.text).toBe(own);
    }
  });

  it("has no figure in its detail for a box that is not in it, whose line would run to nothing", () => {
    const { sheets } = setOutSheets(handoverOf(document));
    const detail = sheets.find((sheet) => texts(sheet, "view title").length > 0) as Marked;
    const [title] = texts(detail, "view title");
    const recessed = detail.marks.flatMap((mark) =>
      mark.kind === "text" && mark.depicts === "dimension recessed x" && mark.at[0] > title.at[0] - 60
        ? [mark.text]
        : [],
    );
    expect(recessed).toEqual([]);
    const frames = lines(detail, "cut").map((points) => bounds(points));
    const [x0, , x1, foot] = frames[frames.length - 1];
    for (const points of lines(detail, "extension line")) {
      const [left, , right] = bounds(points);
      if (left < x0 || right > x1) continue;
      // It starts at or above the frame's foot: what it dimensions is inside.
      expect(Math.min(...points.map((p) => p[1]))).toBeLessThanOrEqual(foot + 1e-6);
    }
  });
});

/** An L under a roof: 0.9 m deep under the first pendants, 1.7 m deep at its return. */
describe("an L under a slope", () => {
  const document: Json = kitchen({
    room: {
      length: 6,
      width: 4.6,
      ceilingHeight: 2.4,
      ceiling: { slope: 18, towards: 90 },
      keepOuts: [{ name: "ridge beam", from: [0, 4.2], size: [6, 0.2] }],
    },
    island: {
      centre: [3, 2.3],
      height: 0.9,
      outline: [
        [0, 0],
        [2.6, 0],
        [2.6, 1.7],
        [1.6, 1.7],
        [1.6, 0.9],
        [0, 0.9],
      ],
      seats: { side: "x+", count: 2 },
    },
    arrangements: [
      {
        name: "a",
        layers: [
          {
            name: "p",
            luminaire: "dome",
            row: { count: 3, clearance: 0.78, spacing: 0.75, offset: [-0.1, -0.35] },
          },
          { name: "r", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.9 } },
        ],
      },
    ],
  });
  const [sheet] = setOutSheets(handoverOf(document)).sheets;

  it("shows the way it rises clear of the island, its seats and the frame of its detail", () => {
    const [words] = texts(sheet, "slope");
    const arrow = lines(sheet, "slope")[0];
    const box = boxAround(arrow);
    const edges = ["island top", "island fitting", "cut"].flatMap((what) => lines(sheet, what));
    expect(edges.length).toBeGreaterThan(3);
    for (const ring of edges)
      for (const [i, from] of ring.entries()) {
        const to = ring[(i + 1) % ring.length];
        for (const each of [textBox(words), box])
          expect(lineMeetsBox(from, to, orientedBox(each)), `${words.text} at ${from}`).toBe(false);
      }
  });

  it("writes the wall's name off the hatching, nearer to the wall than what the hatching is", () => {
    const hatched = bounds(lines(sheet, "keep-out")[0]);
    const inHatch: Box = {
      x: hatched[0],
      y: hatched[1],
      width: hatched[2] - hatched[0],
      height: hatched[3] - hatched[1],
    };
    const wall = texts(sheet, "wall name").find(({ text }) => text === "wall 2");
    const beam = texts(sheet, "keep-out name")[0];
    if (wall === undefined) throw new Error("wall 2 has no name");
    expect(overlaps(textBox(wall), inHatch)).toBe(false);
    expect(wall.at[1]).toBeLessThan(beam.at[1]);
  });

  it("is cut at the first pendant as deep as it is there, not as its bounding box", () => {
    const handover = handoverOf(document);
    const { setOut: layout } = setOutSheets(handover);
    const { scene } = handover.options[0];
    const perMetre = 50;
    const spans = (across: ReturnType<typeof setOutElevation>, depicts: string) =>
      lines(across, depicts).map((points) => {
        const [from, , to] = bounds(points);
        return [from / perMetre, to / perMetre].map((each) => Number(each.toFixed(4)) + 0);
      });
    const words = { dimension: (metres: number) => (1000 * metres).toFixed(0) };
    const across = setOutElevation(scene, layout, "across", perMetre, words);
    expect(spans(across, "island top")).toEqual([[0, 0.9]]);
    expect(spans(across, "island base")).toEqual([[0, 0.9]]);
    // What stands beyond is seen in a thin line.
    expect(spans(across, "island side")).toEqual([[0, 1.7]]);
    expect(texts(across, "dimension island across").map(({ text }) => text)).toEqual([
      "0",
      "500",
      "900",
      "1700",
    ]);
    const along = setOutElevation(scene, layout, "along", perMetre, words);
    expect(spans(along, "island top")).toEqual([[0, 2.6]]);
    // Of a rectangle the section is its whole width.
    const plain = handoverOf(kitchen());
    const whole = setOutElevation(
      plain.options[0].scene,
      setOutSheets(plain).setOut,
      "across",
      perMetre,
      words,
    );
    expect(spans(whole, "island top")).toEqual([[0, 1.1]]);
    expect(spans(whole, "island side")).toEqual([]);
  });
});

describe("what is recessed", () => {
  const recessed = (name: string, luminaire: Json, x: number) => ({
    luminaires: { [name]: { beam: { flux: 600, angle: 60 }, ...luminaire } },
    layer: { name, role: "recessed", luminaire: name, at: [{ position: [x, 1, 2.7] }] },
  });
  const parts = [
    recessed(
      "round",
      {
        opening: { diameter: 0.07 },
        body: { profile: "disc", diameter: 0.09, height: 0.01 },
        cutOut: "75 mm",
      },
      1,
    ),
    recessed("long", { opening: { length: 0.6, width: 0.1 }, cutOut: ["600 mm", "95 mm"] }, 2.5),
    recessed("unsaid", { opening: { diameter: 0.07 } }, 4),
  ];
  const handover = handoverOf(
    kitchen({
      luminaires: Object.assign({}, ...parts.map((each) => each.luminaires)),
      arrangements: [{ name: "a", layers: parts.map((each) => each.layer) }],
    }),
  );
  const { sheets, setOut: layout, view } = setOutSheets(handover);

  it("has its cut-out on set-out, tables and CAD as the study states it, and is never given one by its opening", () => {
    const said = sheets
      .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))
      .join(" ")
      .replaceAll("\u00a0", " ");
    expect(said).toContain(
      "Cut-out in the ceiling: L1 75 mm; L2 600 mm × 95 mm; L3 not stated, the maker's.",
    );
    for (const csv of [boxesCsv(handover, layout), luminairesCsv(handover)])
      expect(
        Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true }).data.map(
          (row) => row["cut-out (m)"],
        ),
      ).toEqual(["0.075", "0.6 0.095", ""]);
    const entities = (new DxfParser().parseSync(viewDxf(view, "mm"))?.entities ?? []) as unknown as {
      readonly type: string;
      readonly layer: string;
      readonly radius?: number;
      readonly vertices?: readonly { readonly x: number; readonly y: number }[];
    }[];
    const holes = entities.filter(({ layer }) => layer === "LIGHTS-CUT-OUTS");
    expect(holes.map(({ type }) => type)).toEqual(["CIRCLE", "LWPOLYLINE"]);
    expect(holes[0].radius).toBeCloseTo(37.5, 6);
    const [x0, y0, x1, y1] = bounds(holes[1].vertices?.map(({ x, y }) => [x, y] as const) ?? []);
    expect([x0, y0, x1, y1].map((each) => Number(each.toFixed(3)))).toEqual([2200, 952.5, 2800, 1047.5]);
  });

  it("is as wide in the ceiling as its hole, where nothing else of it is known", () => {
    const footprint = (luminaire: Json) => {
      const { luminaires, layer } = recessed("it", luminaire, 1);
      const [scene] = resolved(
        kitchen({ luminaires, arrangements: [{ name: "a", layers: [layer] }] }),
      ).scenes;
      const [x0, y0, x1, y1] = bounds(ceilingFootprint(boxesInPlace(scene)[0]));
      return [x1 - x0, y1 - y0].map((each) => Number(each.toFixed(4)));
    };
    expect(footprint({})).toEqual([0.1016, 0.1016]);
    expect(footprint({ cutOut: 0.075 })).toEqual([0.1016, 0.1016]);
    expect(footprint({ cutOut: 0.15 })).toEqual([0.15, 0.15]);
    expect(footprint({ cutOut: [0.3, 0.1] })).toEqual([0.3, 0.1]);
    expect(footprint({ opening: { diameter: 0.16 }, cutOut: 0.15 })).toEqual([0.16, 0.16]);
  });
});
