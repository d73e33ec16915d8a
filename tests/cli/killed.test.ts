/** A command killed at any moment leaves old files or new ones, never half; `node tests/support/killed-writes.mjs 200` kills the writing
 * more often, `node tests/support/killed-commands.mjs 200` whole commands. */
import { expect, it } from "vitest";
// @ts-expect-error: plain JavaScript, so that it runs without a build of the tests.
import { killedCommand } from "../support/killed-commands.mjs";
// @ts-expect-error: the same.
import { killedWrites } from "../support/killed-writes.mjs";
import { randomStream } from "../support/random-stream.ts";

it("leaves no file half written", async () => {
  const { faults, struck } = await killedWrites(12, randomStream(5));
  console.log(`12 kills, ${struck} in the middle of writing`);
  expect(faults).toEqual([]);
});

it.each([
  ["handover", 2],
  ["new", 6],
])("leaves no file half written by %s", async (name, kills) => {
  const { faults, struck, late } = await killedCommand(name, kills, randomStream(3));
  console.log(`${kills} kills, ${struck} left it in the middle, ${late} came after its end`);
  expect(faults).toEqual([]);
});
