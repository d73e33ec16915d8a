/** A search goes on through edits that it does not rest on. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { isSameSearch } from "../../site/edits/search-input.ts";
import { type Json, write } from "../../site/store/pointer.ts";

const before = example as unknown as RawStudy;
const after = (path: (string | number)[], value: Json) =>
  write(before as unknown as Json, path, value) as unknown as RawStudy;

it.each<[string, (string | number)[], Json]>([
  ["title", ["title"], "Another"],
  ["units", ["display", "length"], "ft-in"],
  ["another option's name", ["arrangements", 2, "name"], "globes"],
  ["the option's own name", ["arrangements", 0, "name"], "domes"],
  ["another option's clearance", ["arrangements", 1, "layers", 0, "row", "clearance"], 0.9],
])("goes on when the %s changes", (_, path, value) => {
  expect(isSameSearch(before, after(path, value), 0)).toBe(true);
});

it.each<[string, (string | number)[], Json]>([
  ["clearance", ["arrangements", 0, "layers", 0, "row", "clearance"], 0.9],
  ["ceiling", ["room", "ceilingHeight"], 2.5],
  ["a body", ["bodies", 0, "reflectance"], 0.2],
  ["a target", ["targets", "prep, even", "illuminance"], 400],
  ["a luminaire", ["luminaires", "dome", "body", "diameter"], 0.4],
  ["maintenance", ["maintenance"], 0.7],
])("stops when %s changes", (_, path, value) => {
  expect(isSameSearch(before, after(path, value), 0)).toBe(false);
});
