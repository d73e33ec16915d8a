/** The probability of reaching a target from which on it counts as met: an option of the commands whose
 * answer is a verdict. Drawings and papers state theirs at the usual one. */

import { printable } from "../diagnostics/printable.ts";
import { type Command, oneValue, usageError } from "./command.ts";

export const CONFIDENCE = {
  confidence: oneValue("P", "probability of reaching a target that counts as met", "0.9"),
} as const satisfies Command["options"];

export function confidenceOf(text: string): number {
  const value = /^0?\.\d{1,6}$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= 0.5 && value <= 0.999))
    throw usageError("--confidence is not a probability it can use.", "0.5 to 0.999", printable(text, 40));
  return value;
}
