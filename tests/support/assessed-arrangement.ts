/** Scenes carried through to their judgement with the textbook's point sources. */

import { marginPlane } from "../../src/app/contour-field.ts";
import type { JudgedArrangement } from "../../src/app/judged-arrangement.ts";
import type { PlaneGrid } from "../../src/scene/calculation-plane.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import { textbookAssessment } from "./textbook-verdicts.ts";
import { rectanglePlane, textbookResult } from "./tiny-scene.ts";

export function judged(study: ResolvedStudy): JudgedArrangement[] {
  return study.scenes.map((scene) => {
    const plane = rectanglePlane("island top", [1, 2, 0.9], [2.4, 1], 96, 40);
    const edge = marginPlane({ ...plane, grid: plane.grid as PlaneGrid });
    const [inside, margin] = textbookResult({ ...scene, planes: [plane, edge] }).planes;
    const fine = new Map([["island top", { plane, field: inside, margin: { plane: edge, field: margin } }]]);
    const result = textbookResult(scene);
    return { scene, result, fine, assessment: textbookAssessment(study, scene, result, fine) };
  });
}
