/** For applications: a study opened and asked on the main thread, with the scene and assessment that the elements take.
 * Calculations block; a page that must stay at hand asks the same of "candlespan/workers". */
export { type ArrangementLight, arrangementLight, type LightOptions } from "./app/arrangement-light.ts";
export { contourOf, type JudgedArrangement, type PlaneContour } from "./app/judged-arrangement.ts";
export { type OpenOptions, type OpenStudy, Workspace } from "./app/open-document.ts";
export { openStudy } from "./app/open-study.ts";
export { evennessOf, isMet, ranked } from "./app/ranking.ts";
export type { ReadFile, StudyFile } from "./app/study-files.ts";
export type { ArrangementAssessment } from "./assessment/assessment.ts";
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
export type { ResolvedStudy } from "./scene/resolved-study.ts";
export type { Scene } from "./scene/scene.ts";
