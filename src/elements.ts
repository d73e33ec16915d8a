/** The custom elements. Importing this module registers them. */

export { CandlespanElevation } from "./presentation/elements/elevation/elevation.ts";
export { CandlespanPlan } from "./presentation/elements/plan/plan.ts";
export { CandlespanProfile } from "./presentation/elements/profile/profile.ts";
export { CandlespanScale } from "./presentation/elements/scale/scale.ts";
export type * from "./presentation/elements/shared/contract.ts";
export { CandlespanSheet } from "./presentation/elements/sheet/sheet.ts";
