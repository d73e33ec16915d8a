import { describe, expect, it } from "vitest";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { directionToRoom } from "../../src/geometry/frame.ts";
import { clearanceOf } from "../../src/scene/arrangement.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { placeIssues } from "../../src/study/study-text.ts";
import { ISLAND, kitchen, refusal, resolved, withRow } from "../support/studies.ts";

function first(study: Record<string, unknown>): Scene {
  return resolved(study).scenes[0];
}

function row(scene: Scene, layer = 0) {
  return scene.layers[layer].luminaires.map(({ frame }) => frame.origin);
}

describe("a row over the island", () => {
  it("stands in equal bays unless told otherwise, and says so", () => {
    const study = resolved(withRow({ count: 3, clearance: 0.85 }));
    // Bays of 0.8 m, half a bay at each end; the island starts at x = 1.5.
    expect(row(study.scenes[0]).map(([x]) => x)).toEqual([1.9, 2.7, 3.5].map((x) => expect.closeTo(x, 12)));
    expect(study.defaults.map((d) => d.path)).toContain("/arrangements/0/layers/0/row/spacing");
  });

  it.each([
    ["spacing, centre to centre", { spacing: 0.6 }, [2.1, 2.7, 3.3]],
    // rim of the body, 0.3 m, and a gap of 0.5 m
    ["gap, rim to rim", { gap: 0.5 }, [1.9, 2.7, 3.5]],
    // (2.4 − 2 × 0.3 − 0.3) / 2 = 0.75
    ["end, rim to the end of the top", { end: 0.3 }, [1.95, 2.7, 3.45]],
    ["offset", { spacing: 0.6, offset: [0.1, 0] }, [2.2, 2.8, 3.4]],
  ])("takes %s", (_, given, xs) => {
    const places = row(first(withRow({ count: 3, clearance: 0.85, ...given })));
    expect(places.map(([x]) => x)).toEqual(xs.map((x) => expect.closeTo(x, 12)));
  });

  it("refuses two of them", () => {
    expect(refusal(withRow({ count: 3, gap: 0.5, end: 0.3 }))[0]).toMatchObject({
      code: "row-spacing",
      received: '"gap" and "end"',
      where: { path: "/arrangements/0/layers/0/row" },
    });
  });

  it("follows a turned island", () => {
    const island = { ...ISLAND, turn: 90 };
    const places = row(
      first(withRow({ count: 2, spacing: 1, clearance: 0.85, offset: [0, 0.2] }, { island })),
    );
    // +x of the island is +y of the room, its +y is −x.
    expect(places[0].slice(0, 2)).toEqual([expect.closeTo(2.5, 12), expect.closeTo(1.6, 12)]);
    expect(places[1].slice(0, 2)).toEqual([expect.closeTo(2.5, 12), expect.closeTo(2.6, 12)]);
  });

  it("hangs with its lowest point at the clearance", () => {
    const scene = first(withRow({ count: 1, clearance: 0.85 }));
    // The dome's rim is level with the flat opening, hence with the photometric centre.
    expect(row(scene)[0][2]).toBeCloseTo(0.92 + 0.85, 12);
    const globe = {
      dome: { beam: { flux: 800, angle: 90 }, body: { profile: "globe", diameter: 0.3 } },
    };
    const over = first(withRow({ count: 1, clearance: 0.85 }, { luminaires: globe }));
    expect(row(over)[0][2]).toBeCloseTo(0.92 + 0.85 + 0.15, 12);
    expect(clearanceOf(over.layers[0].luminaires[0], over.island)).toBeCloseTo(0.85, 12);
  });

  it("keeps the clearance under tilt", () => {
    const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 20, towards: 0 } };
    const linear = {
      dome: {
        beam: { flux: 800, angle: 90 },
        body: { profile: "box", length: 1, width: 0.06, height: 0.05 },
      },
    };
    const scene = first(
      withRow({ count: 1, clearance: 0.85, followSlope: true }, { room, luminaires: linear }),
    );
    const [z] = row(scene).map((p) => p[2]);
    // A box of half extents 0.5 and 0.025, tilted 20°, reaches 0.5 sin 20 + 0.025 cos 20 below its centre.
    const drop = 0.5 * Math.sin(Math.PI / 9) + 0.025 * Math.cos(Math.PI / 9);
    expect(z).toBeCloseTo(0.92 + 0.85 + drop, 12);
    // The nadir axis is square to the ceiling: it leans towards the rise.
    const nadir = directionToRoom(scene.layers[0].luminaires[0].frame.rotation, [0, 0, -1]);
    expect(nadir[0]).toBeCloseTo(Math.sin(Math.PI / 9), 12);
    expect(nadir[2]).toBeCloseTo(-Math.cos(Math.PI / 9), 12);
  });

  it("measures clearance from the level under the luminaire's centre", () => {
    const island = {
      ...ISLAND,
      levels: [{ from: [1.6, 0], size: [0.8, 1.1], height: 1.07 }],
    };
    const heights = row(first(withRow({ count: 3, clearance: 0.85 }, { island }))).map((p) => p[2]);
    expect(heights).toEqual([1.77, 1.77, 1.92].map((z) => expect.closeTo(z, 12)));
  });

  it("lays a luminaire that is longer along its own y along the row, and lists it", () => {
    const luminaires = {
      dome: { beam: { flux: 800, angle: 90 }, opening: { length: 0.05, width: 1.2 } },
    };
    const study = resolved(withRow({ count: 1 }, { luminaires }));
    const x = directionToRoom(study.scenes[0].layers[0].luminaires[0].frame.rotation, [0, 1, 0]);
    expect(Math.abs(x[0])).toBeCloseTo(1, 12);
    expect(study.defaults).toContainEqual(
      expect.objectContaining({ path: "/arrangements/0/layers/0/row/turn", value: 90 }),
    );
    // and its length counts as its rim: gap 0.1 between two of 1.2 m
    const two = first(withRow({ count: 2, gap: 0.1 }, { luminaires }));
    expect(row(two)[1][0] - row(two)[0][0]).toBeCloseTo(1.3, 12);
  });

  it("warns of points with a gap, of rows too long and of luminaires in one another", () => {
    const points = { dome: { beam: { flux: 800, angle: 90 } } };
    const codes = (study: Record<string, unknown>) => resolved(study).warnings.map((w) => w.code);
    expect(codes(withRow({ count: 2, gap: 0.5 }, { luminaires: points }))).toContain("row-gap-of-points");
    expect(codes(withRow({ count: 3, spacing: 1.1 }))).toContain("row-too-long");
    expect(codes(withRow({ count: 3, spacing: 0.2 }))).toContain("row-collides");
    expect(codes(withRow({ count: 3 }))).toEqual([]);
  });

  // 2026-11-28: a bar of 1.2 m whose height nobody had typed yet "reached above the ceiling" by a height guessed.
  it("finds no pendant above the ceiling by a height that nobody gave", () => {
    const bodied = (body: object) =>
      kitchen({
        luminaires: { dome: { beam: { flux: 800, angle: 90 }, body } },
        arrangements: [
          {
            name: "a",
            layers: [{ name: "p", luminaire: "dome", row: { count: 1, clearance: 1 } }],
          },
        ],
      });
    for (const profile of ["drum", "box"]) {
      const size = profile === "box" ? { length: 1.2, width: 1.2 } : { diameter: 1.2 };
      const [layer] = resolved(bodied({ profile, ...size })).scenes[0].layers;
      expect(layer.luminaires[0].luminaire.body?.height).toBeCloseTo(0.96, 9);
      expect(refusal(bodied({ profile, ...size, height: 0.96 }))[0].code).toBe("luminaire-above-ceiling");
    }
  });

  it("refuses a pendant that reaches above the ceiling, and ends that leave no room", () => {
    expect(refusal(withRow({ count: 3, clearance: 1.7 }))[0].code).toBe("luminaire-above-ceiling");
    // Millimetres written as a bare number: once for the row, with the way out.
    const [far, ...again] = refusal(withRow({ count: 3, clearance: 750 }));
    expect(again).toEqual([]);
    expect(far.message).toContain('millimetres are written "750 mm"');
    expect(refusal(withRow({ count: 3, end: 1.2 }))[0].code).toBe("row-end");
  });
});

describe("a recessed grid", () => {
  it("keeps its margin to the walls", () => {
    const places = row(first(kitchen()), 1);
    expect(places).toHaveLength(6);
    expect(places[0]).toEqual([expect.closeTo(0.7, 12), expect.closeTo(0.7, 12), 2.7]);
    expect(places[5]).toEqual([expect.closeTo(4.7, 12), expect.closeTo(3.5, 12), 2.7]);
  });

  it("stands half a spacing off the walls without one, and in the middle when single", () => {
    const layers = [{ name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 1 } }];
    const places = row(first(kitchen({ arrangements: [{ name: "a", layers }] })));
    expect(places.map((p) => p.slice(0, 2))).toEqual(
      [0.9, 2.7, 4.5].map((x) => [expect.closeTo(x, 12), expect.closeTo(2.1, 12)]),
    );
  });

  it("hangs plumb at the slope's height unless told to follow it", () => {
    const room = { length: 5.4, width: 4.2, ceilingHeight: 2.4, ceiling: { slope: 15, towards: 90 } };
    const layers = (followSlope: boolean) => [
      { name: "ambient", luminaire: "spot", grid: { columns: 1, rows: 2, margin: 1, followSlope } },
    ];
    const plumb = first(kitchen({ room, arrangements: [{ name: "a", layers: layers(false) }] }));
    const rise = Math.tan(Math.PI / 12);
    expect(row(plumb).map((p) => p[2])).toEqual([
      expect.closeTo(2.4 + rise, 12),
      expect.closeTo(2.4 + 3.2 * rise, 12),
    ]);
    expect(directionToRoom(plumb.layers[0].luminaires[0].frame.rotation, [0, 0, -1])[2]).toBe(-1);
    const square = first(kitchen({ room, arrangements: [{ name: "a", layers: layers(true) }] }));
    const nadir = directionToRoom(square.layers[0].luminaires[0].frame.rotation, [0, 0, -1]);
    expect(nadir[1]).toBeCloseTo(Math.sin(Math.PI / 12), 12);
    // Following the slope turns the luminaire, not its heading: local x stays square to the rise.
    expect(directionToRoom(square.layers[0].luminaires[0].frame.rotation, [1, 0, 0])[0]).toBeCloseTo(1, 12);
  });
});

describe("single places", () => {
  const at = (place: Record<string, unknown>) =>
    first(
      kitchen({ arrangements: [{ name: "a", layers: [{ name: "x", luminaire: "spot", at: [place] }] }] }),
    );
  const nadirOf = (scene: Scene) => directionToRoom(scene.layers[0].luminaires[0].frame.rotation, [0, 0, -1]);

  it("turns and tilts as the frame says", () => {
    // tilt 25°, turn 60° aims at (0.2113, 0.3660, −0.9063)
    const nadir = nadirOf(at({ position: [1, 1, 2.7], turn: 60, tilt: 25 }));
    expect(nadir).toEqual([0.2113, 0.366, -0.9063].map((c) => expect.closeTo(c, 4)));
  });

  it("aims at a point", () => {
    const nadir = nadirOf(at({ position: [1, 1, 2.7], aim: [2, 2, 0.9] }));
    const d = Math.hypot(1, 1, 1.8);
    expect(nadir).toEqual([1 / d, 1 / d, -1.8 / d].map((c) => expect.closeTo(c, 12)));
    expect(nadirOf(at({ position: [1, 1, 2.7], aim: [1, 1, 0] }))).toEqual(
      [0, 0, -1].map((c) => expect.closeTo(c, 12)),
    );
  });

  it("refuses aim beside turn, and places outside the room", () => {
    const study = (place: unknown) =>
      kitchen({ arrangements: [{ name: "a", layers: [{ name: "x", luminaire: "spot", at: [place] }] }] });
    expect(refusal(study({ position: [1, 1, 2.7], aim: [2, 2, 1], tilt: 5 }))[0].code).toBe("aim-twice");
    expect(refusal(study({ position: [9, 1, 2.7] }))[0].code).toBe("luminaire-outside");
    expect(refusal(study({ position: [1, 1, 2.8] }))[0].code).toBe("luminaire-above-ceiling");
  });
});

describe("references and defaults", () => {
  it("names the nearest luminaire and target", () => {
    const layers = [{ name: "x", luminaire: "dom", row: { count: 1 } }];
    const [issue] = refusal(kitchen({ arrangements: [{ name: "a", layers }] }));
    expect(issue).toMatchObject({
      code: "luminaire-unknown",
      where: { path: "/arrangements/0/layers/0/luminaire" },
    });
    expect(issue.message).toContain('"dome"');
    const zones = [{ name: "prep", from: [0, 0], size: [1, 1], target: "preperation" }];
    const island = { ...(kitchen().island as object), zones };
    const [unknown] = refusal(kitchen({ island }));
    expect(unknown).toMatchObject({ code: "target-unknown", where: { path: "/island/zones/0/target" } });
    expect(unknown).toMatchObject({ expected: expect.stringContaining("published one: preparation, ") });
    const begun = [{ ...zones[0], target: "prep" }];
    const [short] = refusal(kitchen({ island: { ...island, zones: begun } }));
    expect(short.message).toContain('Did you mean "preparation"');
    expect(unknown.message).toContain('"preparation"');
  });

  it("lists every default it used", () => {
    const paths = resolved(kitchen()).defaults.map((d) => d.path);
    for (const path of [
      "/maintenance",
      "/room/reflectance/walls",
      "/island/finish",
      "/island/zones",
      "/planes",
      "/arrangements/0/layers/0/role",
      "/calculation/interreflection",
      "/luminaires/dome/body/reflectance",
    ])
      expect(paths).toContain(path);
    expect(new Set(paths).size).toBe(paths.length);
  });

  it("lists none where everything is said", () => {
    const stated = resolved(
      kitchen({
        maintenance: 1,
        room: {
          length: 5.4,
          width: 4.2,
          ceilingHeight: 2.7,
          reflectance: { ceiling: 0.8, walls: [0.5, 0.5, 0.5, 0.4], floor: 0.2 },
        },
      }),
    );
    expect(stated.defaults.map((d) => d.path).filter((p) => /maintenance|room/.test(p))).toEqual([]);
    expect(stated.scenes[0].maintenance).toBe(1);
  });

  it("multiplies the parts of a maintenance factor", () => {
    const study = resolved(kitchen({ maintenance: { lampFlux: 0.9, luminaire: 0.9, surfaces: 0.95 } }));
    expect(study.scenes[0].maintenance).toBeCloseTo(0.7695, 12);
  });

  it("needs a row's island, one way to place a layer, and one light a luminaire", () => {
    const alone = kitchen();
    delete alone.island;
    expect(refusal(alone)[0].code).toBe("row-island");
    const both = { name: "x", luminaire: "spot", row: { count: 1 }, grid: { columns: 1, rows: 1 } };
    expect(refusal(kitchen({ arrangements: [{ name: "a", layers: [both] }] }))[0].code).toBe("layer-places");
    const dark = { dome: { watts: 3 }, spot: { beam: { flux: 1, angle: 30 } } };
    expect(refusal(kitchen({ luminaires: dark }))[0].code).toBe("luminaire-light");
    const unread = { dome: { photometry: "dome.ies" }, spot: { beam: { flux: 1, angle: 30 } } };
    expect(refusal(kitchen({ luminaires: unread }))[0].code).toBe("photometry-unread");
  });

  it("traces lamp and shade, lists what it assumed, and hangs their body", () => {
    const luminaires = {
      dome: {
        lamp: { flux: 800, shape: "A19", finish: "frosted" },
        shade: { profile: "dome", diameter: 0.35, finish: "white" },
        weight: 2.1,
      },
    };
    const study = resolved(withRow({ count: 2, clearance: 0.85 }, { luminaires }));
    const { luminaire } = study.scenes[0].layers[0].luminaires[0];
    expect(luminaire).toMatchObject({ evidence: "E", weight: 2.1, name: "dome" });
    expect(study.defaults.map((d) => d.path)).toContain("/luminaires/dome/shade/height");
    expect(study.scenes[0].blockers.filter((b) => b.kind === "pendant")).toHaveLength(2);
    const half = { dome: { lamp: { flux: 800 } } };
    expect(refusal(withRow({ count: 1 }, { luminaires: half }))[0].code).toBe("luminaire-light");
  });

  it("puts a reference that leads nowhere at its line in the text", () => {
    const layers = [{ name: "x", luminaire: "dom", row: { count: 1 } }];
    const text = JSON.stringify(kitchen({ arrangements: [{ name: "a", layers }] }), null, 2);
    const [issue] = placeIssues(refusal(JSON.parse(text)), text);
    const line = text.split("\n")[(issue.where.line ?? 0) - 1];
    expect(line.slice((issue.where.column ?? 0) - 1)).toMatch(/^"dom"/);
    const other = { ...issue, where: { file: "dome.ies", path: "/x" } };
    expect(placeIssues([other], text, "kitchen.study.json")).toEqual([other]);
  });
});

describe("pendants in the way", () => {
  it("warn when they stand in a hood or in one another, not when they touch it", () => {
    const codes = (box: unknown) =>
      resolved(withRow({ count: 1, clearance: 0.85 }, { bodies: [{ name: "hood", box }] })).warnings.map(
        (w) => w.code,
      );
    // The dome hangs at (2.7, 2.1), its rim at 1.77 m, 0.3 m wide.
    expect(
      codes([
        [2.8, 1.9, 1.7],
        [3.4, 2.3, 2.7],
      ]),
    ).toEqual(["bodies-overlap"]);
    expect(
      codes([
        [2.86, 1.9, 1.7],
        [3.4, 2.3, 2.7],
      ]),
    ).toEqual([]);
    expect(
      codes([
        [2.4, 1.9, 2.0],
        [3.0, 2.3, 2.7],
      ]),
    ).toEqual([]);
    const crowded = resolved(withRow({ count: 2, spacing: 0.2, clearance: 0.85 })).warnings.map(
      (w) => w.code,
    );
    expect(crowded).toEqual(["row-collides", "bodies-overlap"]);
  });

  // Two ways of drawing a body, 12 corners at the mean radius and 48 at the larger, had answered otherwise at 0.297 m and when tilted.
  it.each([
    ["wide apart", [2.4, 3], {}, false],
    ["touching", [2.55, 2.85], {}, false],
    ["3 mm in one another", [2.55, 2.847], {}, true],
    ["20 mm in one another", [2.55, 2.83], {}, true],
    ["3 mm in one another, leaning", [2.55, 2.847], { tilt: 1 }, true],
  ])("warn exactly where a clash of bodies is found: %s", (_, xs, more, meet) => {
    const at = xs.map((x) => ({ position: [x, 2.1, 1.8], ...more }));
    const layers = [{ name: "pendants", role: "pendant", luminaire: "dome", at }];
    const { warnings, scenes } = resolved(kitchen({ arrangements: [{ name: "a", layers }] }));
    expect(warnings.some(({ code }) => code === "bodies-overlap")).toBe(meet);
    expect(clashes(scenes[0]).some(({ kind }) => kind === "bodies")).toBe(meet);
  });
});

describe("aim", () => {
  const aim = [2.7, 3, 0.92];
  const nadir = (placed: { frame: { rotation: Float64Array } }) =>
    directionToRoom(placed.frame.rotation, [0, 0, -1]);
  const towards = (from: readonly number[]) => {
    const d = aim.map((a, i) => a - from[i]);
    return d.map((c) => expect.closeTo(c / Math.hypot(...d), 10));
  };

  it("turns and tilts each luminaire of a row towards a point, at its clearance", () => {
    const scene = first(withRow({ count: 3, clearance: 0.85, aim }));
    const { luminaires } = scene.layers[0];
    for (const placed of luminaires) {
      expect(nadir(placed)).toEqual(towards(placed.frame.origin));
      expect(clearanceOf(placed, scene.island)).toBeCloseTo(0.85, 10);
    }
    // Further to the side tilts more, so the rim comes down further and the centre hangs higher.
    expect(luminaires[0].frame.origin[2]).toBeGreaterThan(luminaires[1].frame.origin[2] + 1e-3);
  });

  it("does so in a grid", () => {
    const layer = { name: "a", luminaire: "spot", grid: { columns: 2, rows: 2, margin: 0.7, aim } };
    const scene = first(kitchen({ arrangements: [{ name: "a", layers: [layer] }] }));
    expect(scene.layers[0].luminaires).toHaveLength(4);
    for (const placed of scene.layers[0].luminaires)
      expect(nadir(placed)).toEqual(towards(placed.frame.origin));
  });

  it("straight down keeps the luminaire square to the island, whatever the rounding", () => {
    const scene = first(withRow({ count: 1, clearance: 0.85, aim: [2.7, 2.1 + 1e-13, 0.92] }));
    expect(directionToRoom(scene.layers[0].luminaires[0].frame.rotation, [1, 0, 0])[0]).toBeCloseTo(1, 9);
  });

  it("stands instead of turn and tilt, not beside them", () => {
    expect(refusal(withRow({ count: 2, aim, turn: 10 }))[0]).toMatchObject({ code: "aim-twice" });
    expect(refusal(withRow({ count: 2, aim, followSlope: true }))[0]).toMatchObject({ code: "aim-twice" });
    expect(resolved(withRow({ count: 2, aim, followSlope: false })).scenes).toHaveLength(1);
  });
});

describe("defaults that stand for a number", () => {
  it("are listed: output, grid margin, direction of a slope, maintenance left out", () => {
    const room = { length: 5.4, width: 4.2, ceilingHeight: 2.7, ceiling: { slope: 10 } };
    const layer = { name: "a", luminaire: "spot", grid: { columns: 3, rows: 2 } };
    const study = resolved(
      kitchen({ room, maintenance: { lampFlux: 0.9 }, arrangements: [{ name: "a", layers: [layer] }] }),
    );
    const said = new Map(study.defaults.map(({ path, value }) => [path, value]));
    expect(said.get("/room/ceiling/towards")).toBe(0);
    expect(said.get("/maintenance/survival")).toBe(1);
    expect(said.has("/maintenance/lampFlux")).toBe(false);
    expect(said.get("/arrangements/0/layers/0/dim")).toBe(1);
    const margin = said.get("/arrangements/0/layers/0/grid/margin") as number[];
    expect(margin).toEqual([expect.closeTo(0.9, 12), expect.closeTo(1.05, 12)]);
    expect(study.scenes[0].maintenance).toBeCloseTo(0.9, 12);
  });
});

describe("light that does not get into the room", () => {
  const warned = (position: number[], more: object = {}, luminaire: object = {}) =>
    resolved(
      kitchen({
        luminaires: { spot: { beam: { flux: 650, angle: 36 }, ...luminaire } },
        arrangements: [
          { name: "a", layers: [{ name: "l", luminaire: "spot", at: [{ position, ...more }] }] },
        ],
      }),
    ).warnings.map(({ code, where }) => `${code} ${where.path}`);

  it("is warned of: a luminaire inside the island, not one upon it", () => {
    expect(warned([2.7, 2.1, 0.5])).toEqual(["luminaire-in-body /arrangements/0/layers/0"]);
    expect(warned([2.7, 2.1, 0.92])).toEqual([]);
    expect(warned([2.7, 2.1, 1])).toEqual([]);
  });

  it("is warned of: an opening through a wall, as it is turned and tilted", () => {
    const long = { opening: { length: 1.2, width: 0.05 } };
    const through = ["luminaire-through-wall /arrangements/0/layers/0"];
    expect(warned([0.5, 2.1, 2], {}, long)).toEqual(through);
    expect(warned([0.5, 2.1, 2], { turn: 90 }, long)).toEqual([]);
    expect(warned([0.5, 2.1, 2], { tilt: 60 }, long)).toEqual([]);
    expect(warned([0.6, 2.1, 2], {}, long)).toEqual([]);
    expect(warned([2.7, 4.0, 2], { turn: 90 }, long)).toEqual(through);
  });
});

// 2026-11-29: "Expected one of , found \"pendants\"".
it("says of a name that can name nothing that there is none", () => {
  const settings = [{ name: "evening", dim: { pendants: 0.5 } }];
  const [issue] = refusal(kitchen({ arrangements: [{ name: "bare", layers: [], settings }] }));
  expect(issue).toMatchObject({ code: "setting-layer", expected: "none, as there is no layer" });
});
