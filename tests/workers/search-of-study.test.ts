/** The search as a worker answers it: proposals that its own light judges the same, progress, cancelling, refusals. */
import { expect, it } from "vitest";
import { Cancelled } from "../../src/diagnostics/cancelled.ts";
import { answers } from "../../src/workers/answers.ts";
import type { SearchQuestion } from "../../src/workers/protocol.ts";
import { ISLAND, kitchen } from "../support/studies.ts";

const document = kitchen({
  island: {
    ...ISLAND,
    zones: [{ name: "prep", from: [0, 0.3], size: [2.4, 0.8], target: "mine" }],
  },
  targets: { mine: { illuminance: 200, uniformity: 0.4, source: "for the test" } },
}) as { arrangements: unknown[] };
const question: SearchQuestion = {
  document,
  arrangement: 0,
  luminaires: ["dome"],
  counts: [3],
  clearances: [0.8],
  wanted: 1,
};

it("proposes what the screen's light then judges the same", async () => {
  const here = answers();
  const stages = new Set<string>();
  const outcome = await here.search(question, { progress: (stage) => void stages.add(stage) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const [best] = outcome.value.proposals;
  expect(best.verdict).toBe("meets");
  expect(best.skipOne).toBeUndefined();
  expect([...stages]).toEqual(
    expect.arrayContaining(["light of the room", "comparing rows", "checking in full"]),
  );
  const added = { ...document, arrangements: [...document.arrangements, best.arrangement] };
  const light = await here.light({ document: added, arrangement: 1, quality: "judged" }, {});
  if (!light.ok) throw new Error(JSON.stringify(light.issues));
  expect(light.value.assessment.verdict).toBe(best.verdict);
  const top =
    light.value.assessment.planes.find(({ name }) => name === "island top") ??
    light.value.assessment.planes[0];
  expect(top.statistics.average).toBeCloseTo(best.average, 9);
});

it("stops when cancelled, and refuses what is not there", async () => {
  const here = answers();
  await expect(here.search(question, { cancelled: () => true })).rejects.toThrow(Cancelled);
  for (const wrong of [{ layer: "no such" }, { luminaires: ["no such"] }, { arrangement: 7 }]) {
    const outcome = await here.search({ ...question, ...wrong }, {});
    expect(outcome.ok).toBe(false);
  }
});
