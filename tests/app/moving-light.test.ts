/**
 * What follows a hand remembers the kitchen, its planes and what every luminaire sends; nothing of it may show in an
 * answer. And what a hand does to a pendant does not touch the kitchen: the very planes stay.
 */
import { expect, it } from "vitest";
import { lightOfRequest } from "../../src/app/light.ts";
import { Workspace } from "../../src/app/open-document.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { distanceToBox } from "../../src/geometry/box.ts";
import { type Json, kitchen } from "../support/studies.ts";

const ASKED = { arrangement: 0, quality: "quick" } as const;

function pendantsAt(middle: number, more: Json = {}): Json {
  const at = [1.9, middle, 3.5].map((along) => ({ position: [along, 2.1, 1.9] }));
  return kitchen({
    arrangements: [{ name: "a", layers: [{ name: "pendants", role: "pendant", luminaire: "dome", at }] }],
    ...more,
  });
}

it("says of every step what a workspace without a past says", async () => {
  const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, reflectance: { ceiling: 0.7 } };
  // Reaches into the island below its top: a warning of the kitchen, which must come along every time.
  const bodies = [
    {
      name: "box",
      box: [
        [1.2, 1.8, 0.3],
        [1.6, 2.2, 0.6],
      ],
    },
  ];
  const steps = [
    pendantsAt(2.7),
    pendantsAt(2.5),
    pendantsAt(2.5, { room }),
    pendantsAt(2.5, { room, bodies }),
    pendantsAt(2.4, { room, bodies }),
    pendantsAt(2.7),
  ];
  const workspace = new Workspace();
  for (const document of steps) {
    const warm = orThrow(await lightOfRequest({ document, ...ASKED }, workspace, {}));
    const fresh = orThrow(await lightOfRequest({ document, ...ASKED }, new Workspace(), {}));
    expect(warm).toEqual(fresh);
    expect(fresh.warnings.some(({ code }) => code === "bodies-overlap")).toBe("bodies" in document);
  }
});

it("keeps the planes of a kitchen whose pendant moves", async () => {
  const workspace = new Workspace();
  const light = async (document: Json) =>
    orThrow(await lightOfRequest({ document, ...ASKED }, workspace, {})).scene.planes[0];
  const before = await light(pendantsAt(2.7));
  expect(await light(pendantsAt(2.5))).toBe(before);
  const higher = { length: 5.4, width: 4.2, ceilingHeight: 2.8 };
  expect(await light(pendantsAt(2.5, { room: higher }))).not.toBe(before);
});

it("measures from a point to a box", () => {
  const box = Float64Array.of(0, 0, 0, 1, 2, 3);
  expect(distanceToBox([0.5, 1, 3], box)).toBe(0);
  expect(distanceToBox([4, 6, 1], box)).toBe(5);
  expect(distanceToBox([-2, -3, -6], box)).toBe(7);
});

// 2026-11-29: the defaults of a second option stood under the first one's places: its fields were blank until the light was refined.
it("tells the defaults of an option at its own place, and no other's", async () => {
  const layers = [{ name: "pendants", role: "pendant", luminaire: "dome", row: { count: 3 } }];
  const document = kitchen({ arrangements: ["a", "b"].map((name) => ({ name, layers })) });
  const light = async (quality: "quick" | "full", arrangement: number) => {
    const { defaults } = orThrow(
      await lightOfRequest({ document, arrangement, quality }, new Workspace(), {}),
    );
    return defaults.map(({ path }) => path).filter((path) => path.startsWith("/arrangements"));
  };
  const all = await light("full", 1);
  for (const arrangement of [0, 1]) {
    const own = all.filter((path) => path.startsWith(`/arrangements/${arrangement}/`));
    expect(own).toContain(`/arrangements/${arrangement}/layers/0/row/clearance`);
    expect(await light("quick", arrangement)).toEqual(own);
  }
});
