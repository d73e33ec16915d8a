/**
 * The library: pure computation, no DOM, no Node. SI throughout: metres, degrees in documents and answers, lux, lumens,
 * watts, candela. What is wrong with an input is an `Outcome` with issues, each with its place; `openStudy` and the
 * methods of a study throw `CandlespanError` instead, with the same issues.
 */

// A study, asked.
export type { CheckAnswer, FineAnswer, LayerAnswer, PlaneAnswer, ZoneAnswer } from "./app/check-answer.ts";
export type { IsoluxField } from "./app/isolux-field.ts";
export type { PlaneContour } from "./app/judged-arrangement.ts";
export { RULE_IDS } from "./app/search.ts";
export type { ReadFile } from "./app/study-files.ts";
export type { Check, Driver, Statistics } from "./assessment/assessment.ts";
// Figures of a field, and figures in words.
export { percentile, shareWithin, statistics } from "./assessment/statistics.ts";
export { PUBLISHED_TARGETS, type PublishedTarget } from "./assessment/targets-published.ts";
export type { Verdict } from "./assessment/verdict.ts";
export { OBJECTIVES, type Objective } from "./design/search/pareto.ts";
// Issues.
export { Cancelled, type Observer } from "./diagnostics/cancelled.ts";
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
export { formatIssue, type Issue, type Outcome, type SourceLocation } from "./diagnostics/issue.ts";
export { VERSION } from "./diagnostics/version.ts";
// Drawing.
export { isolines } from "./drawing/isolux.ts";
export { luxColour, scaleBands, scaleSteps } from "./drawing/light-scale.ts";
export type { PaperMark, PaperName, ScaledView, Sheet } from "./drawing/paper/paper.ts";
export { type PlanLight, type PlanLightInput, planLight } from "./drawing/plan-light.ts";
export { polarDiagramSvg } from "./drawing/polar-diagram-svg.ts";
export type { HandoverFile } from "./formats/handover-files.ts";
export { sheetSvg } from "./formats/sheet-svg.ts";
export { viewDxf } from "./formats/view-dxf.ts";
export {
  type Answer,
  type CheckOptions,
  type OpenStudyOptions,
  openStudy,
  type PaperOptions,
  Study,
} from "./library/study.ts";
// Photometric files.
export { type BeamAngle, beamAngle } from "./photometry/beam-angle.ts";
export { resampleToC } from "./photometry/c-gamma-resampling.ts";
export { type FluxCode, fluxCode, formatFluxCode } from "./photometry/flux-code.ts";
export type { IntensityDistribution, PhotometryType, Symmetry } from "./photometry/intensity-distribution.ts";
export { fluxWithin, type LuminousFlux, luminousFlux } from "./photometry/luminous-flux.ts";
export { anglesOf, directionOf } from "./photometry/photometric-planes.ts";
export type * from "./photometry/photometry.ts";
export type { ReadOptions } from "./photometry/readers/read-options.ts";
export { readPhotometry } from "./photometry/readers/read-photometry.ts";
export { intensityAt, intensityTowards } from "./photometry/reference-lookup.ts";
export { type PhotometrySummary, summarise } from "./photometry/summary.ts";
export { writeEulumdat } from "./photometry/writers/eulumdat-writer.ts";
export { type Lm63WriterOptions, writeLm63 } from "./photometry/writers/lm63-writer.ts";
export { writeTm33 } from "./photometry/writers/tm33-writer.ts";
export { insideFolder, type PhotometryPath, photometryPaths } from "./study/photometry-paths.ts";
export { checkStudy } from "./study/study.ts";
export { studyJsonSchema } from "./study/study-json-schema.ts";
export type { StudyDocument } from "./study/study-schema.ts";
export { placeIssues, readStudy } from "./study/study-text.ts";
export { formatIlluminance, readIlluminance } from "./units/illuminance-text.ts";
export { formatLength, runningDimensions } from "./units/length-text.ts";
export { readLength } from "./units/read-length.ts";
