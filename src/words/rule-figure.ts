import type { GuidelineCard } from "../advice/guidelines/guideline-card.ts";
import { formatLength, type LengthUnit } from "../units/length-text.ts";

/** A figure of what a rule of thumb measures: a length (m), a count or a ratio. */
export function ruleFigure(value: number, { measure: { kind } }: GuidelineCard, unit: LengthUnit): string {
  if (kind === "length") return formatLength(value, unit);
  return kind === "count" ? `${value}` : value.toFixed(value >= 20 ? 0 : 2);
}
