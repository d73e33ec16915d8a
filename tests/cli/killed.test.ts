/** A command killed at any moment of writing leaves old files or new ones, never half; `node tests/support/killed-writes.mjs 200` kills more. */
import { expect, it } from "vitest";
import { randomStream } from "../support/random-stream.ts";
// @ts-expect-error: plain JavaScript, so that it runs without a build of the tests.
import { killedWrites } from "../support/killed-writes.mjs";

it("leaves no file half written", async () => {
  const { faults, struck } = await killedWrites(12, randomStream(5));
  console.log(`12 kills, ${struck} in the middle of writing`);
  expect(faults).toEqual([]);
});
