/** The library: pure computation, no DOM, no Node. */
export { CandlespanError, orThrow } from "./diagnostics/candlespan-error.ts";
export { formatIssue, type Issue, type Outcome, type SourceLocation } from "./diagnostics/issue.ts";
export type { IntensityDistribution, PhotometryType, Symmetry } from "./photometry/intensity-distribution.ts";
export { fluxWithin, type LuminousFlux, luminousFlux } from "./photometry/luminous-flux.ts";
export { anglesOf, directionOf, mirrorHorizontal } from "./photometry/photometric-planes.ts";
export { intensityAt, intensityTowards } from "./photometry/reference-lookup.ts";
export { insideFolder, type PhotometryPath, photometryPaths } from "./scene/photometry-paths.ts";
export { checkStudy, readStudy, type StudyDocument } from "./scene/study.ts";
export type { StudyContext } from "./scene/study-context.ts";
export { formatIlluminance, readIlluminance } from "./units/illuminance-text.ts";
export { formatLength, readLength, runningDimensions } from "./units/length-text.ts";
