import { type Box, boxOfPoints } from "../../geometry/box.ts";
import type { CalculationPlane } from "../../scene/calculation-plane.ts";

const boxes = new WeakMap<CalculationPlane, Box>();

/** Bounds of a plane's points (m); for a plane met before, those found then. */
export function boxOfPlane(plane: CalculationPlane): Box {
  let box = boxes.get(plane);
  if (box === undefined) {
    box = boxOfPoints(plane.points);
    boxes.set(plane, box);
  }
  return box;
}
