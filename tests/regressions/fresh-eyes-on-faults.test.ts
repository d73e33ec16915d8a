/** 2026-11-29: what messages on a study kept to themselves, or said twice over. Each `it` says what was wrong. */
import { describe, expect, it } from "vitest";
import { ISLAND, type Json, kitchen, refusal, resolved, withRow } from "../support/studies.ts";

const received = (study: Json) => refusal(study).map((issue) => issue.received);

describe("a fault in a study", () => {
  it.each<[string, Json, string]>([
    [
      "an overhang as deep as the top",
      { island: { ...ISLAND, overhang: { side: "y-", depth: 1.1 } } },
      "1.1 m",
    ],
    [
      "a basin beside the base",
      {
        island: {
          ...ISLAND,
          overhang: { side: "y-", depth: 0.3 },
          sink: { from: [0.2, 0.1], size: [0.5, 0.4], basin: true },
        },
      },
      "0.2 m to 0.7 m along and 0.1 m to 0.5 m across",
    ],
    [
      "an outline that crosses itself",
      {
        island: {
          height: 0.92,
          outline: [
            [0, 0],
            [2, 1],
            [2, 0],
            [0, 1],
          ],
        },
      },
      "the sides that begin at corners 1 and 3 meet",
    ],
    ["half a size", { island: { length: 2.4 } }, '"length" alone'],
    [
      "a flat body",
      {
        bodies: [
          {
            name: "shelf",
            box: [
              [0, 0, 1],
              [1, 0.3, 1],
            ],
          },
        ],
      },
      "1 m × 0.3 m × 0 m",
    ],
    [
      "light given twice",
      { luminaires: { dome: { photometry: "a.ies", beam: { flux: 800, angle: 90 } } } },
      '"photometry" and "beam"',
    ],
  ])("said nothing of what was found: %s", (_, more, found) => {
    expect(received(kitchen(more))).toContain(found);
  });

  it("said nothing of the margin that left no room for a grid", () => {
    const layers = [{ name: "ceiling", luminaire: "dome", grid: { columns: 2, rows: 2, margin: 2.5 } }];
    const [issue] = refusal(kitchen({ arrangements: [{ name: "a", layers }] }));
    expect(issue).toMatchObject({ expected: "less than 2.1 m", received: "2.5 m" });
  });

  it("said nothing of where a person stands who stands in the island, or what is cut", () => {
    const zone = { name: "prep", from: [2, 0], size: [1, 1.1], target: "preparation" };
    const { warnings } = resolved(
      kitchen({ island: { ...ISLAND, zones: [zone] }, people: [{ name: "cook", at: [2.7, 2.1] }] }),
    );
    const found = Object.fromEntries(warnings.map((warning) => [warning.code, warning.received]));
    expect(found["person-in-island"]).toBe("(2.7 m, 2.1 m)");
    expect(found["zone-cut"]).toBe("2 m to 3 m along and 0 m to 1.1 m across");
  });

  it("was followed by others that it had brought about", () => {
    const twice = kitchen({
      arrangements: [
        {
          name: "a",
          layers: ["row", "row"].map((name) => ({
            name,
            luminaire: "dome",
            row: { count: 2, clearance: 0.8 },
          })),
          settings: [{ name: "dinner", dim: { row: 0.5, ceiling: 0.2 } }],
        },
      ],
    });
    expect(refusal(twice).map(({ code }) => code)).toEqual(["layer-name"]);
    const away = withRow({ count: 3, clearance: 0.8 }, { island: { ...ISLAND, centre: [0.2, 0.2] } });
    expect(refusal(away).map(({ code }) => code)).toEqual(["island-outside"]);
    const zones = ["prep", "prep"].map((name) => ({ name, from: [0, 0], size: [1, 1], target: null }));
    const settings = [{ name: "dinner", zones: { sink: null } }];
    const layers = [{ name: "row", luminaire: "dome", row: { count: 2, clearance: 0.8 } }];
    const named = kitchen({ island: { ...ISLAND, zones }, arrangements: [{ name: "a", layers, settings }] });
    expect(refusal(named).map(({ code }) => code)).toEqual(["zone-name"]);
  });
});
