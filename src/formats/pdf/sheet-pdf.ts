/**
 * Sheets as one PDF: vector throughout, text as text in an embedded subset of the font (with its map to Unicode,
 * so that words can be searched and copied), at true size.
 *
 * Runs in Node and in browsers; the font is handed in, because where it lies is the host's affair. Same sheets,
 * same font, same date, and the same written before with the same {@link DrawnSheets}: same bytes.
 */

import PDFDocument from "pdfkit";
import { DASHES, type Ink, type LineMark, type TextMark } from "../../drawing/drawing.ts";
import { hatchLines } from "../../drawing/hatch.ts";
import {
  type AreaMark,
  type HatchMark,
  type LabelMark,
  PAPER_HATCHING,
  PAPER_WEIGHT,
  type PaperMark,
  PRINT,
  type Sheet,
} from "../../drawing/paper/paper.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { DrawnSheets, WrittenFace } from "./drawn-sheets.ts";
import { ReadingOrder } from "./reading-order.ts";
import { isRightToLeft, visualRuns } from "./visual-runs.ts";

/** The bytes of a TrueType font, upright and bold. */
export interface PdfFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

export interface PdfFacts {
  readonly title: string;
  /** Goes into the file as its date. */
  readonly date: Date;
}

type Doc = InstanceType<typeof PDFDocument>;

/** A font as it was read, and words as they were shaped in it: the same in every document. */
interface OpenFont extends WrittenFace {
  readonly font: { hasGlyphForCodePoint(point: number): boolean };
  layoutCache: object;
  readonly id: string;
  /** Its entry in a document's pages. */
  ref(): unknown;
}

/** What is written of a document and its pages. */
interface Written {
  addContent(operation: string): Doc;
  readonly page: { readonly fonts: Record<string, unknown>; write(content: string): void };
  push(part: Uint8Array | null): boolean;
}

const OPEN = new WeakMap<Uint8Array, Pick<OpenFont, "font" | "layoutCache">>();

/** A font's bytes read once for all documents: reading takes longer than drawing a sheet. */
function openFont(bytes: Uint8Array): Pick<OpenFont, "font" | "layoutCache"> {
  let open = OPEN.get(bytes);
  if (open === undefined) {
    const { font, layoutCache } = faceOf(newDocument().font(bytes as never));
    open = { font, layoutCache };
    OPEN.set(bytes, open);
  }
  return open;
}

/** The face that a document writes with now. */
function faceOf(doc: Doc): OpenFont {
  return (doc as unknown as { _font: OpenFont })._font;
}

/** A document without pages, and without a font: the standard Helvetica would be looked for on a disk. */
function newDocument(options: PDFKit.PDFDocumentOptions = {}): Doc {
  return new PDFDocument({ autoFirstPage: false, font: null as unknown as string, ...options });
}

/** The bytes of a PDF with one page a sheet.
 * @param drawn of a document that holds these sheets too; what it has is not drawn again */
export async function sheetsPdf(
  sheets: readonly Sheet[],
  fonts: PdfFonts,
  { title, date }: PdfFacts,
  drawn?: DrawnSheets,
): Promise<Uint8Array> {
  const doc = newDocument({
    compress: true,
    lang: "en",
    displayTitle: true,
    margin: 0,
    pdfVersion: "1.7",
    tagged: true,
    info: { Title: title, Producer: "Candlespan", Creator: "Candlespan", CreationDate: date, ModDate: date },
  });
  const written = doc as unknown as Written;
  // Parts and operations are gathered: a stream's event for every object, and bytes for every line drawn, take as long as drawing.
  const streamed: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    doc.on("data", (part: Uint8Array) => streamed.push(part));
    doc.on("end", () => resolve());
    doc.on("error", reject);
  });
  const parts: Uint8Array[] = [];
  const push = written.push.bind(doc);
  written.push = (part) => {
    if (part !== null) return parts.push(part) > 0;
    push(joined(parts));
    return push(null);
  };
  const operations: string[] = [];
  written.addContent = (operation) => {
    operations.push(operation);
    return doc;
  };
  const known = drawn?.has(sheets) === true ? drawn : undefined;
  const keeping = drawn?.isEmpty === true ? drawn : undefined;
  const faces = new Map<string, OpenFont>();
  for (const name of ["regular", "bold"] as const) {
    const { font, layoutCache } = openFont(fonts[name]);
    doc.registerFont(name, font as never).font(name);
    const face = faceOf(doc);
    face.layoutCache = layoutCache;
    known?.giveFace(name, face);
    keeping?.keepFace(name, face);
    faces.set(face.id, face);
  }
  const order = new ReadingOrder(doc);
  for (const sheet of sheets) {
    doc.addPage({ size: [sheet.width, sheet.height], margin: 0 });
    const { page } = written;
    if (known === undefined) {
      order.sheet(sheet, (mark) => drawMark(doc, mark));
      const content = operations.join("\n");
      page.write(content);
      keeping?.keep(sheet, { content, faces: Object.keys(page.fonts) });
    } else {
      order.sheet(sheet, () => undefined);
      const { content, faces: lettered } = known.of(sheet);
      page.write(content);
      for (const id of lettered) page.fonts[id] = faces.get(id)?.ref();
    }
    operations.length = 0;
  }
  order.end();
  doc.end();
  await done;
  return joined(streamed);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

function drawMark(doc: Doc, mark: PaperMark): void {
  switch (mark.kind) {
    case "line":
      drawLine(doc, mark);
      break;
    case "text":
      drawText(doc, mark, PRINT[mark.ink === "none" ? "ink" : mark.ink]);
      break;
    case "circle":
      doc.circle(mark.centre[0], mark.centre[1], mark.radius);
      paint(doc, mark.ink, mark.fill, mark.weight * PAPER_WEIGHT);
      break;
    case "area":
      drawArea(doc, mark);
      break;
    case "hatch":
      drawHatch(doc, mark);
      break;
    case "traced":
      doc.save();
      if (mark.clip !== undefined) {
        path(doc, mark.clip, true);
        doc.clip();
      }
      path(doc, mark.points, false);
      doc.lineWidth(mark.weight).lineJoin("round").strokeColor(mark.colour).stroke();
      doc.restore();
      break;
    case "label":
      drawLabel(doc, mark);
      break;
    case "picture": {
      const { at, width, height, picture } = mark;
      const bytes = picture.bytes.slice().buffer;
      doc.image(bytes as never, at[0], at[1], { width, height });
      break;
    }
  }
}

function drawLine(doc: Doc, { points, closed, ink, fill, weight, dash }: LineMark): void {
  if (points.length === 0) return;
  const lengths = DASHES[dash ?? "solid"];
  if (lengths.length > 0) doc.save().dash(lengths.map((each) => each * 0.6) as never, {});
  path(doc, points, closed === true);
  paint(doc, ink, fill, weight * PAPER_WEIGHT);
  if (lengths.length > 0) doc.restore();
}

function paint(doc: Doc, ink: Ink, fill: Ink | undefined, weight: number): void {
  const filled = fill !== undefined && fill !== "none";
  if (filled) doc.fillColor(PRINT[fill]);
  if (ink !== "none") doc.lineWidth(weight).strokeColor(PRINT[ink]);
  if (filled && ink !== "none") doc.fillAndStroke();
  else if (filled) doc.fill();
  else if (ink !== "none") doc.stroke();
}

function path(doc: Doc, points: readonly Vec2[], closed: boolean): void {
  points.forEach(([x, y], i) => {
    if (i === 0) doc.moveTo(x, y);
    else doc.lineTo(x, y);
  });
  if (closed) doc.closePath();
}

function drawArea(doc: Doc, { rings, colour, clip }: AreaMark): void {
  if (rings.every((ring) => ring.length < 3)) return;
  doc.save();
  if (clip !== undefined) {
    path(doc, clip, true);
    doc.clip();
  }
  for (const ring of rings) path(doc, ring, true);
  doc.fillColor(colour).fill("even-odd");
  doc.restore();
}

function drawHatch(doc: Doc, { areas }: HatchMark): void {
  for (const { shift, colour, width } of PAPER_HATCHING.strokes) {
    const lines = hatchLines(areas, PAPER_HATCHING.step, shift);
    if (lines.length === 0) continue;
    for (const [from, to] of lines) doc.moveTo(...from).lineTo(...to);
    doc.lineWidth(width).strokeColor(colour).stroke();
  }
}

function drawText(doc: Doc, mark: TextMark, colour: string): void {
  const { at, text, anchor, size, strong, turn, ground } = mark;
  doc.font(strong === true ? "bold" : "regular").fontSize(size);
  // Most words start at their place and need no measuring.
  const runs = visualRuns(text);
  const width = anchor === "start" && ground === undefined ? 0 : widthOf(doc, runs);
  const left = anchor === "middle" ? width / 2 : anchor === "end" ? width : 0;
  doc.save();
  doc.translate(at[0], at[1]);
  if (turn !== undefined) doc.rotate(turn);
  if (ground !== undefined && ground !== "none")
    doc.rect(-left - 1, -size * 0.8, width + 2, size * 1.02).fill(PRINT[ground]);
  write(doc.fillColor(colour), runs, -left);
  doc.restore();
}

/** Runs one after the other from a place on the base line; one alone is set as it is. */
function write(doc: Doc, runs: readonly string[], from: number): void {
  let x = from;
  for (const run of runs) {
    doc.text(run, x, 0, { lineBreak: false, baseline: "alphabetic", ...shaping(runs) });
    if (runs.length > 1) x += doc.widthOfString(run, shaping(runs));
  }
}

function widthOf(doc: Doc, runs: readonly string[]): number {
  return runs.reduce((sum, run) => sum + doc.widthOfString(run, shaping(runs)), 0);
}

/** With features named, if none, the font shapes a run whole; without, word by word. */
function shaping(runs: readonly string[]): { features?: [] } {
  return runs.length === 1 && !isRightToLeft(runs[0]) ? {} : { features: [] };
}

/** Characters of the sheets that the fonts have no glyph for, each once, in the order in which they are met: they would
 * print as empty boxes. */
export function missingCharacters(sheets: readonly Sheet[], { regular }: PdfFonts): string[] {
  const { font } = openFont(regular);
  const missing = new Set<string>();
  for (const { marks } of sheets)
    for (const mark of marks)
      if (mark.kind === "text" || mark.kind === "label")
        for (const letter of mark.text)
          if (!font.hasGlyphForCodePoint(letter.codePointAt(0) as number)) missing.add(letter);
  return [...missing];
}

function drawLabel(doc: Doc, mark: LabelMark): void {
  const { at, text, anchor, size, strong, turn, colour, rim } = mark;
  doc.font(strong === true ? "bold" : "regular").fontSize(size);
  const runs = visualRuns(text);
  const width = widthOf(doc, runs);
  const left = anchor === "middle" ? width / 2 : anchor === "end" ? width : 0;
  doc.save();
  doc.translate(at[0], at[1]);
  if (turn !== undefined) doc.rotate(turn);
  // A patch, not a rim of strokes: stroked text would be written twice, and found twice by who searches it.
  doc.rect(-left - 0.8, -size * 0.78, width + 1.6, size * 0.9).fill(rim);
  write(doc.fillColor(colour), runs, -left);
  doc.restore();
}
