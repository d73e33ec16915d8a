/**
 * A sheet of paper as plain data: the marks of a drawing, and the few more kinds paper needs. One sheet is drawn
 * once and shown in any medium (SVG, PDF, DXF), each a small back end that knows nothing of what it draws.
 *
 * One unit is a point, 1/72 in; x to the right, y down, from the paper's upper left corner.
 */

import type { Vec2 } from "../../geometry/vector.ts";
import type { Depicted } from "../depicted.ts";
import type { LineMark, Mark, TextMark } from "../drawing.ts";
import type { CommonArea, Hatching } from "../hatch.ts";

export const POINTS_PER_METRE = 72 / 0.0254;
export const POINTS_PER_MILLIMETRE = POINTS_PER_METRE / 1000;

/** Width and height upright (points): ISO 216 A sizes; North American sizes of ANSI/ASME Y14.1. */
export const PAPERS = {
  A4: [210 * POINTS_PER_MILLIMETRE, 297 * POINTS_PER_MILLIMETRE],
  Letter: [8.5 * 72, 11 * 72],
  A3: [297 * POINTS_PER_MILLIMETRE, 420 * POINTS_PER_MILLIMETRE],
  Tabloid: [11 * 72, 17 * 72],
} as const satisfies Readonly<Record<string, readonly [width: number, height: number]>>;

export type PaperName = keyof typeof PAPERS;

export const PAPER_NAMES = Object.keys(PAPERS) as readonly PaperName[];

/** A circle that stays one in every medium. */
export interface CircleMark {
  readonly kind: "circle";
  readonly centre: Vec2;
  readonly radius: number;
  readonly ink: LineMark["ink"];
  readonly weight: number;
  readonly fill?: LineMark["ink"];
  readonly depicts: Depicted;
  /** What a file for CAD keeps of the thing, by name; not shown. Untrusted. */
  readonly attributes?: Readonly<Record<string, string>>;
}

/** Rings by the even-odd rule in a colour of the light's scale, cut to `clip`. */
export interface AreaMark {
  readonly kind: "area";
  readonly rings: readonly (readonly Vec2[])[];
  /** `#rrggbb` */
  readonly colour: string;
  readonly clip?: readonly Vec2[];
  readonly depicts: Depicted;
}

export interface HatchMark {
  readonly kind: "hatch";
  readonly areas: CommonArea;
  readonly depicts: Depicted;
}

/** A line in a colour of its own, over light of any level. */
export interface TracedMark {
  readonly kind: "traced";
  readonly points: readonly Vec2[];
  /** `#rrggbb` */
  readonly colour: string;
  readonly weight: number;
  readonly clip?: readonly Vec2[];
  readonly depicts: Depicted;
}

/** Words in a colour of their own, with a rim of another. */
export interface LabelMark extends Omit<TextMark, "kind" | "ink" | "ground"> {
  readonly kind: "label";
  readonly colour: string;
  readonly rim: string;
}

/** A picture as the bytes of its file. */
export interface Picture {
  readonly type: "png" | "jpeg";
  readonly bytes: Uint8Array;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

/** A picture at a size on paper. */
export interface PictureMark {
  readonly kind: "picture";
  /** Its upper left corner. */
  readonly at: Vec2;
  readonly width: number;
  readonly height: number;
  readonly picture: Picture;
  readonly depicts: Depicted;
}

export type PaperMark = Mark | CircleMark | AreaMark | HatchMark | TracedMark | LabelMark | PictureMark;

export interface Sheet {
  /** Stem of a file's name. */
  readonly name: string;
  readonly title: string;
  /** Points. */
  readonly width: number;
  readonly height: number;
  readonly marks: readonly PaperMark[];
  /** One sentence for those who do not see it. */
  readonly summary: string;
}

/** A drawing at a scale, before it lies on a sheet: what a CAD program gets at full size. */
export interface ScaledView {
  readonly marks: readonly PaperMark[];
  /** Where the room's corner (0, 0) lies (points). */
  readonly origin: Vec2;
  /** Points a metre of the room. */
  readonly perMetre: number;
}

/** Marks moved by a step (points). */
export function moved(marks: readonly PaperMark[], [dx, dy]: Vec2): PaperMark[] {
  return changed(marks, ([x, y]) => [x + dx, y + dy], 1);
}

/** Marks drawn for a screen made smaller (or larger) for paper, words with them. */
export function scaled(marks: readonly PaperMark[], factor: number): PaperMark[] {
  return changed(marks, ([x, y]) => [x * factor, y * factor], factor);
}

function changed(marks: readonly PaperMark[], by: (p: Vec2) => Vec2, factor: number): PaperMark[] {
  return marks.map((mark): PaperMark => {
    switch (mark.kind) {
      case "line":
        return { ...mark, points: mark.points.map(by) };
      case "traced":
        return { ...mark, points: mark.points.map(by), ...clipped(mark.clip, by) };
      case "area":
        return { ...mark, rings: mark.rings.map((ring) => ring.map(by)), ...clipped(mark.clip, by) };
      case "hatch":
        return { ...mark, areas: mark.areas.map((rings) => rings.map((ring) => ring.map(by))) };
      case "picture":
        return { ...mark, at: by(mark.at), width: mark.width * factor, height: mark.height * factor };
      case "circle":
        return { ...mark, centre: by(mark.centre), radius: mark.radius * factor };
      default:
        return { ...mark, at: by(mark.at), size: mark.size * factor };
    }
  });
}

function clipped(clip: readonly Vec2[] | undefined, by: (p: Vec2) => Vec2): { clip?: readonly Vec2[] } {
  return clip === undefined ? {} : { clip: clip.map(by) };
}

/** A circle by centre and radius (points). */
export function circle(
  centre: Vec2,
  radius: number,
  depicts: Depicted,
  more: Partial<Pick<CircleMark, "ink" | "weight" | "fill">> = {},
): CircleMark {
  return { kind: "circle", centre, radius, depicts, ink: "ink", weight: 1, ...more };
}

/** Line weights on paper are this much of those on a screen: 1.5, 1, 0.75 become 0.35, 0.23, 0.18 mm. */
export const PAPER_WEIGHT = 0.66;

/** In points: lines 1.6 mm apart. */
export const PAPER_HATCHING: Hatching = {
  step: 4.5,
  strokes: [
    { shift: 0, colour: "#000000", width: 0.4 },
    { shift: 0.4, colour: "#ffffff", width: 0.4 },
  ],
};

/** Inks on paper: all black enough to be copied without colour. */
export const PRINT = {
  ink: "#000000",
  quiet: "#333333",
  hairline: "#8c8c8c",
  luminaire: "#000000",
  sheet: "#ffffff",
  paper: "#ffffff",
  meets: "#000000",
  short: "#000000",
  close: "#000000",
} as const;
