/**
 * A drawing for CAD, at full size in model space: the room's corner (0, 0) at the origin, y up, layers by content,
 * text as text, closed outlines as closed polylines, boxes as blocks that can be counted.
 *
 * DXF AC1021 (UTF-8). $INSUNITS says millimetres or inches, $MEASUREMENT which of the two systems.
 */

import {
  Attrib,
  DxfWriter,
  type Insert,
  LWPolylineFlags,
  point3d,
  SeqEnd,
  TextHorizontalAlignment,
  TextVerticalAlignment,
  Units,
} from "@tarikjabiri/dxf/lib/index.mjs";
import { printable } from "../diagnostics/printable.ts";
import { type Depicted, DIMENSIONS } from "../drawing/depicted.ts";
import type { PaperMark, ScaledView } from "../drawing/paper/paper.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { METRES_PER_INCH } from "../units/quantities.ts";

/** Layers by what they hold; colours are those of the CAD index. Whatever no layer holds is a note. */
const LAYERS: readonly {
  readonly name: string;
  readonly colour: number;
  readonly holds: readonly Depicted[];
}[] = [
  { name: "ROOM-WALLS", colour: 7, holds: ["wall", "finished wall", "wall name"] },
  { name: "ROOM-OPENINGS", colour: 4, holds: ["opening", "door"] },
  { name: "ROOM-CABINETS", colour: 8, holds: ["cabinet", "cabinet name"] },
  { name: "CEILING-JOISTS", colour: 8, holds: ["joist centreline"] },
  { name: "CEILING-KEEP-OUTS", colour: 1, holds: ["keep-out", "keep-out name"] },
  { name: "CEILING-SLOPE", colour: 8, holds: ["slope"] },
  {
    name: "ISLAND",
    colour: 3,
    holds: ["island top", "island base", "island side", "island level", "island outline", "island fitting"],
  },
  { name: "ISLAND-CENTRELINE", colour: 32, holds: ["centreline of island", "centreline name"] },
  {
    name: "LIGHTS-PENDANTS",
    colour: 6,
    holds: [
      "pendant",
      "pendant body",
      "pendant box",
      "pendant canopy",
      "pendant cross",
      "pendant suspension",
      "suspension point",
    ],
  },
  {
    name: "LIGHTS-RECESSED",
    colour: 5,
    holds: ["recessed", "recessed box", "recessed opening", "recessed ring"],
  },
  { name: "LIGHTS-CUT-OUTS", colour: 2, holds: ["cut-out"] },
  { name: "LIGHTS-FIXED", colour: 4, holds: ["fixed mark"] },
  { name: "LIGHTS-TAGS", colour: 7, holds: ["tag"] },
  { name: "LIGHTS-CIRCUITS", colour: 30, holds: ["switch", "switch place"] },
  { name: "LIGHTS-HOLD", colour: 1, holds: ["clash"] },
  { name: "DIMENSIONS", colour: 7, holds: DIMENSIONS },
  { name: "DATUM", colour: 1, holds: ["datum"] },
];
const OTHER = ["NOTES", 7] as const;

/** The text of a DXF file. @param unit of model space @param title lines under the drawing; untrusted */
export function viewDxf(view: ScaledView, unit: "mm" | "in", title: readonly string[] = []): string {
  const writer = new DxfWriter();
  writer.setUnits(unit === "mm" ? Units.Millimeters : Units.Inches);
  writer.setVariable("$LASTSAVEDBY", { 1: "Candlespan" });
  writer.setVariable("$MEASUREMENT", { 70: unit === "mm" ? 1 : 0 });
  const perPoint = 1 / (view.perMetre * (unit === "mm" ? 0.001 : METRES_PER_INCH));
  const dashed = "DASHED";
  writer.addLType(dashed, "__ __ __", [5 * perPoint, -3 * perPoint]);
  for (const { name, colour } of LAYERS) writer.addLayer(name, colour, "Continuous");
  writer.addLayer(OTHER[0], OTHER[1], "Continuous");
  writer.addLayer(TITLE_LAYER, 7, "Continuous");
  const at = ([x, y]: Vec2): { x: number; y: number } => ({
    x: rounded((x - view.origin[0]) * perPoint),
    y: rounded((view.origin[1] - y) * perPoint),
  });
  const blocks = boxBlocks(writer);
  for (const mark of view.marks) {
    const layerName = layerOf(mark.depicts);
    switch (mark.kind) {
      case "line":
        if (mark.points.length < 2 || mark.ink === "none") break;
        writer.addLWPolyline(
          mark.points.map((p) => ({ point: at(p) })),
          {
            layerName,
            flags: mark.closed === true ? LWPolylineFlags.Closed : LWPolylineFlags.None,
            ...(mark.dash === undefined || mark.dash === "solid" ? {} : { lineType: dashed }),
          },
        );
        break;
      case "traced":
        if (mark.points.length > 1)
          writer.addLWPolyline(
            mark.points.map((p) => ({ point: at(p) })),
            { layerName },
          );
        break;
      case "circle": {
        const centre = at(mark.centre);
        const block = blocks.get(mark.depicts);
        const radius = mark.radius * perPoint;
        const place = point3d(centre.x, centre.y);
        if (block !== undefined) {
          const insert = writer.modelSpace.addInsert(block, place, {
            layerName,
            scaleFactor: { x: radius, y: radius, z: 1 },
          });
          addAttributes(writer, insert, place, rounded(radius / 2), layerName, mark.attributes ?? {});
        } else writer.addCircle(place, radius, { layerName });
        break;
      }
      case "text":
      case "label":
        addWords(writer, mark, at(mark.at), mark.size * perPoint, layerName);
        break;
      default:
        break;
    }
  }
  addTitle(writer, title, view, perPoint);
  return writer.stringify();
}

/** Lines under the drawing, as text: what a sheet says in its title block and tables. */
function addTitle(
  writer: DxfWriter,
  title: readonly string[],
  { marks, origin }: ScaledView,
  perPoint: number,
): void {
  const lowest = Math.max(
    0,
    ...marks.flatMap((mark) =>
      mark.kind === "line" ? mark.points.map((p) => p[1]) : mark.kind === "text" ? [mark.at[1]] : [],
    ),
  );
  const height = TITLE_HEIGHT * perPoint;
  title.forEach((words, i) => {
    const y = (origin[1] - lowest - TITLE_GAP) * perPoint - 1.7 * height * (i + 1);
    writer.addText(point3d(0, rounded(y)), rounded(height), plainWords(words), { layerName: TITLE_LAYER });
  });
}

/** Lettering of the title's lines and its distance from the drawing (paper points at the view's scale). */
const TITLE_HEIGHT = 5.5;
const TITLE_GAP = 40;
const TITLE_LAYER = "TITLE";

/** Blocks of unit radius: a cross in a circle for a pendant's box; for what is recessed a cross alone, since its outline is an entity of
 * its own where its size is known. */
function boxBlocks(writer: DxfWriter): ReadonlyMap<Depicted, string> {
  const pendant = writer.addBlock("BOX-PENDANT");
  pendant.addCircle(point3d(0, 0), 1);
  pendant.addLine(point3d(-1, 0), point3d(1, 0));
  pendant.addLine(point3d(0, -1), point3d(0, 1));
  const recessed = writer.addBlock("BOX-RECESSED");
  recessed.addLine(point3d(-1, 0), point3d(1, 0));
  recessed.addLine(point3d(0, -1), point3d(0, 1));
  return new Map([
    ["pendant box", pendant.name],
    ["recessed box", recessed.name],
  ]);
}

function addWords(
  writer: DxfWriter,
  mark: Extract<PaperMark, { kind: "text" | "label" }>,
  { x, y }: { x: number; y: number },
  height: number,
  layerName: string,
): void {
  const horizontal = {
    start: TextHorizontalAlignment.Left,
    middle: TextHorizontalAlignment.Center,
    end: TextHorizontalAlignment.Right,
  }[mark.anchor];
  const words = plainWords(mark.text);
  const place = point3d(x, y);
  writer.addText(place, rounded(height * 0.72), words, {
    layerName,
    rotation: mark.turn === undefined ? 0 : -mark.turn,
    horizontalAlignment: horizontal,
    verticalAlignment: TextVerticalAlignment.BaseLine,
    ...(mark.anchor === "start" ? {} : { secondAlignmentPoint: place }),
  });
}

/** Attributes of a block, unseen: they follow it one after the other, then the end of their sequence. */
function addAttributes(
  { modelSpace }: DxfWriter,
  insert: Insert,
  place: ReturnType<typeof point3d>,
  height: number,
  layerName: string,
  attributes: Readonly<Record<string, string>>,
): void {
  const entries = Object.entries(attributes);
  if (entries.length === 0) return;
  insert.attributesFollowFlag = 1;
  for (const [tag, value] of entries) {
    const options = { layerName, visible: false };
    const attribute = modelSpace.addEntity(new Attrib(place, height, tag, plainWords(value), options));
    attribute.ownerBlockRecord = insert.handle;
  }
  modelSpace.addEntity(new SeqEnd()).ownerBlockRecord = insert.handle;
}

/** A line break would end the value and start a group of the writer's own choosing; %% starts a control code. */
function plainWords(text: string): string {
  return printable(text, 250).replaceAll("\u00a0", " ").replaceAll("%%", "% %");
}

function layerOf(depicts: Depicted): string {
  return LAYERS.find(({ holds }) => holds.includes(depicts))?.name ?? OTHER[0];
}

/** To a thousandth of the unit: far below any trade's tolerance, and −0 is nobody's coordinate. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
