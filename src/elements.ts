/** The custom elements. Importing this module registers them. */
export { CandlespanComparison } from "./presentation/elements/comparison/comparison.ts";
export { CandlespanElevation } from "./presentation/elements/elevation/elevation.ts";
export { CandlespanFigures } from "./presentation/elements/figures/figures.ts";
export { CandlespanGuidelineCards } from "./presentation/elements/guideline-cards/guideline-cards.ts";
export { CandlespanPlan } from "./presentation/elements/plan/plan.ts";
export { CandlespanPolar } from "./presentation/elements/polar/polar.ts";
export { CandlespanProfile } from "./presentation/elements/profile/profile.ts";
export { CandlespanScale } from "./presentation/elements/scale/scale.ts";
export { CandlespanSection } from "./presentation/elements/section/section.ts";
export type * from "./presentation/elements/shared/contract.ts";
export { CandlespanSheet } from "./presentation/elements/sheet/sheet.ts";
