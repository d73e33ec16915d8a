/** Which lengths can be meant in a field. */

import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { usualLengths } from "../../site/components/usual-lengths.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import type { Path } from "../../site/store/pointer.ts";
import { metresOf } from "../../src/app.ts";

const study = example as unknown as RawStudy;

it("are bounded by what the field is, and by the room's largest side elsewhere", () => {
  const of = (...path: Path) => usualLengths(study, path);
  expect(of("room", "length")).toEqual({ from: 1, to: 100 });
  expect(of("arrangements", 0, "layers", 0, "row", "clearance")).toEqual({ from: 0.1, to: 10 });
  expect(of("people", 1, "stature")).toEqual({ from: 0.8, to: 2.5 });
  expect(of("room", "openings", 0, "length").to).toBe(
    Math.max(metresOf(study.room.length) ?? 0, metresOf(study.room.width) ?? 0),
  );
  expect(of("island", "centre", 0).from).toBe(0.005);
});
