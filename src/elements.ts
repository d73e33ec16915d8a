/** The custom elements. Importing this module registers them. */
export { CandlespanComparison } from "./presentation/elements/comparison/comparison.ts";
export { CandlespanElevation } from "./presentation/elements/elevation/elevation.ts";
export { CandlespanFigures } from "./presentation/elements/figures/figures.ts";
export { CandlespanGuidelineCards } from "./presentation/elements/guideline-cards/guideline-cards.ts";
export { CandlespanLengthField } from "./presentation/elements/length-field/length-field.ts";
export { CandlespanLuminairePicker } from "./presentation/elements/luminaire-picker/luminaire-picker.ts";
export { CandlespanPlan } from "./presentation/elements/plan/plan.ts";
export { CandlespanPolar } from "./presentation/elements/polar/polar.ts";
export { CandlespanProfile } from "./presentation/elements/profile/profile.ts";
export { CandlespanScale } from "./presentation/elements/scale/scale.ts";
export { CandlespanSection } from "./presentation/elements/section/section.ts";
export { CandlespanShade } from "./presentation/elements/shade/shade.ts";
export type * from "./presentation/elements/shared/contract.ts";
export { type MovedLuminaire, movedScene } from "./presentation/elements/shared/moved-scene.ts";
export { CandlespanSheet } from "./presentation/elements/sheet/sheet.ts";
export { valueAt, withValueAt } from "./presentation/elements/study-fields/edit-path.ts";
export { CandlespanStudyFields } from "./presentation/elements/study-fields/study-fields.ts";
export { CandlespanLightTable, CandlespanLuminaireTable } from "./presentation/elements/twins/light-table.ts";
