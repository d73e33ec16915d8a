/** The DXF read back by dxf-parser, which is not ours: units, layers, boxes as blocks at their places, walls closed,
 * text as text; names that try to write groups of their own stay words. */
import DxfParser from "dxf-parser";
import { describe, expect, it } from "vitest";
import { dxfTitle } from "../../src/formats/dxf-title.ts";
import { viewDxf } from "../../src/formats/view-dxf.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

interface Entity {
  readonly type: string;
  readonly layer: string;
  readonly name?: string;
  readonly text?: string;
  readonly position?: { readonly x: number; readonly y: number };
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
  readonly shape?: boolean;
  readonly startPoint?: { readonly x: number; readonly y: number };
  readonly center?: { readonly x: number; readonly y: number };
  readonly radius?: number;
  readonly xScale?: number;
}

const document = kitchen({
  bodies: [
    {
      name: "hood\n0\nLINE\n8\nEVIL\n%%c",
      box: [
        [0.5, 3.6, 1.5],
        [2, 4.1, 2.2],
      ],
    },
  ],
  room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, joists: { along: "x", spacing: 0.6, first: 0.3 } },
});

function read(unit: "mm" | "ft-in") {
  const { view, setOut } = setOutSheets(handoverOf(document, { unit }));
  const text = viewDxf(view, unit === "mm" ? "mm" : "in");
  const parsed = new DxfParser().parseSync(text);
  if (parsed === null) throw new Error("the DXF was not read");
  return {
    text,
    view,
    setOut,
    header: parsed.header,
    tables: parsed.tables,
    blocks: parsed.blocks,
    entities: parsed.entities as unknown as Entity[],
  };
}

describe("DXF", () => {
  for (const [unit, code, metres] of [
    ["mm", 4, 0.001],
    ["ft-in", 1, 0.0254],
  ] as const)
    it(`holds the plan at full size in its unit (${unit})`, () => {
      const { header, setOut, entities } = read(unit);
      expect(header.$INSUNITS).toBe(code);
      expect(header.$MEASUREMENT).toBe(unit === "mm" ? 1 : 0);
      expect(header.$ACADVER).toBe("AC1021");
      const inserts = entities.filter((each) => each.type === "INSERT");
      expect(inserts.length).toBe(setOut.boxes.length);
      let worst = 0;
      for (const box of setOut.boxes) {
        const away = inserts.map(({ position }) =>
          Math.hypot((position?.x ?? NaN) * metres - box.at[0], (position?.y ?? NaN) * metres - box.at[1]),
        );
        const nearest = Math.min(...away);
        worst = Math.max(worst, nearest);
        const insert = inserts[away.indexOf(nearest)];
        expect(insert.name).toBe(box.kind === "pendant" ? "BOX-PENDANT" : "BOX-RECESSED");
        expect(insert.layer).toBe(box.kind === "pendant" ? "LIGHTS-PENDANTS" : "LIGHTS-RECESSED");
      }
      console.log(`worst error of a box in the DXF (${unit}): ${(1000 * worst).toExponential(1)} mm`);
      // Rounded to a thousandth of the unit.
      expect(worst).toBeLessThan(0.00075 * metres + 1e-9);
      const wall = entities.find((each) => each.layer === "ROOM-WALLS" && each.shape === true);
      const xs = wall?.vertices?.map((v) => v.x * metres) ?? [];
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(5.4, 4);
    });

  it("keeps content on layers and words as text", () => {
    const { tables, entities, view } = read("mm");
    const layers = Object.keys(tables.layer.layers);
    for (const name of [
      "ROOM-WALLS",
      "ISLAND",
      "LIGHTS-PENDANTS",
      "LIGHTS-RECESSED",
      "DIMENSIONS",
      "CEILING-JOISTS",
      "DATUM",
    ])
      expect(layers).toContain(name);
    const words = entities.filter((each) => each.type === "TEXT").map((each) => each.text);
    expect(words.length).toBe(view.marks.filter((mark) => mark.kind === "text").length);
    expect(words).toContain("1900");
    for (const entity of entities) expect(layers).toContain(entity.layer);
  });

  it("lets no name write groups of its own", () => {
    const { entities, text } = read("mm");
    expect(entities.some((each) => each.layer === "EVIL")).toBe(false);
    expect(text).not.toContain("%%");
    const name = entities.find((each) => each.type === "TEXT" && each.text?.includes("EVIL"));
    expect(name?.text).toContain("hood 0 LINE 8 EVIL");
  });

  it("breaks no line for a mark that does", () => {
    const mark = {
      kind: "text",
      text: "a\n0\nLINE\r\n8\nEVIL\u2028%%u",
      at: [0, 0],
      anchor: "start",
      ink: "ink",
      size: 7,
      depicts: "note",
    } as const;
    const text = viewDxf({ marks: [mark], origin: [0, 0], perMetre: 50 }, "mm");
    const entities = (new DxfParser().parseSync(text)?.entities ?? []) as unknown as Entity[];
    expect(entities.map((each) => each.type)).toEqual(["TEXT"]);
    expect(text).not.toContain("%%");
  });

  it("writes feet and inches as they stand on paper", () => {
    const { entities } = read("ft-in");
    const words = entities
      .filter((each) => each.type === "TEXT")
      .map((each) => each.text?.replaceAll("\u00a0", " "));
    expect(words).toContain("6'-2 3/4\"");
  });

  it("says whose job it is, which revision, heights and circuits, equal to the set-out", () => {
    const handover = handoverOf(kitchen(), {
      project: "Boathouse%%c",
      revision: "C",
      note: "island moved",
      head: { client: "A. Client", number: "J-7" },
    });
    const { view, setOut } = setOutSheets(handover);
    const text = viewDxf(view, "mm", dxfTitle(handover, setOut));
    const parsed = new DxfParser().parseSync(text);
    const entities = (parsed?.entities ?? []) as unknown as Entity[];
    const lines = entities.flatMap(({ layer, type, text: words }) =>
      layer === "TITLE" && type === "TEXT" ? [words ?? ""] : [],
    );
    expect(lines[0]).toBe("J-7, Boathouse% %c");
    expect(lines).toContain("A. Client");
    expect(lines).toContain("Revision C, 2024-05-01, island moved");
    const heights = setOut.boxes.flatMap(({ tag, heights: h }) =>
      h === undefined ? [] : [[tag, h.ceiling, h.drop, h.body, h.bottom, h.gap].join(" ")],
    );
    const read = lines.flatMap((line) => {
      const [tag, ...figures] = line.match(/^P\d+(?=:)|\d+(?= mm)/g) ?? [];
      return /^P\d/.test(tag ?? "") ? [[tag, ...figures.map((each) => Number(each) / 1000)].join(" ")] : [];
    });
    expect(read).toEqual(heights);
    expect(lines.some((line) => /^Circuit HOLD, not named: ambient, 6 luminaires, 42 W/.test(line))).toBe(
      true,
    );
    // Under the drawing, never in it; no letter of it a CAD font lacks.
    expect(text).not.toContain("\u00a0");
    const places = entities.filter(({ layer }) => layer === "TITLE");
    for (const { startPoint } of places) expect(startPoint?.y).toBeLessThan(-100);
  });

  // 2026-11-29: two things stood in a full-size file as they are drawn to be legible on paper. A switch 100 mm from another was a
  // circle 159 mm off its place; recessed luminaires of 85 mm were circles of 60 mm radius in one file and of 45 mm in the next.
  it("puts switches at their places and draws what is recessed at its size, whatever the scale of the paper", () => {
    const layer = (name: string, luminaire: string, y: number, switched: number) => ({
      name,
      role: "recessed",
      luminaire,
      at: [{ position: [1, y, 2.7] }],
      switches: [{ at: [0.1, switched] }],
    });
    const document = kitchen({
      luminaires: {
        housed: {
          beam: { flux: 600, angle: 60 },
          opening: { diameter: 0.07 },
          body: { profile: "cylinder", diameter: 0.085, height: 0.09 },
        },
        open: { beam: { flux: 600, angle: 60 }, opening: { diameter: 0.08 } },
        panel: { beam: { flux: 600, angle: 60 }, opening: { length: 0.6, width: 0.3 } },
        bare: { beam: { flux: 600, angle: 60 } },
      },
      arrangements: [
        {
          name: "a",
          layers: [
            layer("a", "housed", 0.5, 1),
            layer("b", "open", 1.5, 1.1),
            layer("c", "panel", 2.5, 1.15),
            layer("d", "bare", 3.5, 1.2),
          ],
        },
      ],
    });
    for (const [unit, metres] of [
      ["mm", 0.001],
      ["ft-in", 0.0254],
    ] as const)
      for (const paper of ["A4", "A3"] as const) {
        const { view, setOut } = setOutSheets(handoverOf(document, { unit, paper }));
        const text = viewDxf(view, unit === "mm" ? "mm" : "in");
        const entities = (new DxfParser().parseSync(text)?.entities ?? []) as unknown as Entity[];
        const circles = (on: string) =>
          entities.flatMap(({ type, layer: its, center: c, radius = NaN }) =>
            type === "CIRCLE" && its === on && c !== undefined
              ? [[c.x, c.y, radius].map((each) => Number((each * metres).toFixed(4)))]
              : [],
          );
        expect(circles("LIGHTS-CIRCUITS").map(([x, y]) => [x, y])).toEqual([
          [0.1, 1],
          [0.1, 1.1],
          [0.1, 1.15],
          [0.1, 1.2],
        ]);
        expect(circles("LIGHTS-RECESSED")).toEqual([
          [1, 0.5, 0.0425],
          [1, 1.5, 0.04],
        ]);
        const panel = entities.find((each) => each.type === "LWPOLYLINE" && each.layer === "LIGHTS-RECESSED");
        const span = (axis: "x" | "y"): number => {
          const values = panel?.vertices?.map((each) => each[axis] * metres) ?? [];
          return Math.max(...values) - Math.min(...values);
        };
        expect(span("x")).toBeCloseTo(0.6, 4);
        expect(span("y")).toBeCloseTo(0.3, 4);
        // A place alone has no circle that could be measured: its block is a cross.
        const places = entities.filter((each) => each.type === "INSERT");
        expect(places.map(({ name }) => name)).toEqual(setOut.boxes.map(() => "BOX-RECESSED"));
        const blocks = new DxfParser().parseSync(text)?.blocks as unknown as Record<
          string,
          { entities: readonly { type: string }[] }
        >;
        expect(blocks["BOX-RECESSED"].entities.map(({ type }) => type)).toEqual(["LINE", "LINE"]);
        expect(new Set(places.map(({ xScale = NaN }) => Number((xScale * metres).toFixed(4))))).toEqual(
          new Set([0.025]),
        );
      }
  });
});
