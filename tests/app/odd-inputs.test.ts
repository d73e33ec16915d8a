/**
 * Inputs that can be calculated and cannot be meant say so, each where it stands in the document.
 * 2026-11-29: all of these passed without a word.
 */
import { describe, expect, it } from "vitest";
import { openStudy } from "../../src/app/open-study.ts";
import { calculate } from "../support/calculate.ts";
import { type Json, kitchen, L_OUTLINE } from "../support/studies.ts";

const ROOM = { length: 5.4, width: 4.2, ceilingHeight: 2.7 };
const ISLAND = { centre: [2.7, 2.1], length: 2.4, width: 1.1, height: 0.92 };
const DOOR = { name: "d", wall: 0, from: 1, width: 0.9, swing: "in-left" };
const TALL = {
  name: "tall",
  box: [
    [0, 0, 0],
    [1, 1, 2.2],
  ],
};

const spot = (more: Json): Json => ({ luminaires: { s: { beam: { flux: 650, angle: 36 }, ...more } } });
const hung = (layer: Json): Json => ({
  arrangements: [{ name: "A", layers: [{ name: "p", luminaire: "s", ...layer }] }],
});
const AT = { at: [{ position: [2.5, 2, 2] }] };
const SET_IN = hung({ role: "recessed", grid: { columns: 2, rows: 2, margin: 0.7 } });

const CASES: readonly (readonly [what: string, path: string, code: string, more: Json])[] = [
  [
    "a keep-out beyond the room",
    "/room/keepOuts/0",
    "keep-out-outside",
    { room: { ...ROOM, keepOuts: [{ name: "duct", from: [8, 8], size: [1, 1] }] } },
  ],
  [
    "joists beyond the room",
    "/room/joists/first",
    "joists-outside",
    { room: { ...ROOM, joists: { along: "y", spacing: 0.4, first: 9 } } },
  ],
  [
    "a door above the ceiling",
    "/room/doors/0",
    "door-height",
    { room: { ...ROOM, doors: [{ ...DOOR, height: 3.1 }] } },
  ],
  [
    "a door in a window",
    "/room/doors/0",
    "door-in-opening",
    {
      room: { ...ROOM, doors: [DOOR], openings: [{ wall: 0, from: 1.5, length: 1, sill: 0.9, height: 1.2 }] },
    },
  ],
  [
    "a hob in the sink",
    "/island/hob",
    "hob-in-sink",
    {
      island: {
        ...ISLAND,
        hob: { from: [0.2, 0.2], size: [0.6, 0.5] },
        sink: { from: [0.5, 0.2], size: [0.6, 0.5] },
      },
    },
  ],
  [
    "two people in one place",
    "/people/1/at",
    "people-in-one-place",
    {
      people: [
        { name: "a", at: [2, 1] },
        { name: "b", at: [2.1, 1] },
      ],
    },
  ],
  [
    "a person in a cupboard",
    "/people/0/at",
    "person-in-body",
    { people: [{ name: "a", at: [0.5, 0.5] }], bodies: [TALL] },
  ],
  [
    "two bodies of one name",
    "/bodies/1/name",
    "body-name",
    {
      bodies: [
        TALL,
        {
          name: "tall",
          box: [
            [2, 0, 0],
            [3, 0.5, 2.2],
          ],
        },
      ],
    },
  ],
  [
    "an aim beyond the room",
    "/arrangements/0/layers/0/at/0/aim",
    "aim-outside",
    { ...spot({}), ...hung({ at: [{ position: [2.5, 2, 2], aim: [25, 2, 0] }] }) },
  ],
  [
    "a row that aims beyond the room",
    "/arrangements/0/layers/0/row/aim",
    "aim-outside",
    { ...spot({}), ...hung({ row: { count: 3, clearance: 0.8, aim: [2, 2, -3] } }) },
  ],
  ["light of no power", "/luminaires/s/watts", "watts-none", { ...spot({ watts: 0 }), ...hung(AT) }],
  [
    "light of no power from a name with a slash",
    "/luminaires/a~1b/watts",
    "watts-none",
    {
      luminaires: { "a/b": { beam: { flux: 650, angle: 36 }, watts: 0 } },
      arrangements: [{ name: "A", layers: [{ name: "p", luminaire: "a/b", ...AT }] }],
    },
  ],
  ["watts for milliwatts", "/luminaires/s/watts", "efficacy-low", { ...spot({ watts: 9000 }), ...hung(AT) }],
  [
    "more watts than marked",
    "/luminaires/s/watts",
    "watts-above-marked",
    { ...spot({ watts: 9, markedWatts: 7 }), ...hung(AT) },
  ],
  ["grams for kilograms", "/luminaires/s/weight", "weight-high", { ...spot({ weight: 1800 }), ...hung(AT) }],
  [
    "a canopy wider than a room",
    "/luminaires/s/canopy/diameter",
    "canopy-large",
    { ...spot({ canopy: { diameter: 9 } }), ...hung(AT) },
  ],
  [
    "a hole wider than a flange covers",
    "/luminaires/s/cutOut",
    "cut-out-large",
    {
      ...spot({ body: { profile: "cylinder", diameter: 0.085, height: 0.09 }, cutOut: 0.15 }),
      ...hung(AT),
    },
  ],
  [
    "a hole wider one way than a flange covers",
    "/luminaires/s/cutOut",
    "cut-out-large",
    {
      ...spot({ body: { profile: "box", length: 0.2, width: 0.1, height: 0.09 }, cutOut: [0.19, 0.17] }),
      ...hung(AT),
    },
  ],
  // 2026-11-29: a hole of 75 mm for a body of 80 mm passed in silence.
  [
    "a hole that the housing does not pass",
    "/luminaires/s/cutOut",
    "cut-out-small",
    { ...spot({ body: { profile: "cylinder", diameter: 0.08, height: 0.09 }, cutOut: 0.075 }), ...SET_IN },
  ],
  [
    "a round hole that the corners of a housing do not pass",
    "/luminaires/s/cutOut",
    "cut-out-small",
    {
      ...spot({ body: { profile: "box", length: 0.08, width: 0.08, height: 0.09 }, cutOut: 0.1 }),
      ...SET_IN,
    },
  ],
  // 2026-11-29: on HOLD on paper, and nothing was said before.
  [
    "a void above the ceiling that is too shallow",
    "/luminaires/s/body",
    "void-shallow",
    {
      room: { ...ROOM, ceilingVoid: 0.075 },
      ...spot({ body: { profile: "cylinder", diameter: 0.08, height: 0.125 } }),
      ...SET_IN,
    },
  ],
  [
    "a cable farther beside its luminaire than half a metre",
    "/luminaires/s/suspensions/1",
    "suspension-beside",
    {
      ...spot({
        body: { profile: "box", length: 0.4, width: 0.1, height: 0.09 },
        suspensions: [
          [0, 0],
          [0.71, 0],
        ],
      }),
      ...hung(AT),
    },
  ],
  [
    "a cable far beside its luminaire",
    "/luminaires/s/suspensions/1",
    "suspension-beside",
    {
      ...spot({
        suspensions: [
          [0, 0],
          [9, 0],
        ],
      }),
      ...hung(AT),
    },
  ],
  [
    "a feed far beside its luminaire",
    "/luminaires/s/feed",
    "suspension-beside",
    { ...spot({ feed: [0, 9] }), ...hung(AT) },
  ],
  [
    "a curve of digital levels for a control by 0-10 V",
    "/arrangements/0/layers/0/dimmer/control",
    "curve-not-of-dimming",
    { ...spot({ dimming: "0-10 V" }), ...hung({ ...AT, dimmer: { control: "logarithmic" } }) },
  ],
  [
    "the same, as a data sheet writes it",
    "/arrangements/0/layers/0/dimmer/control",
    "curve-not-of-dimming",
    { ...spot({ dimming: "analogue, 1…10V" }), ...hung({ ...AT, dimmer: { control: "logarithmic" } }) },
  ],
  [
    "a row that hangs beyond the top's outline",
    "/arrangements/0/layers/0",
    "luminaire-beyond-top",
    {
      island: { centre: [2.7, 2.1], height: 0.92, outline: L_OUTLINE },
      ...spot({ body: { profile: "globe", diameter: 0.25, height: 0.25 } }),
      ...hung({ row: { count: 3, clearance: 0.8 } }),
    },
  ],
  [
    "a zone above the pendants over it",
    "/island/zones/0/height",
    "zone-above-luminaires",
    {
      island: {
        ...ISLAND,
        zones: [{ name: "z", from: [0, 0], size: [2.4, 1.1], target: null, height: 2.3 }],
      },
    },
  ],
  [
    "a zone above the lowest of the pendants over it",
    "/island/zones/0/height",
    "zone-above-luminaires",
    {
      island: {
        ...ISLAND,
        zones: [{ name: "z", from: [0, 0], size: [2.4, 1.1], target: null, height: 1.6 }],
      },
      ...spot({}),
      ...hung({
        role: "pendant",
        at: [{ position: [2.4, 2.1, 1.3] }, { position: [3, 2.1, 2.2] }],
      }),
    },
  ],
  [
    "a canopy taller than the drop",
    "/luminaires/s/canopy/height",
    "canopy-above-drop",
    {
      ...spot({ canopy: { diameter: 0.1, height: 0.8 } }),
      ...hung({ row: { count: 1, clearance: 1.2 } }),
    },
  ],
  // 2026-11-29: a bar of 1.2 m, 0.8 m above the top, was lit as from a point: 28 % more light under its middle than from its length.
  [
    "a long body whose light has no size",
    "/luminaires/s",
    "opening-missing",
    {
      ...spot({ body: { profile: "box", length: 1.2, width: 0.08, height: 0.08 } }),
      ...hung({ row: { count: 1, clearance: 0.8 } }),
    },
  ],
  [
    "a luminaire on the floor under the island",
    "/arrangements/0/layers/0",
    "luminaire-in-body",
    { ...spot({}), ...hung({ at: [{ position: [2.7, 2.1, 0] }] }) },
  ],
  [
    "a power factor of no driver",
    "/luminaires/s/powerFactor",
    "power-factor-low",
    { ...spot({ watts: 7, powerFactor: 0.01 }), ...hung(AT) },
  ],
  [
    "a lamp of one hour",
    "/luminaires/s/lampLife",
    "lamp-life-short",
    { ...spot({ lampLife: 1 }), ...hung(AT) },
  ],
  [
    "a drawing underneath that the study does not carry",
    "/underlay/image",
    "underlay-missing",
    { underlay: { image: "plan.png" } },
  ],
  ["hardly any light left", "/maintenance", "maintenance-low", { maintenance: 0.01 }],
];

describe("what cannot be meant", () => {
  it.each(CASES)("%s is said at %s", async (_what, path, code, more) => {
    const opened = await openStudy(kitchen(more));
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    expect(opened.value.study.warnings).toContainEqual(
      expect.objectContaining({ code, where: expect.objectContaining({ path }) }),
    );
  });

  it("nothing is said of a kitchen where all of it is as it may be", async () => {
    const opened = await openStudy(
      kitchen({
        room: {
          ...ROOM,
          keepOuts: [{ name: "duct", from: [5, 3], size: [1, 1] }],
          joists: { along: "y", spacing: 0.4, first: 0.2 },
          doors: [DOOR],
          openings: [{ wall: 0, from: 1, length: 0.9, sill: 2.1, height: 0.3 }],
        },
        people: [{ name: "a", at: [2, 1] }],
        bodies: [TALL],
        island: { ...ISLAND, zones: [{ name: "z", from: [0, 0], size: [1, 1], target: null, height: 1.1 }] },
        underlay: { image: "plan.png" },
        embedded: { "plan.png": { base64: "AAAA" } },
      }),
    );
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    expect(opened.value.study.warnings).toEqual([]);
  });

  it.each([
    ["takes as much power as is marked", { watts: 9, markedWatts: 9 }],
    [
      "hangs on cables half a metre beside it",
      {
        body: { profile: "box", length: 0.4, width: 0.1, height: 0.09 },
        suspensions: [
          [-0.69, 0],
          [0.69, 0],
        ],
      },
    ],
  ])("nothing is said of a luminaire that %s", async (_what, more) => {
    const opened = await openStudy(kitchen({ ...spot(more), ...hung(AT) }));
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const codes = opened.value.study.warnings.map(({ code }) => code);
    expect(codes).not.toContain("watts-above-marked");
    expect(codes).not.toContain("suspension-beside");
  });

  // 2026-11-29: cables 1.22 m from the middle of a bar of 1.5 m were taken without a word.
  it.each([
    [0.75, 0, []],
    [1.22, 0, [["/luminaires/s/suspensions", "-1220 mm, 0 mm"]]],
    [0.6, 0.9, [["/luminaires/s/feed", "900 mm, 0 mm"]]],
  ])(
    "cables %f m from the middle of a bar and a feed at %f m are told where they lie beyond it",
    async (at, feed, expected) => {
      const body = { profile: "box", length: 1.5, width: 0.06, height: 0.03 };
      const suspensions = [
        [-at, 0],
        [at, 0],
      ];
      const opened = await openStudy(
        kitchen({ ...spot({ body, suspensions, feed: [feed, 0] }), ...hung(AT) }),
      );
      if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
      const told = opened.value.study.warnings.filter(({ code }) => code === "suspended-beyond-body");
      expect(told.map(({ where, received }) => [where.path, received])).toEqual(expected);
    },
  );

  // 2026-11-29: a feed 2 m beside a bar of 1.2 m was told twice, by two findings.
  it.each([
    ["half a metre", 0.45, "suspended-beyond-body"],
    ["two metres", 2, "suspension-beside"],
  ])("a feed %s beyond its luminaire is told once", async (_what, beyond, code) => {
    const body = { profile: "box", length: 1.2, width: 0.1, height: 0.09 };
    const opened = await openStudy(kitchen({ ...spot({ body, feed: [0.6 + beyond, 0] }), ...hung(AT) }));
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const told = opened.value.study.warnings.filter(({ where }) => where.path === "/luminaires/s/feed");
    expect(told.map((each) => each.code)).toEqual([code]);
  });

  it.each([
    ["trailing edge", "logarithmic"],
    ["DALI", "logarithmic"],
    ["0-10 V", "linear"],
    ["0-100 %, DALI", "logarithmic"],
  ])("nothing is said of %s with a %s curve", async (dimming, control) => {
    const opened = await openStudy(
      kitchen({ ...spot({ dimming }), ...hung({ ...AT, dimmer: { control } }) }),
    );
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    expect(opened.value.study.warnings.map(({ code }) => code)).not.toContain("curve-not-of-dimming");
  });

  // 2026-11-29: the ordinary hole, a little wider than the housing and covered by the flange, was called too wide.
  it.each([
    ["a little wider than its housing", "cylinder", 0.102, 0.108, SET_IN],
    ["as wide as its housing", "cylinder", 0.08, 0.08, SET_IN],
    ["as wide as a flange can cover", "cylinder", 0.085, 0.145, SET_IN],
    ["for what is above it, of a body that hangs under it", "dome", 0.3, 0.075, hung(AT)],
  ])("nothing is said of a hole %s", async (_what, profile, diameter, cutOut, placed) => {
    const opened = await openStudy(
      kitchen({
        room: { ...ROOM, ceilingVoid: 0.09 },
        ...spot({ body: { profile, diameter, height: 0.09 }, cutOut }),
        ...placed,
      }),
    );
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const codes = opened.value.study.warnings.map(({ code }) => code);
    expect(codes.filter((code) => /^(cut-out|void)-/.test(code))).toEqual([]);
  });

  // A disc of radius a, d above a point, lights it 1/(1 + (a/d)²) as much as from its middle alone (view factor of a disc).
  it("a light's size is asked for from where it takes a tenth of the light below", async () => {
    const under = async (diameter: number, opening: Json) => {
      const opened = await openStudy(
        kitchen({
          luminaires: {
            s: {
              beam: { flux: 1000, angle: 120 },
              body: { profile: "drum", diameter, height: 0.1 },
              ...opening,
            },
          },
          ...hung({ row: { count: 1, clearance: 0.8 } }),
          planes: [{ name: "under", points: [[2.7, 2.1, 0.92]], normal: [0, 0, 1] }],
          calculation: { interreflection: false },
        }),
      );
      if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
      const { scenes, options, warnings } = opened.value.study;
      const [{ layers }] = calculate(scenes[0], options).planes;
      return { lux: layers[0].direct[0], codes: warnings.map(({ code }) => code) };
    };
    for (const diameter of [0.5, 0.56]) {
      const [point, disc] = await Promise.all([
        under(diameter, {}),
        under(diameter, { opening: { diameter } }),
      ]);
      const share = 1 - disc.lux / point.lux;
      console.log(
        `a light of ${diameter} m at 0.8 m takes ${(100 * share).toFixed(1)} % of the light below it`,
      );
      expect(share).toBeCloseTo(1 - 1 / (1 + (diameter / 2 / 0.8) ** 2), 2);
      expect(point.codes.includes("opening-missing")).toBe(share > 0.1);
      expect(disc.codes).not.toContain("opening-missing");
    }
  });

  it("tells how far pendants hang beyond an L, and stops at what is set out by hand", async () => {
    const said = async (across: number) => {
      const opened = await openStudy(
        kitchen({
          display: { length: "mm", illuminance: "lx" },
          island: { centre: [2.7, 2.1], height: 0.92, outline: L_OUTLINE },
          luminaires: {
            s: { beam: { flux: 900, angle: 160 }, body: { profile: "globe", diameter: 0.25, height: 0.25 } },
          },
          ...hung({ row: { count: 3, spacing: 0.8, clearance: 0.8, offset: [0.4, across] } }),
        }),
      );
      if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
      return opened.value.study.warnings.filter(({ code }) => code === "luminaire-beyond-top");
    };
    // Middles at 1.0, 1.8 and 2.6 m along, 0.85 m across: rims at 0.975 m of 0.9 m.
    const [{ message, expected, received }] = await said(0);
    expect(message).toBe('3 of 3 pendants of "p" hang beyond the edge of the top, over the floor.');
    expect(received).toBe("up to 75 mm beyond it");
    expect(expected).toBe("another place (row.offset), or narrower luminaires");
    // 1 mm, and 51 mm within.
    expect(await said(-0.074)).toEqual([]);
    expect(await said(-0.126)).toEqual([]);
  });

  it("a body across its opening is not told to move off the edge of the top", async () => {
    const warned = async (body: Json) => {
      const opened = await openStudy(
        kitchen({
          luminaires: {
            s: {
              beam: { flux: 900, angle: 90 },
              opening: { shape: "rectangle", length: 0.06, width: 1.5 },
              body: { profile: "box", height: 0.06, ...body },
            },
          },
          ...hung({ row: { count: 1, clearance: 0.8 } }),
        }),
      );
      if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
      return opened.value.study.warnings.map(({ code }) => code);
    };
    expect(await warned({ length: 1.5, width: 0.06 })).not.toContain("luminaire-beyond-top");
    // As wide as its light both ways, it does hang beyond a top of 1.1 m.
    expect(await warned({ length: 1.5, width: 1.5 })).toContain("luminaire-beyond-top");
  });

  it("a row that aims at its own place is refused", async () => {
    const opened = await openStudy(
      kitchen({ ...spot({}), ...hung({ row: { count: 1, clearance: 0.8, aim: [2.7, 2.1, 1.72] } }) }),
    );
    expect(opened.ok ? [] : opened.issues).toEqual([
      expect.objectContaining({
        code: "aim-here",
        where: expect.objectContaining({ path: "/arrangements/0/layers/0/row/aim" }),
      }),
    ]);
  });
});
