/** Holds an error that a test measured to the bound of its case, and keeps it for the accuracy book while that is
 * written (`npm run evidence`). */
import { appendFileSync } from "node:fs";
import { expect } from "vitest";
import { CASES, type CaseName } from "./accuracy-cases.ts";

/** @param error as the bound is: a share, or an excess beyond the noise of a count, which may be negative
 * @param where the worst place, in a few words */
export function expectAccuracy(name: CaseName, error: number, where = ""): void {
  const file = process.env.ACCURACY_FILE;
  if (file !== undefined) appendFileSync(file, `${JSON.stringify({ name, error, where })}\n`);
  expect(error, name).toBeLessThanOrEqual(CASES[name].bound);
}
