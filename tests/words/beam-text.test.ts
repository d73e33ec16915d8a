/** A beam angle in words: which angle it is where the planes differ. */
import { expect, it } from "vitest";
import { beamText } from "../../src/words/beam-text.ts";

// 2026-11-29: "beam 74°" of a luminaire with 136° along and 57° across was nobody's angle, and did not say so.
it("says that a beam is the mean of planes where they differ, and between what", () => {
  expect(beamText(118.2, [118.2, 118.2])).toBe("118°");
  expect(beamText(118.2, [118.1, 118.3])).toBe("118°");
  expect(beamText(74.3, [136, 57.3, 62])).toBe("74° (mean of planes, 57° to 136°)");
  expect(beamText(36, [])).toBe("36°");
});
