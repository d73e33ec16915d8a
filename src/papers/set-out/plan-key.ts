/** The key to the set-out plan: what its signs mean, of those that are drawn. */

import type { SetOut } from "../../app/set-out/set-out.ts";
import { heldTags } from "../../drawing/clash-marks.ts";
import type { Depicted } from "../../drawing/depicted.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import type { ScaledView } from "../../drawing/paper/paper.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import { chosenOption, type Handover, handoverWords } from "../handover.ts";
import { setOutHolds } from "./holds.ts";

export function planKey(handover: Handover, layout: SetOut, { marks }: ScaledView): Block[] {
  const { boxes } = layout;
  const { scene, tolerances = [], clashes } = chosenOption(handover);
  const held = setOutHolds(handover, layout, handoverWords(handover));
  const heldBoxes = boxes.filter(({ tag }) => held.some(({ tags }) => tags.includes(tag)));
  const isDrawn = (depicts: Depicted): boolean => marks.some((mark) => mark.depicts === depicts);
  const isDashed = (depicts: Depicted): boolean =>
    marks.some((mark) => mark.depicts === depicts && mark.kind === "line" && mark.dash === "dashed");
  const dashed = [
    ...(isDashed("cabinet") ? ["overhead cabinets"] : []),
    ...(isDashed("island base") ? ["base of the island"] : []),
  ];
  const lines: readonly (readonly [isThere: boolean, words: string])[] = [
    [true, "Ceiling seen from above, over the floor plan; not mirrored."],
    [true, "Cross in a circle: pendant box (P), its body drawn at size around it."],
    [
      boxes.some(({ kind }) => kind === "recessed"),
      "Ring in a circle: recessed (R); a symbol, not its cut-out.",
    ],
    [
      boxes.some(({ kind }) => kind === "fixed"),
      "Square: fixed below the ceiling, to cabinet, hood or wall (F).",
    ],
    [dashed.length > 0, `Dashed: ${dashed.join(", ")}.`],
    [
      boxes.some(({ suspensions }) => suspensions !== undefined),
      "Dot, P1.1: a long pendant hangs here. Its box is where it is fed, not over its middle.",
    ],
    [
      tolerances.length > 0,
      "Dashed ring: anywhere in it the box leaves the verdict as it is, and meets nothing.",
    ],
    [heldTags(clashes).size > 0, "Heavy ring: on HOLD, and in the way of something."],
    [
      heldBoxes.length > 0,
      `On HOLD, ringed or not: ${shortTags(heldBoxes.map(({ tag }) => tag))}; why, under HOLD.`,
    ],
    [scene.layers.some(({ circuit }) => circuit !== undefined), "After a tag: its circuit."],
    [
      scene.layers.some(({ switches }) => switches !== undefined),
      "S: switch; a dotted line leads from it to a luminaire of its leg (letters under Circuits).",
    ],
    [
      isDrawn("switch place"),
      "A switch that stands aside, clear of another: its place is the dot it is led to.",
    ],
    [isDrawn("cut"), "Dash-dot frame: the part drawn larger."],
    [scene.room.joists !== undefined, "Dotted across the room: joist centrelines."],
    [(scene.room.keepOuts ?? []).length > 0, "Hatched: no box here."],
  ];
  return [
    heading("Key to the plan", 9),
    ...lines.filter(([isThere]) => isThere).map(([, words]) => bullet(words, SMALL)),
  ];
}
