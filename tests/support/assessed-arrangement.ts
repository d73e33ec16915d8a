/** Scenes carried through to their judgement with the textbook's point sources. */

import { clashes } from "../../src/advice/clashes/clashes.ts";
import { isoluxField } from "../../src/app/isolux-field.ts";
import type { JudgedArrangement } from "../../src/app/judged-arrangement.ts";
import { marginPlane } from "../../src/app/margin-plane.ts";
import { maintainedLayers, totalOf } from "../../src/assessment/layer-light.ts";
import type { PlaneField } from "../../src/engine/result.ts";
import type { CalculationPlane, PlaneGrid } from "../../src/scene/calculation-plane.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import { textbookAssessment } from "./textbook-verdicts.ts";
import { rectanglePlane, textbookResult } from "./tiny-scene.ts";

export function judged(study: ResolvedStudy): JudgedArrangement[] {
  return study.scenes.map((scene) => {
    const plane = rectanglePlane("island top", [1, 2, 0.9], [2.4, 1], 96, 40);
    const edge = marginPlane({ ...plane, grid: plane.grid as PlaneGrid });
    const [inside, margin] = textbookResult({ ...scene, planes: [plane, edge] }).planes;
    const fine = new Map([["island top", { plane, field: inside }]]);
    const result = textbookResult(scene);
    const light = (of: CalculationPlane, field: PlaneField) =>
      totalOf(maintainedLayers(scene, field), of.points.length / 3);
    const grid = plane.grid as PlaneGrid;
    const field = isoluxField(grid, light(plane, inside), light(edge, margin));
    const contours = [{ plane: "island top", points: plane.points, grid, field }];
    return {
      scene,
      result,
      contours,
      clashes: clashes(scene),
      assessment: textbookAssessment(study, scene, result, fine),
    };
  });
}
