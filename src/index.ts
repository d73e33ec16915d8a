/** The library: pure computation, no DOM, no Node. */

export { type AgeBand, type AgeRemark, ageBand, oldestEyes } from "./assessment/age.ts";
export { colourDifference, type Lab, labOf } from "./assessment/appearance/cielab.ts";
export { type Cohesion, cohesion, type Likeness } from "./assessment/appearance/cohesion.ts";
export {
  usualViewpoint,
  type Viewpoint,
  type VisualWeight,
  viewpointOf,
  visualWeight,
} from "./assessment/appearance/visual-weight.ts";
export { type AssessOptions, assess, type FineField } from "./assessment/assess.ts";
export type * from "./assessment/assessment.ts";
export {
  type BodyShadow,
  bodyShadows,
  type LayerShadow,
  type Posture,
} from "./assessment/body-shadow.ts";
export { type CountSizeCell, type CountSizeTable, countSizeTable } from "./assessment/count-size-table.ts";
export {
  type AgeingRow,
  ageing,
  type Depreciation,
  maintenanceAt,
  USUAL_DEPRECIATION,
  yearsUntil,
} from "./assessment/depreciation.ts";
export { familiarPlace, LUX_STEPS, seenSteps } from "./assessment/familiar-places.ts";
export { type Findings, findingsOf, type PersonFindings } from "./assessment/findings.ts";
export { fixedBandJudge, type Judge, type Judgement, type Question } from "./assessment/fixed-band.ts";
export {
  type GlareRequest,
  type LuminaireInView,
  type MirrorImage,
  type PersonGlare,
  personGlare,
} from "./assessment/glare/person-glare.ts";
export { centreProfile, endShares, type Profile, steepestGradient } from "./assessment/gradient.ts";
export type { GuidelineCard, GuidelineSubject, ImpliedRow } from "./assessment/guideline-card.ts";
export {
  type CardOptions,
  cardSummary,
  guidelineCards,
  type TopLight,
} from "./assessment/guidelines/cards.ts";
export { averageOf } from "./assessment/layer-light.ts";
export { type LoadReport, loadReport } from "./assessment/load.ts";
export { type PendantRow, pendantRow } from "./assessment/pendant-row.ts";
export { type EyeLight, eyeLight, eyePlanes } from "./assessment/people/eye-light.ts";
export { type HeadRoom, headRoom } from "./assessment/people/head-room.ts";
export { type Sightline, sightlines } from "./assessment/people/sightlines.ts";
export { percentile, shareWithin, statistics } from "./assessment/statistics.ts";
export { SuperposedLight } from "./assessment/superposed-light.ts";
export { type Surround, surround, surroundIlluminance } from "./assessment/surround.ts";
export {
  PUBLISHED_TARGETS,
  PUBLISHED_TARGETS_BY_ID,
  type PublishedTarget,
} from "./assessment/targets-published.ts";
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
export type { Culprit } from "./design/verify/culprits.ts";
export { type Reading, type Readings, readReadings } from "./design/verify/readings.ts";
export { type MeterClass, type Verification, type VerifyRequest, verify } from "./design/verify/verify.ts";
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
export { formatIssue, type Issue, type Outcome, type SourceLocation } from "./diagnostics/issue.ts";
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
export { type BeamLuminaireData, beamLuminaire } from "./luminaire/beam-luminaire.ts";
export { lowestPoint } from "./luminaire/extent.ts";
export { planExtents, widthAlong } from "./luminaire/plan-extent.ts";
export { relamped } from "./luminaire/relamped.ts";
export { scaledLuminaire } from "./luminaire/scaled.ts";
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
export type { PaperMark, PaperName, ScaledView, Sheet } from "./presentation/drawing/paper/paper.ts";
export { type PlanLight, type PlanLightInput, planLight } from "./presentation/drawing/plan-light.ts";
export { polarDiagramSvg } from "./presentation/drawing/polar-diagram-svg.ts";
export { type HandoverFile, handoverFiles } from "./presentation/export/handover-files.ts";
export { sheetSvg } from "./presentation/export/sheet-svg.ts";
export { viewDxf } from "./presentation/export/view-dxf.ts";
export { type IsoluxField, isolines, isoluxField, marginPlane } from "./presentation/isolux.ts";
export { checkJson } from "./presentation/report/check-json.ts";
export { checkText } from "./presentation/report/check-text.ts";
export {
  type Handover,
  type HandoverOption,
  handoverFacts,
  lampsOf,
  optionOfAnswer,
  optionOfJudged,
  studyFingerprint,
} from "./presentation/report/handover/handover.ts";
export { isoluxSheet } from "./presentation/report/isolux-sheet.ts";
export type { JudgedArrangement } from "./presentation/report/judged-arrangement.ts";
export { luxColour, scaleBands, scaleSteps } from "./presentation/scale.ts";
export { holds } from "./presentation/schedule/holds.ts";
export { reliances } from "./presentation/schedule/reliance.ts";
export { type SetOut, type SetOutBox, setOut } from "./presentation/schedule/set-out.ts";
export { SURFACE_LIGHT, type SurfaceLight, surfaceLight } from "./presentation/surface-light.ts";
export { zoneSentence } from "./presentation/text.ts";
export { clearanceOf } from "./scene/arrangement.ts";
export { contourLattice, edgeRing, fineGrid } from "./scene/calculation-grid.ts";
export { islandToRoom, roomToIsland, topHeightAt } from "./scene/island.ts";
export { insideFolder, type PhotometryPath, photometryPaths } from "./scene/photometry-paths.ts";
export { resolveStudy } from "./scene/resolve.ts";
export type { ResolvedStudy } from "./scene/resolved-study.ts";
export type { Scene } from "./scene/scene.ts";
export { checkStudy, type StudyDocument } from "./scene/study.ts";
export type { StudyContext } from "./scene/study-context.ts";
export { studyJsonSchema } from "./scene/study-json-schema.ts";
export { placeIssues, readStudy } from "./scene/study-text.ts";
export { formatIlluminance, readIlluminance } from "./units/illuminance-text.ts";
export { formatLength, readLength, runningDimensions } from "./units/length-text.ts";
