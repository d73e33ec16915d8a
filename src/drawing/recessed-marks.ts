/** What sits in the ceiling, seen from the side, on screen and paper alike: its opening in the ceiling's line, its body dashed above. */

import { rectangleBetween } from "../geometry/polygon.ts";
import { type Ink, line, type Mark, segment } from "./drawing.ts";

/** A body that goes in no further than this cannot be seen (drawing units). */
const LEAST = 2;

/** @param half half its width @param up how far its body goes above the ceiling; 0 where none is known (drawing units) */
export function recessedMarks(
  x: number,
  ceiling: number,
  { half, up, ink }: { readonly half: number; readonly up: number; readonly ink: Ink },
): Mark[] {
  const housing = rectangleBetween(x - half, ceiling, x + half, ceiling - up);
  return [
    segment(x - half, ceiling + 2.5, x + half, ceiling + 2.5, "recessed opening", ink, 1.5),
    segment(x - half, ceiling, x - half, ceiling + 5, "recessed opening", ink, 0.75),
    segment(x + half, ceiling, x + half, ceiling + 5, "recessed opening", ink, 0.75),
    ...(up > LEAST ? [line(housing, "recessed body", ink, 0.75, { closed: true, dash: "dashed" })] : []),
  ];
}
