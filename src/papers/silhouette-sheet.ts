/** Half silhouettes of pendants at full size, to be cut double from folded card; large ones over several pages. */

import { printable } from "../diagnostics/printable.ts";
import { clipLine } from "../drawing/clip-line.ts";
import { type Box, line, segment, text } from "../drawing/drawing.ts";
import { printCheck } from "../drawing/paper/frame.ts";
import { type PaperMark, POINTS_PER_METRE, POINTS_PER_MILLIMETRE } from "../drawing/paper/paper.ts";
import { luminaireProfile } from "../drawing/silhouette.ts";
import { rectangle } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { planExtents, planForm } from "../luminaire/plan-extent.ts";
import { ceilingBoxes } from "../scene/ceiling-boxes.ts";
import { type Handover, handoverWords } from "./handover.ts";
import { lengthUnits, type Page, pageField } from "./page.ts";

/** Room the print takes at a page's edge, and by how much tiles overlap (points). */
const MARGIN = 11 * POINTS_PER_MILLIMETRE;

const OVERLAP = 10 * POINTS_PER_MILLIMETRE;

/** Check of the print, names and notes, clear of the line at the page's foot (points). */
const FOOT = 85;

export function silhouetteSheets(handover: Handover): Page[] {
  const types = new Map<string, Luminaire>();
  for (const { scene } of handover.options)
    for (const {
      placed: { luminaire },
      kind,
    } of ceilingBoxes(scene))
      if (kind === "pendant") types.set(luminaire.name, luminaire);
  return [...types.values()].flatMap((luminaire) => (isBatten(luminaire) ? [] : tiles(handover, luminaire)));
}

/** Wider than this (m), a plain box is cut from a batten sooner than glued together from pages. */
const BATTEN = 0.35;

/** Whether a body is a plain box too long for a page: its size says all that its outline would. */
export function isBatten(luminaire: Luminaire): boolean {
  const half = luminaireProfile(luminaire);
  const widest = Math.max(...half.map(([r]) => r));
  const [length, width] = planExtents(luminaire);
  const isLong = Math.max(length, width) >= 2 * Math.min(length, width);
  return isLong && 2 * widest > BATTEN && half.every(([r]) => Math.abs(r - widest) < 1e-9 || r < 1e-9);
}

/** Half the profile at full size, over as many pages as it needs. */
function tiles(handover: Handover, luminaire: Luminaire): Page[] {
  const words = handoverWords(handover);
  const half = luminaireProfile(luminaire, 96);
  const lowest = Math.min(...half.map(([, z]) => z));
  const tallest = Math.max(...half.map(([, z]) => z)) - lowest;
  const widest = Math.max(...half.map(([r]) => r));
  const inside = 3 * POINTS_PER_MILLIMETRE;
  const across = widest * POINTS_PER_METRE + 2 * inside;
  const along = tallest * POINTS_PER_METRE + 2 * inside;
  const { frame, page, isLying, columns, rows } = layout(handover, across, along);
  /** From the axis and from the top (points). */
  const laid = (r: number, down: number): Vec2 =>
    isLying ? [inside + down, inside + r] : [inside + r, inside + down];
  const outline = [[0, tallest], ...[...half].reverse().map(([r, z]) => [r, z - lowest]), [0, 0]].map(
    ([r, z]) => laid(r * POINTS_PER_METRE, (tallest - z) * POINTS_PER_METRE),
  );
  const [length, width] = planExtents(luminaire);
  const isRound = planForm(luminaire) === "circle";
  const form = Math.abs(length - width) < 0.0005 ? "Square" : "Long";
  const size = `${words.length(2 * widest)} wide, ${words.length(tallest)} high`;
  const units = lengthUnits(handover);
  const sheets: Page[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const shift: Vec2 = [column * (page.width - OVERLAP), row * (page.height - OVERLAP)];
      const window = rectangle(...shift, page.width, page.height);
      const place = ([x, y]: Vec2): Vec2 => [x - shift[0] + page.x, y - shift[1] + page.y];
      const cut = clipLine(outline, window).map((part) => line(part.map(place), "silhouette", "ink", 1.5));
      const axis = clipLine([laid(0, -inside), laid(0, along - inside)], window).map((part) =>
        line(part.map(place), "fold line", "ink", 0.75, { dash: "eye line" }),
      );
      const tile =
        columns * rows > 1
          ? `, piece ${row * columns + column + 1} of ${columns * rows} (row ${row + 1}, column ${column + 1})`
          : "";
      const foot = frame.height - MARGIN - FOOT + 14;
      const marks: PaperMark[] = [
        ...cut,
        ...axis,
        ...(columns * rows > 1 ? crosses(page) : []),
        ...printCheck(page.x, foot - 4, handover.unit),
        text([page.x + 205, foot + 10], `${printable(luminaire.name, 40)}${tile}`, "silhouette name", {
          ink: "ink",
          size: 10,
          strong: true,
        }),
        text([page.x + 205, foot + 23], `Half silhouette at full size, ${size}.`, "silhouette note", {
          ink: "ink",
          size: 8,
        }),
        text(
          [page.x + 205, foot + 34],
          "Print at 100 %; fold card on the chain line, cut both layers.",
          "silhouette note",
          { ink: "ink", size: 8 },
        ),
        ...(!isRound
          ? [
              text(
                [page.x + 205, foot + 45],
                `${form} body: ${words.length(length)} × ${words.length(width)} in plan; this is its widest half.`,
                "silhouette note",
                { ink: "ink", size: 8 },
              ),
            ]
          : []),
        ...(columns * rows > 1
          ? [
              text(
                [page.x + 205, foot + (isRound ? 45 : 56)],
                "Lay the pieces over one another until the crosses meet.",
                "silhouette note",
                { ink: "ink", size: 8 },
              ),
            ]
          : []),
      ];
      sheets.push({
        name: "mock-up",
        title: `${handover.project}: silhouette of ${printable(luminaire.name, 40)}`,
        width: frame.width,
        height: frame.height,
        marks,
        summary: `Half silhouette of ${printable(luminaire.name, 40)} at full size, ${size}.`,
        head: { title: `Silhouette of ${printable(luminaire.name, 40)}`, units, scale: "1:1", framed: false },
      });
    }
  return sheets;
}

/** Upright or on its side, on an upright page or a wide one: whichever takes the fewest pages. */
function layout(handover: Handover, across: number, along: number) {
  const ways = [false, true].flatMap((isWide) =>
    [false, true].map((isLying) => {
      const frame = pageField(handover, isWide);
      const page: Box = {
        x: MARGIN,
        y: MARGIN,
        width: frame.width - 2 * MARGIN,
        height: frame.height - 2 * MARGIN - FOOT,
      };
      const columns = tileCount(isLying ? along : across, page.width);
      const rows = tileCount(isLying ? across : along, page.height);
      return { frame, page, isLying, columns, rows };
    }),
  );
  return ways.reduce((best, way) => (way.columns * way.rows < best.columns * best.rows ? way : best));
}

function tileCount(whole: number, page: number): number {
  return Math.max(1, Math.ceil((whole - OVERLAP) / (page - OVERLAP)));
}

/** Crosses in the middle of the overlaps: those of neighbouring pieces come to lie on each other. */
function crosses({ x, y, width, height }: Box): PaperMark[] {
  const d = OVERLAP / 2;
  return [
    [x + d, y + d],
    [x + width - d, y + d],
    [x + d, y + height - d],
    [x + width - d, y + height - d],
  ].flatMap(([cx, cy]): PaperMark[] => [
    segment(cx - 6, cy, cx + 6, cy, "registration cross", "ink", 0.75),
    segment(cx, cy - 6, cx, cy + 6, "registration cross", "ink", 0.75),
  ]);
}
