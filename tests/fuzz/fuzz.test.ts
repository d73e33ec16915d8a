/** Some seconds of `npm run fuzz`: mutated inputs of every kind, each answered with a value that is sound or an issue that has a place. */
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import type { Kind } from "./answers.ts";
import { emptySummary, type Fault, MutatedInputs, samplesOf } from "./mutated-inputs.ts";

const FIXTURES = fileURLToPath(new URL("../../fixtures-data", import.meta.url));

it("answers mutated inputs", () => {
  const inputs = new MutatedInputs(samplesOf(FIXTURES, FIXTURES), 1);
  expect(inputs.unsound()).toEqual([]);
  const summary = emptySummary();
  const faults: Fault[] = [];
  for (let index = 0; index < 1000; index++) {
    const fault = inputs.answer(index, summary);
    if (fault !== undefined) faults.push(fault);
  }
  console.log(
    `worst ratio ${summary.worst.ratio.toFixed(2)} (input ${summary.worst.index} of ${summary.worst.sample})`,
  );
  expect(faults.map(({ index, sample, what }) => `${index} ${sample}: ${what}`)).toEqual([]);
  // Enough is read for its values to be checked, and of every kind something is reached.
  expect(summary.read.photometry).toBeGreaterThan(50);
  for (const kind of Object.keys(summary.read) as Kind[])
    expect(summary.read[kind] + summary.refused[kind]).toBeGreaterThan(10);
  expect(summary.longest.time).toBeLessThan(1000);
});
