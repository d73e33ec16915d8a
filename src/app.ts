/** For applications: what the elements are given and what a page says around them. A study opened here is asked on the
 * main thread: calculations block; a page that must stay at hand asks the same of "candlespan/workers". */

// Words and figures as they are typed and shown.
export type { GuidelineCard } from "./advice/guidelines/guideline-card.ts";
export { type ArrangementLight, arrangementLight, type LightOptions } from "./app/arrangement-light.ts";
export { contourOf, type JudgedArrangement, type PlaneContour } from "./app/judged-arrangement.ts";
export { downlightGrid, type NewStudy, usualPendants } from "./app/new-study.ts";
export { type OpenOptions, type OpenStudy, Workspace } from "./app/open-document.ts";
export { openStudy } from "./app/open-study.ts";
export { evennessOf, isMet, ranked, rankedPlane } from "./app/ranking.ts";
export { ownerOf } from "./app/set-out/hold.ts";
export type { ReadFile, StudyFile } from "./app/study-files.ts";
export type { ArrangementAssessment } from "./assessment/assessment.ts";
// What a study may name.
export { PUBLISHED_TARGETS } from "./assessment/targets-published.ts";
// What a search of rows tries.
export { pendantShortlist, standsIn } from "./design/search/shortlist.ts";
// Issues.
export { Cancelled } from "./diagnostics/cancelled.ts";
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
// A study, its light, and who ranks it.
export { FILE_LIMITS, megabytes } from "./diagnostics/file-limits.ts";
export { formatIssue, formatLocation, type Issue, type Outcome, type Phrase } from "./diagnostics/issue.ts";
export { formatPointer, parsePointer } from "./diagnostics/json-path.ts";
export { issueIn } from "./diagnostics/phrase.ts";
// Papers and tables to hand over.
export { PAPER_NAMES, type PaperName, type Picture } from "./drawing/paper/paper.ts";
export {
  scaledBy,
  turnedAbout,
  turnOntoAxis,
  type UnderlayImage,
  type UnderlayPlacement,
} from "./drawing/underlay.ts";
export { illuminanceCsv } from "./formats/csv-writer.ts";
export { type HandoverFile, handoverFiles } from "./formats/handover-files.ts";
export { sheetSvg } from "./formats/sheet-svg.ts";
export { PDF_UNDERLAY, type UnderlayFile, underlayFile } from "./formats/underlay-file.ts";
export { isInside } from "./geometry/polygon.ts";
export { bodyOutline, NAMED_BODY_PROFILES } from "./luminaire/body-profiles.ts";
export { EVIDENCE } from "./luminaire/evidence.ts";
export { filedBody, filedSides } from "./luminaire/filed-body.ts";
export type { Luminaire } from "./luminaire/luminaire.ts";
export { oneSided, SIDES, turnOf, upwardShare } from "./luminaire/one-sided.ts";
export { planExtents } from "./luminaire/plan-extent.ts";
export { FINISH_NAMES } from "./luminaire/shade/finishes.ts";
export { LAMP_FINISHES } from "./luminaire/shade/lamp-finishes.ts";
export { SHADE_FORMS } from "./luminaire/shade/shade-forms.ts";
export { type SuspensionPoints, suspensionPoints } from "./luminaire/suspension-points.ts";
export { type Handover, handoverOption, headOf, lampsOf, studyFingerprint } from "./papers/handover.ts";
export { PAPER_DOCUMENTS } from "./papers/paper-documents.ts";
export { pictureOf } from "./papers/picture.ts";
export { holdsOf } from "./papers/set-out/holds.ts";
export { PHOTOMETRIC_ENDINGS } from "./photometry/photometric-formats.ts";
export { shortTags } from "./scene/ceiling-boxes.ts";
export { recessDepth } from "./scene/recess-depth.ts";
export type { ResolvedStudy } from "./scene/resolved-study.ts";
export { rowSpacing } from "./scene/row-spacing.ts";
export type { Scene } from "./scene/scene.ts";
export { seatPlaces } from "./scene/seat-places.ts";
export { reachBeyondTop } from "./scene/top-overhang.ts";
export { arrangementLetters } from "./study/arrangement-letters.ts";
export { newLetter } from "./study/new-letter.ts";
export { formatIlluminance, formatIlluminanceValue, readIlluminance } from "./units/illuminance-text.ts";
export { formatLength } from "./units/length-text.ts";
export { powerFigure } from "./units/power-text.ts";
export { degrees } from "./units/quantities.ts";
export { metresOf, readLength } from "./units/read-length.ts";
export { type LengthRange, readTypedLength, type TypedLength } from "./units/typed-length.ts";
export type { FindingsSection } from "./words/findings-sections.ts";
