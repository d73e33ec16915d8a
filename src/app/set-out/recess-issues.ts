/** What holds a luminaire that is set into the ceiling: its hole, and the room above it. */

import { cutOutSides } from "../../luminaire/cut-out.ts";
import { cutOutFault } from "../../luminaire/cut-out-fault.ts";
import { planExtents } from "../../luminaire/plan-extent.ts";
import { depthBeyondVoid, isSetIn } from "../../scene/recess-depth.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Field, Hold } from "./hold.ts";
import type { SetOutBox } from "./set-out.ts";

/** @param length how a length (m) is written */
export function recessHolds(
  scene: Scene,
  boxes: readonly SetOutBox[],
  length: (metres: number) => string,
): Hold[] {
  return boxes.flatMap((box) => [...voidHolds(scene, box, length), ...cutOutHolds(scene, box, length)]);
}

/** What goes further into the ceiling than there is known to be room. */
function voidHolds(
  scene: Scene,
  { tag, layer, index, luminaire }: SetOutBox,
  length: (metres: number) => string,
): Hold[] {
  const { ceilingVoid } = scene.room;
  const depth = depthBeyondVoid(scene, scene.layers[layer].luminaires[index]);
  if (depth === undefined) return [];
  const goes = `Goes ${length(depth)} into the ceiling`;
  const field: Field = ["room", "ceilingVoid"];
  return [
    ceilingVoid === undefined
      ? {
          tags: [tag],
          words: `${goes}: clear height above the ceiling not stated.`,
          field,
          missing: [field],
        }
      : {
          tags: [tag],
          words: `${goes}, of ${length(ceilingVoid)} clear above the ceiling: a shallower luminaire, or one under the ceiling.`,
          field: ["luminaires", luminaire.name, "body"],
        },
  ];
}

/** A hole that the body does not pass, or that no flange covers. */
function cutOutHolds(
  scene: Scene,
  { tag, layer, index, luminaire }: SetOutBox,
  length: (metres: number) => string,
): Hold[] {
  const fault = cutOutFault(luminaire, isSetIn(scene, scene.layers[layer].luminaires[index]));
  if (luminaire.cutOut === undefined || fault === undefined) return [];
  const sides = (both: readonly number[]): string => [...new Set(both.map(length))].join(" × ");
  const wide = sides(planExtents(luminaire));
  const why =
    fault === "small"
      ? `the body, ${wide} wide, does not pass`
      : `wider than the flange of a body ${wide} wide covers, as far as is usual`;
  return [
    {
      tags: [tag],
      words: `Cut-out ${sides(cutOutSides(luminaire.cutOut))}: ${why}.`,
      field: ["luminaires", luminaire.name, "cutOut"],
    },
  ];
}
