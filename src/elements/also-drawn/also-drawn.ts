/**
 * What plan and profile draw beside the usual where somebody wants it: numbers, tolerances, the working edge. Whoever shows the
 * sheet makes it and hands it over, so that a first light waits for none of it.
 */

import type { Clash } from "../../advice/clashes/clash.ts";
import { pendantsOverHob } from "../../advice/over-hob.ts";
import { workingEdge } from "../../app/working-edge.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { heldTags, tagMarks } from "../../drawing/clash-marks.ts";
import { type Box, type Mark, textBox } from "../../drawing/drawing.ts";
import type { PlanObjects } from "../../drawing/plan-objects.ts";
import type { PlanFrame } from "../../drawing/plan-page.ts";
import { pointValues } from "../../drawing/point-values.ts";
import type { ProfileFrame } from "../../drawing/profile-frame.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import { type DrawnTolerance, toleranceMarks } from "../../drawing/tolerance-marks.ts";
import { workingEdgeLine } from "../../drawing/working-edge-line.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { ceilingBoxes } from "../../scene/ceiling-boxes.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Wording } from "../../words/wording.ts";
import { judgedTop } from "../shared/illuminance-probe.ts";

interface Drawn {
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment | undefined;
  readonly scale: SheetScale;
  readonly words: Wording;
}

interface DrawnPlan extends Drawn {
  readonly frame: PlanFrame;
  readonly objects: PlanObjects;
  /** What has a tag of its own already. */
  readonly clashes: readonly Clash[];
  /** From the room (m) to the page. */
  place(room: Vec2): Vec2;
}

interface DrawnProfile extends Drawn {
  readonly frame: ProfileFrame;
  /** Marks that stand there already. */
  readonly drawn: readonly Mark[];
}

export interface AlsoDrawn {
  plan(drawn: DrawnPlan): readonly Mark[];
  profile(drawn: DrawnProfile): readonly Mark[];
}

export interface AlsoWanted {
  /** The light at the judged points of the top, as numbers. */
  readonly values: boolean;
  /** The light where hands are, inside the edge that is worked at. */
  readonly workingEdge: boolean;
  /** How far pendants may be off with the same verdict; empty where that is not wanted. */
  readonly tolerances: readonly DrawnTolerance[];
  /** The tags of all luminaires, as the papers name them; else of those alone that the headline names. */
  readonly tags: boolean;
}

export function alsoDrawn({ values, workingEdge: isEdge, tolerances, tags }: AlsoWanted): AlsoDrawn {
  return {
    plan({ scene, assessment, scale, frame, objects, place, words, clashes }) {
      const drawing = { x: 0, y: 0, width: scale.width, height: frame.height };
      const held = heldTags(clashes);
      const named = tags ? ceilingBoxes(scene).map(({ tag }) => tag) : pendantsOverHob(scene);
      const untagged = new Set(named.filter((tag) => !held.has(tag)));
      const rings = [
        ...tagMarks(scene, untagged, scale, frame, objects.taken),
        ...toleranceMarks(tolerances, place, scale.perMetre, words.length, drawing),
      ];
      const top = values && assessment !== undefined ? judgedTop(scene, assessment) : undefined;
      const plane = scene.planes.find(({ name }) => name === top?.name);
      if (top === undefined || plane === undefined) return rings;
      const taken = [
        ...objects.taken,
        ...rings.flatMap((mark) => (mark.kind === "text" ? [textBox(mark)] : [])),
      ];
      return [...rings, ...pointValues(plane, top.illuminance, words.illuminanceUnit, place, taken)];
    },
    profile({ scene, assessment, scale, frame, words, drawn }) {
      const edge = isEdge && assessment !== undefined ? workingEdge(scene, assessment) : undefined;
      return edge === undefined ? [] : workingEdgeLine(edge, scale, frame, words, boxesOf(drawn));
    },
  };
}

/** Of words, and along lines of light and targets. */
function boxesOf(marks: readonly Mark[]): Box[] {
  return marks.flatMap((mark) => {
    if (mark.kind === "text") return [textBox(mark)];
    if (mark.depicts === "grid line") return [];
    return mark.points.slice(1).map(([x, y], i): Box => {
      const [x0, y0] = mark.points[i];
      return { x: Math.min(x0, x), y: Math.min(y0, y), width: Math.abs(x - x0), height: Math.abs(y - y0) };
    });
  });
}
