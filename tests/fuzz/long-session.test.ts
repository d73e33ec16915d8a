/** Some of the edits of `npm run long`: what stands in the study, what can be undone, and the light are those of a plain list and a fresh start. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { longSession } from "./long-session.ts";
import { plainBoathouse } from "./plain-boathouse.ts";

it("ends as the plain list says, its light as of a fresh start", async () => {
  const { faults, lights, refused, same } = await longSession(plainBoathouse(example), 200, 3);
  expect(faults).toEqual([]);
  expect(lights - refused).toBeGreaterThan(lights / 3);
  expect(same).toBeGreaterThan(0);
});
