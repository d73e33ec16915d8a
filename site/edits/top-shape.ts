/** Shapes of the top as outlines in the island's frame: a rectangle, an L, a T or a U within length and width. */

import { metresOf } from "../../src/app.ts";
import type { Edit } from "../store/history.ts";
import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { type RawLength, type RawStudy, tidy } from "./raw-study.ts";
import { topSize } from "./room-contents.ts";

export type TopShape = "rectangle" | "L" | "T" | "U";

/** Depth of a worktop on the arms (m); common practice, no source. */
const ARM = 0.65;
/** Least of width over the arm's depth at which a shape shows (ratio). */
const LEAST = 1.5;

function metres(length: unknown): number {
  return metresOf(length) ?? 0;
}

/** Which shape an outline is, by its corners; `other` where it is none of these. */
export function topShape(study: RawStudy): TopShape | "other" {
  const outline = study.island?.outline;
  if (outline === undefined) return "rectangle";
  if (outline.length === 4) return "rectangle";
  if (outline.length === 6) return "L";
  if (outline.length !== 8) return "other";
  const [length] = topSize(study);
  const far = outline.filter(([, y]) => metres(y) > 0).map(([x]) => metres(x));
  return far.some((x) => x < 1e-6) && far.some((x) => Math.abs(x - length) < 1e-6) && reachesFarEnds(outline)
    ? "U"
    : "T";
}

/** Whether the two arms, at the ends, are the farthest: a U, and not a T, whose stem is. */
function reachesFarEnds(outline: readonly (readonly [unknown, unknown])[]): boolean {
  const ys = outline.map(([, y]) => metres(y));
  const most = Math.max(...ys);
  const xs = outline.filter((_, i) => ys[i] > most - 1e-6).map(([x]) => metres(x));
  return Math.min(...xs) < 1e-6;
}

export function shapeTop(study: RawStudy, shape: TopShape): NamedEdit {
  const [length, wide] = topSize(study);
  const arm = tidy(Math.min(ARM, length / 3));
  // An arm needs somewhere to reach: a narrow top is widened for it.
  const width = shape === "rectangle" ? wide : tidy(Math.max(wide, LEAST * arm));
  const depth = Math.min(ARM, width / LEAST);
  const size: Edit[] = [
    { path: ["island", "length"], value: tidy(length) },
    { path: ["island", "width"], value: tidy(width) },
  ];
  const outline = shape === "rectangle" ? undefined : outlineOf(shape, length, width, arm, depth);
  return {
    name: shape === "rectangle" ? "rectangular top" : `${shape}-shaped top`,
    edits: [...size, { path: ["island", "outline"], value: outline as Json | undefined }],
  };
}

/** Counter-clockwise from the frame's origin. */
function outlineOf(shape: "L" | "T" | "U", l: number, w: number, arm: number, depth: number): number[][] {
  const [a, b] = [(l - arm) / 2, (l + arm) / 2];
  const corners: Record<typeof shape, number[][]> = {
    L: [
      [0, 0],
      [l, 0],
      [l, depth],
      [arm, depth],
      [arm, w],
      [0, w],
    ],
    T: [
      [0, 0],
      [l, 0],
      [l, depth],
      [b, depth],
      [b, w],
      [a, w],
      [a, depth],
      [0, depth],
    ],
    U: [
      [0, 0],
      [l, 0],
      [l, w],
      [l - arm, w],
      [l - arm, depth],
      [arm, depth],
      [arm, w],
      [0, w],
    ],
  };
  return corners[shape].map((corner) => corner.map(tidy));
}

/** Length or width of the top set: of an outline, every corner is moved in proportion. */
export function sizeTop(study: RawStudy, axis: 0 | 1, size: RawLength): Edit[] {
  const key = axis === 0 ? "length" : "width";
  const outline = study.island?.outline;
  const now = topSize(study)[axis];
  const own: Edit = { path: ["island", key], value: size };
  if (outline === undefined || now <= 0) return [own];
  const scaled = outline.map((corner) =>
    corner.map((each, i) => (i === axis ? tidy((metres(each) * metres(size)) / now) : each)),
  );
  return [own, { path: ["island", "outline"], value: scaled as unknown as Json }];
}
