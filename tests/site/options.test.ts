/** An option keeps its letter for life, whatever is added, copied or removed beside it. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { withFollowingNames } from "../../site/edits/following-names.ts";
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
    "B two narrow cones",
    "C three opal globes",
    "D three domes, copy",
  ]);
  const fewer = after(copied, removeOption(copied, 0));
  expect(named(fewer)).toEqual(["B two narrow cones", "C three opal globes", "D three domes, copy"]);
  const more = after(fewer, addOption(fewer, { name: "two narrow cones", layers: [] }));
  expect(named(more).at(-1)).toBe("E two narrow cones 2");
});

it("lets a name that only counts the pendants follow them, until somebody types another", () => {
  const layer = (count: number, luminaire = "dome") => ({
    name: "pendants",
    role: "pendant" as const,
    luminaire,
    row: { count },
  });
  const of = (name: string, ...layers: ReturnType<typeof layer>[]): RawStudy => ({
    ...study,
    arrangements: [
      { name, layers },
      { name: "5 pendants", layers: [layer(2)] },
    ],
  });
  const row = ["arrangements", 0, "layers", 0, "row", "count"];
  const nameAfter = (document: RawStudy, path: (string | number)[], value: unknown) =>
    withFollowingNames(document, [{ path, value: value as never }]).at(1)?.value;
  expect(nameAfter(of("3 pendants", layer(3)), row, 4)).toBe("4 pendants");
  expect(nameAfter(of("2 pendants", layer(2)), row, 1)).toBe("1 pendant");
  expect(nameAfter(of("3 pendants 2", layer(3)), row, 4)).toBe("4 pendants");
  expect(nameAfter(of("3 pendants", layer(3)), row, 5)).toBe("5 pendants 2");
  expect(nameAfter(of("3 × dome", layer(3)), row, 4)).toBe("4 × dome");
  const luminaire = ["arrangements", 0, "layers", 0, "luminaire"];
  expect(nameAfter(of("3 × dome", layer(3)), luminaire, "cone")).toBe("3 × cone");
  // 2026-11-29: "A 3 pendants" stayed beside "B 4 × cone" when a file was hung in it.
  expect(nameAfter(of("3 pendants", layer(3)), luminaire, "cone")).toBe("3 × cone");
  // Two layers of them are counted together.
  expect(nameAfter(of("4 pendants", layer(3), layer(1)), row, 2)).toBe("3 pendants");
  for (const typed of ["over the island", "three domes", "4 pendants", "3 pendants, high"])
    expect(nameAfter(of(typed, layer(3)), row, 4), typed).toBeUndefined();
  // A clearance changes no count; nothing hangs there any more; the hand types a name itself.
  expect(
    nameAfter(of("3 pendants", layer(3)), ["arrangements", 0, "layers", 0, "row", "clearance"], 1),
  ).toBeUndefined();
  expect(nameAfter(of("3 pendants", layer(3)), ["arrangements", 0, "layers"], [])).toBeUndefined();
  expect(nameAfter(of("3 pendants", layer(3)), ["arrangements", 0, "name"], "mine")).toBeUndefined();
});

// 2026-11-28: "B 4 pendants 2" beside "A 4 pendants" told nothing of what hung there.
it("calls a copy one, and then by the first thing in which it differs", () => {
  const layer = { name: "pendants", role: "pendant" as const, luminaire: "dome" };
  const first = { name: "4 pendants", layers: [{ ...layer, row: { count: 4, clearance: 0.8 } }] };
  const copied = after(
    { ...study, arrangements: [first] },
    copyOption({ ...study, arrangements: [first] }, 0),
  );
  expect(named(copied)).toEqual(["A 4 pendants", "B 4 pendants, copy"]);
  expect(named(after(copied, copyOption(copied, 1)))[2]).toBe("C 4 pendants, copy 2");
  const nameAfter = (path: (string | number)[], value: unknown) =>
    withFollowingNames(copied, [
      { path: ["arrangements", 1, "layers", 0, ...path], value: value as never },
    ]).at(1)?.value;
  expect(nameAfter(["row", "count"], 5)).toBe("5 pendants");
  expect(nameAfter(["luminaire"], "tube")).toBe("4 × tube");
  expect(nameAfter(["row", "clearance"], 1)).toBe("4 × dome, 1000 mm");
  expect(nameAfter(["row", "clearance"], "33 in")).toBe("4 × dome, 33 in");
  expect(nameAfter(["dim"], 0.5)).toBeUndefined();
});
