/** An option keeps its letter for life, whatever is added, copied or removed beside it. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { NamedEdit } from "../../site/edits/named-edit.ts";
import { addOption, copyOption, removeOption } from "../../site/edits/options.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { arrangementLetters } from "../../src/app.ts";

const study = example as unknown as RawStudy;
const after = (document: RawStudy, edit: NamedEdit): RawStudy =>
  ({ ...document, arrangements: edit.edits[0].value }) as unknown as RawStudy;
const named = (document: RawStudy): string[] => {
  const letters = arrangementLetters(document.arrangements);
  return document.arrangements.map(({ name }, i) => `${letters[i]} ${name}`);
};

it("gives a copy the next letter and leaves the others theirs", () => {
  const copied = after(study, copyOption(study, 0));
  expect(named(copied)).toEqual([
    "A three domes",
    "D three domes 2",
    "B two narrow cones",
    "C three opal globes",
  ]);
  const fewer = after(copied, removeOption(copied, 0));
  expect(named(fewer)).toEqual(["D three domes 2", "B two narrow cones", "C three opal globes"]);
  const more = after(fewer, addOption(fewer, { name: "two narrow cones", layers: [] }));
  expect(named(more).at(-1)).toBe("E two narrow cones 2");
});
