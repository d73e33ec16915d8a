/** `shade STUDY --compare` through the built program: one shade in five finishes, and what cannot be compared. */
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { called, candlespan } from "../support/cli.ts";

const boathouse = fileURLToPath(
  new URL("../../fixtures-data/boathouse/boathouse.study.json", import.meta.url),
);

const STUDY = JSON.stringify({
  format: "candlespan-study",
  version: 1,
  room: { length: 4, width: 3, ceilingHeight: 2.5 },
  island: { centre: [2, 1.5], length: 1.5, width: 0.8, height: 0.9 },
  people: [{ name: "cook", at: [2, 0.9], facing: 90 }],
  luminaires: {
    "<b>dome": { lamp: { flux: 800 }, shade: { profile: "dome", diameter: 0.3, height: 0.2 } },
  },
  arrangements: [{ name: "one", layers: [{ name: "pendants", luminaire: "<b>dome", row: { count: 1 } }] }],
});

describe("shade --compare", () => {
  it("sets five finishes side by side", () => {
    const { code, out, err } = candlespan(["shade", "-", "--compare"], { input: STUDY });
    expect([code, err]).toEqual([0, ""]);
    for (const name of ["clear", "frosted", "opal", "solid, white inside", "solid, dark inside"])
      expect(out).toMatch(new RegExp(`^${name} +\\d+ % +[\\d.]+ +0\\.\\d\\d`, "m"));
    expect(out).toContain("cook sees");
  });

  it("says where there is nothing to compare", async () => {
    const none = await called("shade", boathouse, "--compare");
    expect(none.code).toBe(2);
    expect(none.err).toMatch(/No arrangement hangs a luminaire of lamp and shade/);
    expect((await called("shade", boathouse, "--arrangement", "three domes")).code).toBe(2);
  });
});
