/** The library: pure computation, no DOM, no Node. */

export { type AgeBand, type AgeRemark, ageBand, oldestEyes } from "./advice/age.ts";
export { colourDifference, type Lab, labOf } from "./advice/appearance/cielab.ts";
export { type Cohesion, cohesion, type Likeness } from "./advice/appearance/style-match.ts";
export {
  usualViewpoint,
  type Viewpoint,
  type VisualWeight,
  viewpointOf,
  visualWeight,
} from "./advice/appearance/visual-weight.ts";
export {
  type BodyShadow,
  bodyShadows,
  type LayerShadow,
  type Posture,
} from "./advice/body-shadow.ts";
export { type CountSizeCell, type CountSizeTable, countSizeTable } from "./advice/count-size-table.ts";
export {
  type AgeingRow,
  ageing,
  type Depreciation,
  maintenanceAt,
  USUAL_DEPRECIATION,
  yearsUntil,
} from "./advice/depreciation.ts";
export { type Findings, findingsOf, type PersonFindings } from "./advice/findings.ts";
export {
  type GlareRequest,
  type LuminaireInView,
  type MirrorImage,
  type PersonGlare,
  personGlare,
} from "./advice/glare/person-glare.ts";
export {
  type CardOptions,
  cardSummary,
  guidelineCards,
  type TopLight,
} from "./advice/guidelines/cards.ts";
export type { GuidelineCard, GuidelineSubject, ImpliedRow } from "./advice/guidelines/guideline-card.ts";
export { familiarPlace, LUX_STEPS, seenSteps } from "./advice/illuminance-examples.ts";
export { type LoadReport, loadReport } from "./advice/load.ts";
export { type PendantRow, pendantRow } from "./advice/pendant-row.ts";
export { type EyeLight, eyeLight, eyePlanes } from "./advice/people/eye-light.ts";
export { type HeadRoom, headRoom } from "./advice/people/head-room.ts";
export { type Sightline, sightlines } from "./advice/people/sightlines.ts";
export { SuperposedLight } from "./advice/superposed-light.ts";
export { type Surround, surround, surroundIlluminance } from "./advice/surround.ts";
export { checkJson } from "./app/check-json.ts";
export { type IsoluxField, isoluxField, marginPlane } from "./app/contour-field.ts";
export type { JudgedArrangement } from "./app/judged-arrangement.ts";
export { reliances } from "./app/schedule/flux-margin.ts";
export { holds } from "./app/schedule/open-issues.ts";
export { type SetOut, type SetOutBox, setOut } from "./app/schedule/set-out.ts";
export { assess, type FineField } from "./assessment/assess.ts";
export type * from "./assessment/assessment.ts";
export { centreProfile, endShares, type Profile, steepestGradient } from "./assessment/gradient.ts";
export { averageOf } from "./assessment/layer-light.ts";
export { percentile, shareWithin, statistics } from "./assessment/statistics.ts";
export {
  PUBLISHED_TARGETS,
  PUBLISHED_TARGETS_BY_ID,
  type PublishedTarget,
} from "./assessment/targets-published.ts";
export { uncertaintyAdvice } from "./assessment/uncertainty/advice.ts";
export { DEFAULT_BANDS, type InputBands } from "./assessment/uncertainty/input-bands.ts";
export {
  type Criterion,
  type CriterionVerdict,
  type VerdictMethod,
  type VerdictOptions,
  verdictMethod,
} from "./assessment/uncertainty/verdict-method.ts";
export { type Verdict, worstVerdict } from "./assessment/verdict.ts";
export {
  type AsBuilt,
  type BuiltOffset,
  builtScene,
  readOffsets,
  replay,
} from "./design/boxes/as-built.ts";
export {
  type RobustBoxes,
  type RobustKind,
  type RobustRequest,
  robustBoxes,
} from "./design/boxes/robust-boxes.ts";
export { type ToleranceRing, toleranceRings } from "./design/boxes/tolerance-ring.ts";
export { type Candidate, hungCandidate, type Kind, kindOf } from "./design/search/candidate.ts";
export type { Objective } from "./design/search/pareto.ts";
export type { Checked, FullCheck, Proposal, Proposals } from "./design/search/proposals.ts";
export { type SearchRequest, type SearchResult, searchArrangements } from "./design/search/search.ts";
export { type SearchGrid, searchGrid } from "./design/search/search-grid.ts";
export { candidatesOf, type SearchSpace, usualSpace } from "./design/search/search-space.ts";
export { pendantShortlist } from "./design/search/shortlist.ts";
export { type StandingLight, standingLight } from "./design/search/standing-light.ts";
export {
  compareShadeVariants,
  type ShadeVariant,
  type ShadeVariantResult,
  shadeVariants,
} from "./design/shade-variants.ts";
export { type Substitution, substitution } from "./design/substitution.ts";
export type { Culprit } from "./design/verify/diagnose-deviation.ts";
export { type Reading, type Readings, readReadings } from "./design/verify/readings.ts";
export { type MeterClass, type Verification, type VerifyRequest, verify } from "./design/verify/verify.ts";
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
export { formatIssue, type Issue, type Outcome, type SourceLocation } from "./diagnostics/issue.ts";
export { isolines } from "./drawing/isolux.ts";
export type { PaperMark, PaperName, ScaledView, Sheet } from "./drawing/paper/paper.ts";
export { type PlanLight, type PlanLightInput, planLight } from "./drawing/plan-light.ts";
export { polarDiagramSvg } from "./drawing/polar-diagram-svg.ts";
export { luxColour, scaleBands, scaleSteps } from "./drawing/scale.ts";
export { type Calculate, calculate } from "./engine/calculate.ts";
export { LightEngine } from "./engine/light-engine.ts";
export type {
  CalculationResult,
  EnergyBalance,
  LayerField,
  Method,
  PatchField,
  PlaneField,
} from "./engine/result.ts";
export { SURFACE_LIGHT, type SurfaceLight, surfaceLight } from "./engine/surfaces/surface-light.ts";
export { type HandoverFile, handoverFiles } from "./formats/handover-files.ts";
export { sheetSvg } from "./formats/sheet-svg.ts";
export { viewDxf } from "./formats/view-dxf.ts";
export { type BeamLuminaireData, beamLuminaire } from "./luminaire/beam-luminaire.ts";
export { lowestPoint } from "./luminaire/extent.ts";
export { planExtents, widthAlong } from "./luminaire/plan-extent.ts";
export { scaledLuminaire } from "./luminaire/scaled.ts";
export { relamped } from "./luminaire/with-lamp-flux.ts";
export {
  type Handover,
  type HandoverOption,
  handoverFacts,
  lampsOf,
  optionOfAnswer,
  optionOfJudged,
  studyFingerprint,
} from "./papers/handover.ts";
export { isoluxSheet } from "./papers/isolux-sheet.ts";
export { type BeamAngle, beamAngle } from "./photometry/beam-angle.ts";
export { resampleToC } from "./photometry/c-gamma-resampling.ts";
export { type FluxCode, fluxCode, formatFluxCode } from "./photometry/flux-code.ts";
export type { IntensityDistribution, PhotometryType, Symmetry } from "./photometry/intensity-distribution.ts";
export { fluxWithin, type LuminousFlux, luminousFlux } from "./photometry/luminous-flux.ts";
export { anglesOf, directionOf, mirrorHorizontal } from "./photometry/photometric-planes.ts";
export type * from "./photometry/photometry.ts";
export { type ReadOptions, readPhotometry } from "./photometry/readers/read-photometry.ts";
export { intensityAt, intensityTowards } from "./photometry/reference-lookup.ts";
export { type PhotometrySummary, summarise } from "./photometry/summary.ts";
export { writeEulumdat } from "./photometry/writers/eulumdat-writer.ts";
export { type Lm63WriterOptions, writeLm63 } from "./photometry/writers/lm63-writer.ts";
export { writeTm33 } from "./photometry/writers/tm33-writer.ts";
export { clearanceOf } from "./scene/arrangement.ts";
export { contourLattice, edgeRing, fineGrid } from "./scene/calculation-grid.ts";
export { islandToRoom, roomToIsland, topHeightAt } from "./scene/island.ts";
export { resolveStudy } from "./scene/resolve.ts";
export type { ResolvedStudy } from "./scene/resolved-study.ts";
export type { Scene } from "./scene/scene.ts";
export type { StudyContext } from "./scene/study-context.ts";
export { insideFolder, type PhotometryPath, photometryPaths } from "./study/photometry-paths.ts";
export { checkStudy, type StudyDocument } from "./study/study.ts";
export { studyJsonSchema } from "./study/study-json-schema.ts";
export { placeIssues, readStudy } from "./study/study-text.ts";
export { formatIlluminance, readIlluminance } from "./units/illuminance-text.ts";
export { formatLength, readLength, runningDimensions } from "./units/length-text.ts";
export { checkText } from "./words/check-text.ts";
export { zoneSentence } from "./words/text.ts";
