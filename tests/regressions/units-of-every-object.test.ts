/** 2026-11-28. "0.6 constructor" was a length: the units were looked up in an object, which has keys of its own, and the metres were no number. Found
 * among half a million mutated files, in a list of readings. */
import { expect, it } from "vitest";
import { readLength } from "../../src/units/read-length.ts";

it.each(["constructor", "toString", "valueOf", "isPrototypeOf", "hasOwnProperty"])(
  "1 %s is no length",
  (unit) => {
    for (const text of [`1 ${unit}`, `1${unit.toLowerCase()}`, `1 ${unit}s`])
      expect(readLength(text).ok).toBe(false);
  },
);
