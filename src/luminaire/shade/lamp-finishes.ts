/** How a lamp hides or sends its light. */
export const LAMP_FINISHES = ["frosted", "clear", "half-mirrored", "directional", "module"] as const;

export type LampFinish = (typeof LAMP_FINISHES)[number];
