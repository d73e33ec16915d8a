/** The study's history: whatever is done can be undone to the very start, and done again. */
import fc from "fast-check";
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { StudyHistory } from "../../site/store/history.ts";
import { type Json, type Path, read, write } from "../../site/store/pointer.ts";
import { formatPointer, parsePointer } from "../../src/diagnostics/json-path.ts";

const start = example as unknown as Json;

/** Every path of a document, containers and leaves. */
function pathsOf(value: Json, at: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [at];
  return [at, ...Object.entries(value).flatMap(([key, inner]) => pathsOf(inner, [...at, key]))];
}

const value = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.string(),
  fc.boolean(),
  fc.constant(null),
  fc.array(fc.integer(), { maxLength: 3 }),
);
const operation = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      kind: fc.constant("set" as const),
      at: fc.nat(),
      key: fc.string({ maxLength: 4 }),
      value,
    }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("remove" as const), at: fc.nat() }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant("drag" as const),
      at: fc.nat(),
      steps: fc.integer({ min: 2, max: 6 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("undo" as const) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("redo" as const) }) },
);

it("undoes 500 random edits back to the start, and does them again", () => {
  fc.assert(
    fc.property(fc.array(operation, { minLength: 500, maxLength: 500 }), (operations) => {
      const history = new StudyHistory(start);
      let hands = 0;
      for (const each of operations) {
        const paths = pathsOf(history.document).filter((path) => path.length > 0);
        if (each.kind === "undo") history.undo();
        else if (each.kind === "redo") history.redo();
        else {
          const path = paths[each.at % Math.max(1, paths.length)];
          if (path === undefined) continue;
          if (each.kind === "remove") history.change("remove", [{ path, value: undefined }]);
          else if (each.kind === "set") history.change("set", [{ path, value: each.value as Json }]);
          else {
            const mark = `hand ${hands++}`;
            const before = history.done.length;
            for (let i = 0; i < each.steps; i++)
              history.change(`drag ${i}`, [{ path, value: i + 0.5 }], mark);
            expect(history.done.length).toBeLessThanOrEqual(Math.min(500, before + 1));
          }
        }
      }
      const end = JSON.stringify(history.document);
      const steps = history.done.length;
      while (history.undo() !== undefined);
      expect(JSON.stringify(history.document)).toBe(JSON.stringify(start));
      for (let i = 0; i < steps; i++) history.redo();
      expect(JSON.stringify(history.document)).toBe(end);
    }),
    { numRuns: 4, seed: 20261125 },
  );
});

it("takes a movement back as if it had never begun", () => {
  const history = new StudyHistory(start);
  history.change("clearance", [{ path: ["maintenance"], value: 0.7 }]);
  for (let i = 0; i < 5; i++) history.change("drag", [{ path: ["room", "length"], value: 5 + i }], "hand 1");
  history.abandon("hand 1");
  expect(history.read(["room", "length"])).toBe(5.4);
  expect(history.done.map((change) => change.name)).toEqual(["clearance"]);
  expect(history.undone).toEqual([]);
});

it("makes nothing of an edit that changes nothing", () => {
  const history = new StudyHistory(start);
  history.change("same", [{ path: ["room", "length"], value: 5.4 }]);
  expect(history.done).toEqual([]);
  expect(history.document).toBe(start);
});

it("shares what it did not touch", () => {
  const after = write(start, ["room", "length"], 6) as Record<string, Json>;
  expect(after.arrangements).toBe((start as Record<string, Json>).arrangements);
  expect(read(start, ["room", "length"])).toBe(5.4);
});

it("reaches no prototype and leaves no hole in a list", () => {
  for (const key of ["__proto__", "constructor", "prototype"]) {
    expect(() => write(start, ["room", key, "polluted"], true)).toThrow();
  }
  expect(() => write(start, ["people", 99], {})).toThrow(/no place 99/);
  expect(read(start, ["room", "toString"])).toBeUndefined();
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});

it("reads back the pointers it writes", () => {
  fc.assert(
    fc.property(fc.array(fc.string(), { minLength: 1 }), (path) => {
      expect(parsePointer(formatPointer(path))).toEqual(path);
    }),
  );
});
