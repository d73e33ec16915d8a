/** Marks cut to a window: lines, areas and hatches at its edge, circles and words by their place. */

import { bounds } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { clipLine } from "./clip-line.ts";
import type { PaperMark } from "./paper/paper.ts";

/** @param window corners of a rectangle, in the marks' units */
export function clippedMarks(marks: readonly PaperMark[], window: readonly Vec2[]): PaperMark[] {
  const [x0, y0, x1, y1] = bounds(window);
  const inside = ([x, y]: Vec2): boolean => x >= x0 && x <= x1 && y >= y0 && y <= y1;
  return marks.flatMap((mark): PaperMark[] => {
    switch (mark.kind) {
      case "line": {
        if (mark.points.every(inside)) return [mark];
        const { closed, fill: _, ...open } = mark;
        const points = closed === true ? [...mark.points, mark.points[0]] : mark.points;
        return clipLine(points, window).map((part) => ({ ...open, points: part }));
      }
      case "traced":
        return [{ ...mark, clip: window }];
      case "area":
        return [{ ...mark, clip: window }];
      case "hatch":
        return [{ ...mark, areas: [...mark.areas, [window]] }];
      case "circle":
        return inside(mark.centre) ? [mark] : [];
      default:
        return inside(mark.at) ? [mark] : [];
    }
  });
}
