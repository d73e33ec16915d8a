/** What the report says of how each option was calculated. */
import { expect, it } from "vitest";
import type { Handover } from "../../src/papers/handover.ts";
import { reportSheets } from "../../src/papers/report-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

const said = (handover: Handover): string =>
  reportSheets(handover)
    .flatMap(({ marks }) => marks)
    .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
    .join(" ");

it("names the options that a sentence on the calculation is of, where they differ", () => {
  const [arrangement] = kitchen({}).arrangements as object[];
  const arrangements = ["first", "second"].map((name) => ({ ...arrangement, name }));
  const alike = handoverOf(kitchen({ arrangements }));
  const [first, second] = alike.options;
  const { assessment } = second;
  const near = { ...assessment, method: { ...assessment.method, pointsTooNear: 1 } };
  const differing = { ...alike, options: [first, { ...second, assessment: near }] };
  expect(said(differing)).toMatch(
    /"first": Direct light [^"]*"second": Direct light [^"]* one point lies too near/,
  );
  expect(said(differing)).toMatch(/The figures of this section are those of first\./);
  expect(said({ ...differing, chosen: 1 })).toMatch(/The figures of this section are those of second\./);
  expect(said(alike)).not.toMatch(/"first": Direct/);
});
