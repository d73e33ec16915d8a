/** Every dimension of the set-out sheet is the study's, rounded once, and parts sum to totals: kitchens drawn at
 * random, both units, slopes and turned islands. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { setOut } from "../../../src/app/set-out/set-out.ts";
import type { TextMark } from "../../../src/drawing/drawing.ts";
import { elevationSheet } from "../../../src/papers/elevation-sheet.ts";
import { handoverWords } from "../../../src/papers/handover.ts";
import { setOutSheets } from "../../../src/papers/set-out/set-out-sheet.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { formatLength } from "../../../src/units/length-text.ts";
import { readLength } from "../../../src/units/read-length.ts";
import { handoverOf, kitchens } from "../../support/handover.ts";
import { kitchen, resolved } from "../../support/studies.ts";

const STEP = { mm: 0.001, "ft-in": 0.0254 / 8 } as const;
const UNITS = ["mm", "ft-in"] as const;
const RUNS = { numRuns: 60 };

/** A printed figure back in metres: bare millimetres, or feet and inches. */
function metres(words: string, unit: "mm" | "ft-in"): number {
  const read = readLength(unit === "mm" ? `${words} mm` : words);
  if (!read.ok) throw new Error(`not a length: ${words}`);
  return read.metres;
}

/** The ceiling by its own formula: the plane through the lowest corner, rising by the slope. */
function ceilingOver({ room }: Scene, x: number, y: number): number {
  const d = (px: number, py: number) => px * Math.cos(room.towards) + py * Math.sin(room.towards);
  const least = Math.min(d(0, 0), d(room.length, 0), d(0, room.width), d(room.length, room.width));
  return room.ceilingHeight + Math.tan(room.slope) * (d(x, y) - least);
}

function texts(marks: readonly { kind: string; depicts: string }[]): TextMark[] {
  return marks.filter((mark): mark is TextMark => mark.kind === "text");
}

describe("set-out", () => {
  it("gives every box its place from two faces, within half a step", () => {
    let worst = 0;
    for (const unit of UNITS)
      fc.assert(
        fc.property(kitchens, (document) => {
          const [scene] = resolved(document).scenes;
          const { boxes } = setOut(scene, unit, (m) => formatLength(m, unit));
          const placed = scene.layers.flatMap((layer) => layer.luminaires);
          expect(boxes.length).toBe(placed.length);
          boxes.forEach((box, i) => {
            const [x, y] = placed[i].frame.origin;
            const error = Math.max(Math.abs(box.x - x), Math.abs(box.y - y)) / STEP[unit];
            worst = Math.max(worst, error);
            expect(error).toBeLessThanOrEqual(0.5 + 1e-6);
            expect(Math.abs(box.ceiling - ceilingOver(scene, x, y))).toBeLessThanOrEqual(
              STEP[unit] / 2 + 1e-9,
            );
          });
        }),
        RUNS,
      );
    console.log(`worst error of a place: ${worst.toFixed(3)} of a step`);
  });

  it("adds up: strings to the far face, heights to the ceiling, in whole steps", () => {
    let worst = 0;
    for (const unit of UNITS)
      fc.assert(
        fc.property(kitchens, (document) => {
          const [scene] = resolved(document).scenes;
          const found = setOut(scene, unit, (m) => formatLength(m, unit));
          const steps = (m: number) => Math.round(m / STEP[unit]);
          for (const { axis, dims } of found.strings) {
            const sum = dims.gaps.reduce((total, gap) => total + steps(gap), 0);
            const far = axis === "x" ? scene.room.length : scene.room.width;
            expect(sum).toBe(steps(dims.positions.at(-1) as number));
            expect(Math.abs((dims.positions.at(-1) as number) - far)).toBeLessThanOrEqual(
              STEP[unit] / 2 + 1e-9,
            );
            // What is printed adds up as well: the very texts, read back.
            const printed = dims.gapTexts.reduce(
              (total, words) => total + metres(words.replace(/ mm$/, ""), unit),
              0,
            );
            expect(steps(printed)).toBe(sum);
          }
          for (const box of found.boxes) {
            const h = box.heights;
            if (h === undefined) continue;
            expect(steps(h.top) + steps(h.gap) + steps(h.body) + steps(h.drop)).toBe(steps(h.ceiling));
            // Against the study: its clearance, its body of 220 mm, its own ceiling plane.
            const row = (document.arrangements as { layers: { row?: { clearance: number } }[] }[])[0]
              .layers[0].row;
            const drop =
              ceilingOver(scene, box.at[0], box.at[1]) -
              (scene.island as { height: number }).height -
              (row as { clearance: number }).clearance -
              0.22;
            const error = Math.max(
              Math.abs(h.drop - drop),
              Math.abs(h.body - 0.22),
              Math.abs(h.gap - (row?.clearance ?? 0)),
            );
            worst = Math.max(worst, error / STEP[unit]);
            // The difference of two rounded heights: half a step each.
            expect(error).toBeLessThanOrEqual(STEP[unit] + 1e-9);
          }
        }),
        RUNS,
      );
    console.log(`worst error of a height: ${worst.toFixed(3)} of a step`);
  });

  it("prints on the sheet what the study says, at its place on paper", () => {
    let count = 0;
    for (const unit of UNITS)
      fc.assert(
        fc.property(kitchens, (document) => {
          const handover = handoverOf(document, { unit });
          const { view, setOut: found, sheets } = setOutSheets(handover);
          for (const { what, axis, stations } of found.strings) {
            const drawn = texts(view.marks).filter((mark) => mark.depicts === `dimension ${what} ${axis}`);
            const far = handover.options[0].scene.room[axis === "x" ? "length" : "width"];
            const exact = [0, ...stations, far];
            expect(drawn.length).toBe(exact.length);
            drawn.forEach((mark, i) => {
              expect(Math.abs(metres(mark.text, unit) - exact[i])).toBeLessThanOrEqual(STEP[unit] / 2 + 1e-9);
              count++;
            });
            // Ticks stand where the dimension says, at the view's scale.
            const ticks = view.marks.filter(
              (mark) => mark.kind === "line" && mark.depicts === "dimension tick",
            );
            const middles = ticks.map((mark) => {
              const [[x0, y0], [x1, y1]] = (mark as { points: readonly (readonly [number, number])[] })
                .points;
              return axis === "x" ? (x0 + x1) / 2 : -(y0 + y1) / 2;
            });
            for (const place of exact)
              expect(middles.some((at) => Math.abs(at - place * view.perMetre) < 1e-6)).toBe(true);
          }
          // The tables hold the very figures of the strings.
          const words = handoverWords(handover);
          const rows = sheets.flatMap((sheet) => {
            const cells = texts(sheet.marks).filter((mark) => mark.depicts === "pendant row");
            return cells.map((cell) => ({
              tag: cells.find((other) => other.at[1] === cell.at[1] && /^P\d+$/.test(other.text))?.text,
              words: cell.text,
            }));
          });
          for (const box of found.boxes.filter((each) => each.kind === "pendant")) {
            const own = rows.filter(({ tag }) => tag === box.tag).map((row) => row.words);
            const h = box.heights as NonNullable<typeof box.heights>;
            const wanted = [box.x, box.y, h.ceiling, h.drop, h.body, h.bottom, h.gap].map(words.dimension);
            for (const figure of wanted) expect(own).toContain(figure);
          }
        }),
        { numRuns: 25 },
      );
    console.log(`${count} printed dimensions equal the study within half a step`);
  });

  it("prints on elevation and section the same drops, and island strings that end at its size", () => {
    for (const unit of UNITS)
      fc.assert(
        fc.property(kitchens, (document) => {
          const handover = handoverOf(document, { unit });
          const { scene } = handover.options[0];
          const { setOut: found } = setOutSheets(handover);
          const marks = texts(elevationSheet(handover, found).marks);
          const words = handoverWords(handover);
          const drops = new Set(
            marks.filter((m) => m.depicts === "dimension drop").map((m) => m.text.replace(/^drop /, "")),
          );
          for (const box of found.boxes)
            if (box.heights !== undefined) expect(drops).toContain(words.dimension(box.heights.drop));
          for (const [view, size] of [
            ["along", scene.island?.length],
            ["across", scene.island?.width],
          ] as const) {
            const string = marks
              .filter((m) => m.depicts === `dimension island ${view}`)
              .map((m) => metres(m.text, unit));
            expect(Math.abs(Math.max(...string) - (size as number))).toBeLessThanOrEqual(
              STEP[unit] / 2 + 1e-9,
            );
          }
        }),
        { numRuns: 15 },
      );
  });

  it("says in words whether pendants follow the island's centreline", () => {
    const words = (m: number) => formatLength(m, "mm");
    const centred = setOut(resolved(kitchen()).scenes[0], "mm", words);
    expect(centred.centreline).toContain("ISLAND centreline, not the room centreline");
    const off = kitchen();
    (
      (off.arrangements as { layers: { row: { offset?: number[] } }[] }[])[0].layers[0].row as {
        offset?: number[];
      }
    ).offset = [0, -0.15];
    expect(setOut(resolved(off).scenes[0], "mm", words).centreline).toContain(
      "150 mm off its centreline, towards its near side",
    );
  });
});
