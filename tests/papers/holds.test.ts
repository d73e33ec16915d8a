/** What holds the set-out leads to the place of the study that says it. */
import { expect, it } from "vitest";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { ownerOf } from "../../src/app/set-out/hold.ts";
import { handoverFiles } from "../../src/formats/handover-files.ts";
import { holdsOf } from "../../src/papers/set-out/holds.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen, L_OUTLINE, resolved } from "../support/studies.ts";

const heldIn = (more: Json = {}) => {
  const { scenes, defaults } = resolved(kitchen(more));
  const [scene] = scenes;
  return holdsOf({ scene, clashes: clashes(scene), defaults }, "mm");
};
const fieldOf = (more: Json, words: RegExp) =>
  heldIn(more)
    .find((hold) => words.test(hold.words))
    ?.field.join("/");

it("names the field of the first luminaire or layer that it is missed of", () => {
  expect(fieldOf({}, /^Not stated: weight, canopy, rod or cord/)).toBe("luminaires/dome/weight");
  expect(fieldOf({}, /^Power not stated/)).toBe("luminaires/dome/watts");
  // 2026-11-29: one line for all layers led to the first of them, and came back for the next.
  expect(fieldOf({}, /^No circuit named for pendants\.$/)).toBe("layers/0/circuit");
  expect(fieldOf({}, /^No circuit named for ambient\.$/)).toBe("layers/1/circuit");
  expect(fieldOf({}, /^No dimmer or switch stated for pendants \(/)).toBe("layers/0/dimmer/maximumWatts");
  expect(fieldOf({}, /^No dimmer or switch stated for ambient \(/)).toBe("layers/1/dimmer/maximumWatts");
  const island = { length: 2.4, width: 1.1 };
  expect(fieldOf({ island }, /island's place was not given/)).toBe("island/centre");
  expect(fieldOf({ island }, /height of the island's top/)).toBe("island/height");
});

it("goes on to what is still missing, and to what is in the way", () => {
  const dome = {
    beam: { flux: 800, angle: 90 },
    opening: { diameter: 0.26 },
    body: { profile: "dome", diameter: 0.3, height: 0.22 },
    weight: 25,
  };
  const more = {
    luminaires: { dome, spot: { beam: { flux: 650, angle: 36 }, watts: 7 } },
    arrangements: [
      {
        name: "a",
        layers: [
          { name: "ambient", luminaire: "spot", grid: { columns: 1, rows: 1 }, circuit: "1" },
          { name: "pendants", luminaire: "dome", row: { count: 3, spacing: 0.2, clearance: 0.85 } },
        ],
      },
    ],
  };
  expect(fieldOf(more, /^Not stated: canopy, rod or cord/)).toBe("luminaires/dome/canopy/diameter");
  expect(fieldOf(more, /^Heavier than/)).toBe("luminaires/dome/weight");
  expect(fieldOf(more, /Space the row/)).toBe("layers/1/row/count");
  expect(fieldOf(more, /^No circuit named for pendants/)).toBe("layers/1/circuit");
  // Once for all boxes that share it.
  expect(heldIn(more).filter(({ words }) => words.startsWith("Heavier"))).toMatchObject([
    { tags: ["P1", "P2", "P3"] },
  ]);
});

it("holds a luminaire of flux and beam that nobody chose, and a body of no stated size (2026-11-28)", () => {
  const dome = { beam: { flux: 800, angle: 90 }, opening: { diameter: 0.26 } };
  const withDome = (more: Json) => ({
    luminaires: { dome: { ...dome, ...more }, spot: { beam: { flux: 650, angle: 36 } } },
  });
  // 2026-11-29: it led to the list of luminaires, where no order number is.
  expect(fieldOf(withDome({}), /^"dome": the pendant is a typical one.*choose the luminaire/)).toBe(
    "luminaires/dome/order",
  );
  expect(fieldOf(withDome({ order: "D-30" }), /^"dome": the pendant is a typical one/)).toBeUndefined();
  expect(fieldOf(withDome({}), /^Body: size not given/)).toBe("luminaires/dome/body");
  const body = { profile: "dome", diameter: 0.3, height: 0.22 };
  expect(fieldOf(withDome({ body }), /^Body: size not given/)).toBeUndefined();
});

it("holds a grid in the ceiling whose distance from the walls nobody said (2026-11-29)", () => {
  const words = /^Distance from the walls to the outer ones not given: half a spacing/;
  const withGrid = (grid: Json): Json => ({
    arrangements: [{ name: "a", layers: [{ name: "ambient", luminaire: "spot", grid }] }],
  });
  const open = withGrid({ columns: 2, rows: 2 });
  expect(fieldOf(open, words)).toBe("layers/0/grid/margin");
  expect(heldIn(open).find((hold) => words.test(hold.words))?.tags).toEqual(["R1", "R2", "R3", "R4"]);
  expect(fieldOf(withGrid({ columns: 2, rows: 2, margin: 0.7 }), words)).toBeUndefined();
  // Of the arrangement that is built, and of no other.
  const both = {
    arrangements: [
      { columns: 2, rows: 2, margin: 0.7 },
      { columns: 2, rows: 2 },
    ].map((grid, i) => ({
      name: `option ${i}`,
      layers: [{ name: "ambient", luminaire: "spot", grid }],
    })),
  };
  expect(fieldOf(both, words)).toBeUndefined();
});

it("takes for a grid what stood in for its distance from the walls, along and across (2026-11-29)", () => {
  const withGrid = (grid: Json) =>
    resolved(
      kitchen({ arrangements: [{ name: "a", layers: [{ name: "ambient", luminaire: "spot", grid }] }] }),
    );
  const open = withGrid({ columns: 3, rows: 2 });
  const stoodIn = open.defaults.find(({ path }) => path.endsWith("/grid/margin"))?.value as Json;
  expect(stoodIn).toHaveLength(2);
  const places = ({ scenes: [scene] }: typeof open) =>
    scene.layers[0].luminaires.map(({ frame }) => frame.origin);
  const [given, usual] = [places(withGrid({ columns: 3, rows: 2, margin: stoodIn })), places(open)];
  given.flat().forEach((c, k) => {
    expect(c).toBeCloseTo(usual.flat()[k], 12);
  });
  expect(given.flat()).toHaveLength(18);
});

const bar = {
  beam: { flux: 2400, angle: 100 },
  opening: { length: 1.1, width: 0.04 },
  body: { profile: "box", length: 1.16, width: 0.05, height: 0.06 },
};
const withBar = (more: Json, layer: Json = {}): Json => ({
  luminaires: { bar: { ...bar, ...more } },
  arrangements: [
    {
      name: "a",
      layers: [{ name: "bars", luminaire: "bar", row: { count: 2, clearance: 0.85 }, ...layer }],
    },
  ],
});

it("holds the box of a long luminaire whose feed or suspension is assumed (2026-11-28)", () => {
  const feed = /^Feed.*not stated/;
  const [hold] = heldIn(withBar({})).filter(({ words }) => feed.test(words));
  // 0.4 of 1.16 m.
  expect(hold?.words).toMatch(/^Feed and suspension points not stated: the box is assumed 464 mm from/);
  expect(hold?.tags).toEqual(["P1", "P2"]);
  expect(hold?.field).toEqual(["luminaires", "bar", "feed"]);
  const suspensions = [
    [-0.3, 0],
    [0.3, 0],
  ];
  expect(fieldOf(withBar({ suspensions }), feed)).toBe("luminaires/bar/feed");
  expect(fieldOf(withBar({ feed: [0, 0] }), /^Suspension points not stated: 2 assumed/)).toBe(
    "luminaires/bar/suspensions",
  );
  expect(fieldOf(withBar({ feed: [0, 0], suspensions }), /not stated: .*assumed/)).toBeUndefined();
});

// 2026-11-29: points along the short side of a body came to the drilling sheet with a warning on the terminal alone.
it("holds the holes of suspension points that lie beside the body", () => {
  const turned = { profile: "box", length: 0.11, width: 1.22, height: 0.06 };
  const of = (more: Json) =>
    heldIn(withBar({ opening: { length: 0.1, width: 1.2 }, body: turned, ...more })).filter(({ words }) =>
      / beside the /.test(words),
    );
  const along = [
    [-0.5, 0],
    [0.5, 0],
  ];
  const across = along.map(([x, y]) => [y, x]);
  expect(of({ suspensions: along, feed: [0, 0] })).toEqual([
    {
      tags: ["P1", "P2"],
      words:
        "Suspension points lie up to 445 mm beside the body: with x and y exchanged they would lie on it. Confirm before any hole is cut.",
      field: ["luminaires", "bar", "suspensions"],
    },
  ]);
  expect(of({ suspensions: across, feed: [0.7, 0.1] })).toMatchObject([
    {
      words: "The feed lies 645 mm beside the body. Confirm before any hole is cut.",
      field: ["luminaires", "bar", "feed"],
    },
  ]);
  expect(of({ suspensions: along, feed: [0.5, 0] })).toHaveLength(2);
  expect(of({ suspensions: across, feed: [0.07, 0.6] })).toEqual([]);
  expect(of({})).toEqual([]);
});

it("holds a switch at a place that nobody said (2026-11-28)", () => {
  const words = /^Place of a switch assumed for bars/;
  expect(fieldOf(withBar({}, { switches: [{}] }), words)).toBe("layers/0/switches/0/at");
  expect(fieldOf(withBar({}, { switches: [{ at: [0.1, 0.9] }] }), words)).toBeUndefined();
  // 2026-11-29: a dimmer's place was called that of a switch, and led to the button that adds another.
  const dimmed = (...switches: Json[]): Json => withBar({}, { dimmer: { name: "d" }, switches });
  const dimmer = /^Place of the dimmer assumed for bars/;
  expect(fieldOf(dimmed({}), dimmer)).toBe("layers/0/switches/0/at");
  expect(fieldOf(dimmed({}), words)).toBeUndefined();
  expect(fieldOf(dimmed({ at: [0.1, 0.9] }, {}), words)).toBe("layers/0/switches/1/at");
  expect(fieldOf(dimmed({ at: [0.1, 0.9] }, {}), dimmer)).toBeUndefined();
});

it("keeps a dimmed layer on hold whose dimmer nobody stated, switch or not (2026-11-28)", () => {
  const switches = [{ at: [0.1, 0.9] }];
  const words = /^No dimmer stated for what is dimmed: bars/;
  expect(fieldOf(withBar({}, { switches, dim: 0.6 }), words)).toBe("layers/0/dimmer/maximumWatts");
  expect(fieldOf(withBar({}, { switches }), words)).toBeUndefined();
  expect(fieldOf(withBar({}, { switches, dim: 0.6, dimmer: { name: "d" } }), words)).toBeUndefined();
});

it("holds pendants that hang beyond the edge of the top, by how much and how to settle it (2026-11-29)", () => {
  const words = /^Hangs? beyond the edge of the top/;
  const over = (offset: [number, number], more: Json = {}): Json => ({
    island: { centre: [2.7, 2.1], height: 0.92, outline: L_OUTLINE, ...more },
    arrangements: [
      {
        name: "a",
        layers: [
          {
            name: "p",
            luminaire: "dome",
            row: { count: 3, spacing: 0.8, clearance: 0.85, offset },
          },
        ],
      },
    ],
  });
  // Middles at 0.6, 1.4 and 2.2 m along, 0.85 m across; rims at 1.0 m, of 0.9 m where the short leg is not.
  const [hold] = heldIn(over([0, 0])).filter((each) => words.test(each.words));
  expect(hold).toEqual({
    tags: ["P2", "P3"],
    words:
      "Hangs beyond the edge of the top, over the floor, by up to 100 mm: move the row, choose narrower luminaires, or confirm that it is meant.",
    field: ["layers", 0, "row", "count"],
  });
  expect(fieldOf(over([0, -0.2]), words)).toBeUndefined();
  // 2026-11-29: nothing of the study could confirm it.
  const meant = over([0, 0]);
  (meant.arrangements as { layers: Json[] }[])[0].layers[0].beyondTop = true;
  expect(fieldOf(meant, words)).toBeUndefined();
  const contents = handoverFiles(handoverOf(kitchen(over([0, 0])))).find(
    ({ path }) => path === "contents.txt",
  );
  const listed = contents !== undefined && "content" in contents ? contents.content : "";
  expect(listed.replaceAll("\u00a0", " ")).toContain(`HOLD P2, P3: ${hold.words}`);
});

it("asks at once all that a layer's dimmer is held for, so that settling one asks for nothing new (2026-11-29)", () => {
  const layer = (more: Json = {}): Json => withBar({ watts: 6 }, { circuit: "1", ...more });
  const ofLayer = (more: Json = {}) => heldIn(layer(more)).filter(({ field }) => field[0] === "layers");
  const [first, ...others] = ofLayer();
  expect(others).toEqual([]);
  expect(first.words).toBe(
    "No dimmer or switch stated for bars (dimmer: greatest and least load, and its place; switch: its place).",
  );
  expect(first.tags).toEqual(["P1", "P2"]);
  const loads = [
    ["layers", 0, "dimmer", "maximumWatts"],
    ["layers", 0, "dimmer", "minimumWatts"],
  ];
  // A dimmer's place was on no plan and asked by nobody.
  const place = ["layers", 0, "switches"];
  expect(first.missing).toEqual([...loads, place]);
  // 2026-11-29: where nothing is dimmed, a load was needed though a switch is enough.
  expect(first.enough).toEqual(place);
  expect(ofLayer({ dim: 0.5 })[0].enough).toBeUndefined();
  // The name alone: what was asked is asked still.
  const of = (dimmer: Json, switches?: Json[]) =>
    ofLayer({ dimmer, ...(switches && { switches }) }).flatMap(({ missing = [] }) => missing);
  expect(of({ name: "D1" })).toEqual([place, ...loads]);
  expect(of({ maximumWatts: 150 })).toEqual([place, loads[1]]);
  expect(of({ minimumWatts: 3 })).toEqual([place, loads[0]]);
  expect(of({ minimumWatts: 3, maximumWatts: 150 })).toEqual([place]);
  expect(of({ minimumWatts: 3, maximumWatts: 150 }, [{ at: [0.1, 0.9] }])).toEqual([]);
});

it("says of each HOLD what the study lacks, all of one luminaire or layer at one place (2026-11-29)", () => {
  const missing = (more: Json, words: RegExp) =>
    heldIn(more)
      .find((hold) => words.test(hold.words))
      ?.missing?.map((field) => field.join("/"));
  const dome = ["weight", "canopy/diameter", "suspension", "dimming"].map((key) => `luminaires/dome/${key}`);
  expect(missing({}, /^Not stated: weight, canopy, rod or cord/)).toEqual(dome);
  const owners = new Set(heldIn().map(({ field }) => ownerOf(field).join("/")));
  expect([...owners].sort()).toEqual(["layers/0", "layers/1", "luminaires/dome", "luminaires/spot"]);
});

it("says once on paper what several layers are held for (2026-11-29)", () => {
  const listed = handoverFiles(handoverOf(kitchen())).flatMap((file) =>
    "content" in file ? [String(file.content)] : [],
  );
  expect(listed.join("\n").replaceAll("\u00a0", " ")).toContain("No circuit named for pendants, ambient.");
});

/** Two spots in the ceiling and nothing else. */
const inCeiling = (grid: Json = {}): Json[] => [
  {
    name: "a",
    layers: [
      {
        name: "ambient",
        role: "recessed",
        luminaire: "spot",
        grid: { columns: 2, rows: 1, margin: 0.7, ...grid },
      },
    ],
  },
];

// 2026-11-29: a luminaire 385 mm high was set into a ceiling, and nobody asked whether there is room for it.
it("asks for the clear height above a ceiling that a luminaire goes into, and holds what does not fit there", () => {
  const into = (body: Json | undefined, room: Json = {}, grid: Json = {}): Json => ({
    room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ...room },
    luminaires: {
      spot: { beam: { flux: 650, angle: 36 }, opening: { diameter: 0.07 }, ...(body && { body }) },
    },
    arrangements: inCeiling(grid),
  });
  const deep = { profile: "cylinder", diameter: 0.075, height: 0.385 };
  const words = /above the ceiling/;
  const [asked] = heldIn(into(deep)).filter((hold) => words.test(hold.words));
  expect(asked).toMatchObject({
    tags: ["R1", "R2"],
    words: "Goes 385 mm into the ceiling: clear height above the ceiling not stated.",
    field: ["room", "ceilingVoid"],
    missing: [["room", "ceilingVoid"]],
  });
  expect(fieldOf(into(deep, { ceilingVoid: 0.4 }), words)).toBeUndefined();
  const [tight] = heldIn(into(deep, { ceilingVoid: 0.3 })).filter((hold) => words.test(hold.words));
  expect(tight.words).toBe(
    "Goes 385 mm into the ceiling, of 300 mm clear above the ceiling: a shallower luminaire, or one under the ceiling.",
  );
  expect(tight.field).toEqual(["luminaires", "spot", "body"]);
  expect(tight.missing).toBeUndefined();
  // Nothing is known to go in, or all of it is under the ceiling.
  expect(fieldOf(into(undefined), words)).toBeUndefined();
  expect(fieldOf(into(deep, {}, { height: 2.315 }), words)).toBeUndefined();
});

// 2026-11-29: holes that cannot be cut so were on the sheets without a word.
it("holds a hole that the housing does not pass, and one that no flange covers", () => {
  const cut = (cutOut: number): Json => ({
    luminaires: {
      spot: {
        beam: { flux: 650, angle: 36 },
        body: { profile: "cylinder", diameter: 0.08, height: 0.09 },
        cutOut,
      },
    },
    arrangements: inCeiling(),
  });
  const words = (cutOut: number) =>
    heldIn(cut(cutOut)).filter(({ field }) => field[field.length - 1] === "cutOut");
  expect(words(0.084)).toEqual([]);
  expect(words(0.075)).toMatchObject([
    {
      tags: ["R1", "R2"],
      words: "Cut-out 75 mm: the body, 80 mm wide, does not pass.",
      field: ["luminaires", "spot", "cutOut"],
    },
  ]);
  expect(words(0.15)).toMatchObject([
    { words: "Cut-out 150 mm: wider than the flange of a body 80 mm wide covers, as far as is usual." },
  ]);
});

// 2026-11-29: "nothing on HOLD" of pendants that work only dimmed, and nobody had said how they dim; then it was asked only
// once a dimmer was stated, so that a luminaire done with was on HOLD again.
it("asks how a luminaire dims unless its layer is switched alone", () => {
  const words = /kind of dimming/;
  const dimmed = (layer: Json, more: Json = {}) => withBar(more, layer);
  const switches = [{ at: [0.1, 0.1] }];
  expect(fieldOf(dimmed({ switches }), words)).toBeUndefined();
  for (const layer of [{}, { dim: 0.2, switches }, { dimmer: { maximumWatts: 300 } }]) {
    const [hold] = heldIn(dimmed(layer)).filter((each) => words.test(each.words));
    expect(hold.words).toBe(
      "Not stated: weight, canopy, rod or cord, kind of dimming. Confirm before rough-in.",
    );
    expect(hold.missing).toContainEqual(["luminaires", "bar", "dimming"]);
    expect(fieldOf(dimmed(layer, { dimming: "DALI" }), words)).toBeUndefined();
  }
});
