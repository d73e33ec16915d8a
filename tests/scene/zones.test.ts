import { describe, expect, it } from "vitest";
import { area, bounds } from "../../src/geometry/polygon.ts";
import { topPlane } from "../../src/scene/top-plane.ts";
import { ISLAND, type Json, kitchen, refusal, resolved } from "../support/studies.ts";

function study(island: Json, more: Json = {}) {
  return resolved(kitchen({ island: { ...ISLAND, ...island }, ...more }));
}

describe("zones of the top", () => {
  it("are cut to the outline, with a warning", () => {
    const found = study({ zones: [{ name: "prep", from: [1.4, 0], size: [2, 1.1], target: "preparation" }] });
    const [zone] = found.scenes[0].zones;
    expect(bounds(zone.outline)).toEqual([1.4, 0, expect.closeTo(2.4, 12), 1.1]);
    expect(found.warnings.map((w) => w.code)).toEqual(["zone-cut"]);
    const plane = found.scenes[0].planes.find((p) => p.zone === "prep");
    expect(plane?.weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1.1, 10);
  });

  it("of its own making are cut to an L without a word: the study gave none", () => {
    const found = study({
      outline: [
        [0, 0],
        [2.6, 0],
        [2.6, 0.9],
        [0.8, 0.9],
        [0.8, 1.8],
        [0, 1.8],
      ],
      sink: { from: [1.6, 0.25], size: [0.5, 0.4] },
    });
    expect(found.scenes[0].zones.map(({ name }) => name)).toEqual(["prep", "washing"]);
    expect(found.warnings.filter(({ code }) => code === "zone-cut")).toEqual([]);
  });

  it("may be polygons, on an L, and lie on the level they are on", () => {
    const l = {
      outline: [
        [0, 0],
        [2.4, 0],
        [2.4, 0.8],
        [0.8, 0.8],
        [0.8, 2],
        [0, 2],
      ],
    };
    const found = study({
      ...l,
      levels: [{ from: [0, 1.2], size: [0.8, 0.8], height: 1.07 }],
      zones: [
        {
          name: "corner",
          polygon: [
            [0, 0],
            [1.2, 0],
            [0, 1.2],
          ],
        },
        { name: "bar", from: [0, 1.2], size: [0.8, 0.8] },
      ],
    });
    const [corner, bar] = found.scenes[0].zones;
    // The triangle x + y ≤ 1.2 less the notch x > 0.8, y > 0.8 it does not reach: all of it is on the top.
    expect(area([corner.outline])).toBeCloseTo(0.72, 12);
    expect([corner.height, bar.height]).toEqual([0.92, 1.07]);
    const plane = found.scenes[0].planes.find((p) => p.zone === "bar");
    expect(plane?.points[2]).toBeCloseTo(1.07, 12);
  });

  it("that span levels have each point on its own", () => {
    const found = study({
      levels: [{ from: [1.2, 0], size: [1.2, 1.1], height: 1.07 }],
      zones: [{ name: "all", from: [0, 0], size: [2.4, 1.1] }],
    });
    const plane = found.scenes[0].planes.find((p) => p.zone === "all");
    const heights = new Set(
      [...(plane?.points ?? [])].filter((_, i) => i % 3 === 2).map((z) => z.toFixed(6)),
    );
    expect([...heights].sort()).toEqual(["0.920000", "1.070000"]);
  });

  it("must lie on the top, have a name of their own, and say where they are", () => {
    const codes = (zones: unknown) => refusal(kitchen({ island: { ...ISLAND, zones } })).map((i) => i.code);
    expect(codes([{ name: "a", from: [3, 0], size: [1, 1] }])).toContain("zone-outside");
    expect(
      refusal(
        kitchen({ island: { ...ISLAND, zones: [{ name: "a", from: [3, 0], size: [1, 1], target: null }] } }),
      )[0],
    ).toMatchObject({
      expected: "a part of 0 m to 2.4 m along and 0 m to 1.1 m across",
      received: "3 m to 4 m and 0 m to 1 m",
    });
    expect(codes([{ name: "a", from: [0, 0] }])).toContain("region-missing");
    expect(
      codes([
        {
          name: "a",
          from: [0, 0],
          size: [1, 1],
          polygon: [
            [0, 0],
            [1, 0],
            [0, 1],
          ],
        },
      ]),
    ).toContain("region-twice");
    const zone = { name: "a", from: [0, 0], size: [1, 1] };
    expect(codes([zone, zone])).toContain("zone-name");
    // Below the top and not in a basin: inside the island.
    expect(codes([{ ...zone, height: 0.7 }])).toContain("point-in-body");
  });

  it("without zones the whole top is one, named top, judged on the island's grid", () => {
    const found = study({});
    expect(found.scenes[0].zones.map((z) => z.name)).toEqual(["top"]);
    expect(found.scenes[0].planes.map((p) => [p.name, p.zone])).toEqual([["island top", "top"]]);
  });

  it("from hob, sink and seats: preparation, cooking, washing and eating by stated rules", () => {
    const found = study({
      hob: { from: [0.1, 0.45], size: [0.6, 0.5] },
      sink: { from: [1.8, 0.45], size: [0.5, 0.4], basin: true },
      seats: { side: "y-", count: 2 },
    });
    const zones = found.scenes[0].zones;
    expect(zones.map((z) => [z.name, z.target])).toEqual([
      ["prep", "preparation"],
      ["cooking", "cooking"],
      ["washing", "washing"],
      ["eating", "eating"],
    ]);
    const box = (name: string) => bounds(zones.find((z) => z.name === name)?.outline ?? []);
    // between hob and sink, behind the eating strip of 0.38 m
    expect(box("prep")).toEqual([0.7, 0.38, 1.8, 1.1].map((c) => expect.closeTo(c, 12)));
    expect(box("eating")).toEqual([0.6, 0, 1.8, 0.38].map((c) => expect.closeTo(c, 12)));
    expect(zones.find((z) => z.name === "washing")?.height).toBeCloseTo(0.72, 12);
    const paths = found.defaults.map((d) => d.path);
    for (const i of [0, 1, 2, 3]) expect(paths).toContain(`/island/zones/${i}`);
    expect(paths).toContain("/island/sink/basin");
  });

  it("prepare on the longest run, also where hob and sink lie side by side", () => {
    // The hob reaches from 0.2 to 1.4 m, the sink beside it from 0.5 to 0.9 m: what is free begins at 1.4 m.
    const found = study({
      hob: { from: [0.2, 0.6], size: [1.2, 0.4] },
      sink: { from: [0.5, 0.1], size: [0.4, 0.4] },
    });
    const prep = found.scenes[0].zones.find((z) => z.name === "prep");
    expect(bounds(prep?.outline ?? [])).toEqual([1.4, 0, 2.4, 1.1].map((c) => expect.closeTo(c, 12)));
  });
});

describe("calculation planes", () => {
  const planes = (list: Json[], island: Json = {}) => study(island, { planes: list }).scenes[0].planes;

  it("without planes: the island top and each zone", () => {
    const found = study({ zones: [{ name: "prep", from: [0, 0], size: [1.4, 1.1] }] });
    expect(found.scenes[0].planes.map((p) => p.name)).toEqual(["island top", "prep"]);
  });

  it("take a spacing, a margin and a quantity", () => {
    const [top] = planes([
      { name: "top", on: "island", spacing: 0.05, margin: 0.1, quantity: "cylindrical" },
    ]);
    // 2.2 × 0.9 m in cells of 50 mm
    expect([top.grid?.columns, top.grid?.rows, top.quantity]).toEqual([44, 18, "cylindrical"]);
    expect([...top.points.slice(0, 3)]).toEqual(
      [1.5 + 0.125, 1.55 + 0.125, 0.92].map((c) => expect.closeTo(c, 12)),
    );
  });

  it("add the zones' own grids when none judges them", () => {
    const found = study(
      { zones: [{ name: "prep", from: [0, 0], size: [1, 1] }] },
      {
        planes: [
          { name: "floor", rectangle: { corner: [0, 0, 0], u: [5.4, 0, 0], v: [0, 4.2, 0] }, spacing: 1 },
        ],
      },
    );
    expect(found.scenes[0].planes.map((p) => [p.name, p.zone])).toEqual([
      ["floor", undefined],
      // 2026-11-28: figures of the whole top were those of the first plane at its height, of a counter beside it too.
      ["island top", undefined],
      ["prep", "prep"],
    ]);
    expect(found.scenes[0].planes[0].normal).toEqual([0, 0, 1]);
    expect(found.defaults.map((d) => d.path)).toContain("/island/zones/0/plane");
  });

  it("take no counter beside the island for its top", () => {
    const [scene] = study(
      { zones: [{ name: "prep", from: [0, 0], size: [1, 1] }] },
      {
        planes: [
          {
            name: "counter",
            rectangle: { corner: [0, 0, 0.92], u: [2, 0, 0], v: [0, 0.6, 0] },
            spacing: 0.1,
          },
        ],
      },
    ).scenes;
    expect(scene.planes[topPlane(scene)].name).toBe("island top");
  });

  it("stand up, turn and take single points", () => {
    const [wall, probe] = planes([
      { name: "wall", rectangle: { corner: [0, 0.01, 0.9], u: [0, 0, 0.6], v: [2, 0, 0] } },
      {
        name: "probe",
        points: [
          [1, 1, 1.2],
          [1, 2, 1.2],
        ],
        normal: [0, 2, 0],
      },
    ]);
    expect(wall.normal).toEqual([0, 1, 0]);
    expect(probe.normal).toEqual([0, 1, 0]);
    expect([...probe.weights]).toEqual([1, 1]);
  });

  it("turn with the island", () => {
    const [top] = planes([{ name: "top", on: "island" }], { turn: 90 });
    expect(top.grid?.u).toEqual([0, 2.4, 0].map((c) => expect.closeTo(c, 12)));
    const sum = top.weights.reduce((a, b) => a + b, 0);
    expect(sum).toBeCloseTo(2.64, 10);
  });

  it.each([
    ["two places", { on: "island", points: [[1, 1, 1]] }, "plane-place"],
    ["no place", {}, "plane-place"],
    ["an unknown zone", { on: "prop" }, "plane-zone"],
    ["sides not square", { rectangle: { corner: [0, 0, 0], u: [1, 0, 0], v: [1, 1, 0] } }, "plane-rectangle"],
    [
      "a plane through the wall",
      { rectangle: { corner: [5, 0, 0], u: [1, 0, 0], v: [0, 1, 0] } },
      "plane-outside",
    ],
    ["a point through the ceiling", { points: [[1, 1, 3]] }, "point-outside"],
    ["a margin that leaves nothing", { on: "island", margin: 0.6 }, "plane-margin"],
    ["too many points", { on: "island", spacing: 0.001 }, "plane-too-fine"],
    ["a half-cylinder facing up", { points: [[1, 1, 1]], quantity: "semi-cylindrical" }, "plane-facing"],
  ])("refuse %s", (_, plane, code) => {
    expect(refusal(kitchen({ planes: [{ name: "p", ...plane }] })).map((i) => i.code)).toContain(code);
  });
});
