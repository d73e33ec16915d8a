/** What an order and an electrician need of a luminaire: maker and lamp from the file's own keywords or the study, where it hangs and is fed. */
import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { boxesCsv, luminairesCsv } from "../../src/formats/handover-csv.ts";
import { describeShade, resolveShade } from "../../src/luminaire/shade/definition.ts";
import { suspensionPoints } from "../../src/luminaire/suspension-points.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { orderFacts } from "../../src/photometry/order-facts.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { summarise } from "../../src/photometry/summary.ts";
import { photometryText } from "../../src/words/photometry-text.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen } from "../support/studies.ts";

const bar = (more: object = {}) =>
  kitchen({
    island: { centre: [2.7, 2.1], length: 2.4, width: 1.1, height: 0.92, turn: 90 },
    luminaires: {
      bar: {
        beam: { flux: 1800, angle: 110 },
        opening: { length: 1.2, width: 0.05 },
        suspension: "cable",
        maker: "the maker",
        order: "B-1200",
        base: "none",
        driver: "in the canopy",
        dimming: "0–10 V",
        price: 480,
        ...more,
      },
    },
    arrangements: [
      { name: "bar", layers: [{ name: "bar", luminaire: "bar", row: { count: 1, clearance: 0.8 } }] },
    ],
  });

describe("what a file says to whoever orders", () => {
  const file = (name: string) => {
    const bytes = readFileSync(new URL(`../../fixtures-data/boathouse/photometry/${name}`, import.meta.url));
    const read = readPhotometry(bytes, { file: name });
    if (!read.ok) throw new Error("the file was not read");
    return read.value;
  };
  it("is read from keywords and fields, nothing where there is nothing", () => {
    const { lampSets, lampSet } = file("dome-wide.ies");
    const labels = [
      { key: "MANUFAC", value: "Lamp Works" },
      { key: "LUMCAT", value: " LW-7 " },
      { key: "LAMP", value: "not stated" },
      { key: "LAMPCAT", value: "A60 E27" },
      { key: "BALLAST", value: "n/a" },
    ];
    expect(orderFacts({ labels, lampSets, lampSet })).toMatchObject({
      maker: "Lamp Works",
      order: "LW-7",
      lamp: "A60 E27",
    });
    expect(orderFacts({ labels, lampSets, lampSet })).not.toHaveProperty("driver");
    const eulumdat = [
      { key: "maker", value: "Globe House" },
      { key: "luminaire number", value: "G 12" },
    ];
    expect(orderFacts({ labels: eulumdat, lampSets: [], lampSet: 0 })).toEqual({
      maker: "Globe House",
      order: "G 12",
    });
  });

  it("is shown by inspect", () => {
    const own = { ...file("globe-opal.ldt"), labels: [{ key: "maker", value: "Globe\nHouse" }] };
    expect(photometryText("globe.ldt", summarise(own))).toMatch(/ maker +Globe.?House/);
    expect(summarise(own)).toMatchObject({ maker: "Globe\nHouse" });
  });

  it("stands on the schedule and in luminaires.csv", () => {
    const handover = handoverOf(bar());
    const [row] = Papa.parse<Record<string, string>>(luminairesCsv(handover), { header: true }).data;
    expect(row).toMatchObject({
      maker: "the maker",
      "order number": "B-1200",
      price: "480",
      dimming: "0–10 V",
    });
    const words = JSON.stringify(scheduleSheets(handover));
    for (const each of ["To order", "B-1200", "in the canopy", "960\u00a0mm", "(assumed)"])
      expect(words).toContain(each);
  });
});

describe("what nobody stated", () => {
  const sheets = (more: Json = {}) => JSON.stringify(setOutSheets(handoverOf(kitchen(more))).sheets);
  it("is on hold: weight of what sits in the ceiling too, cord and canopy of what hangs", () => {
    const words = sheets();
    expect(words).toContain("HOLD P1 to P3: Not stated: weight, canopy, rod or cord, kind of dimming.");
    expect(words).toContain("HOLD R1 to R6: Not stated: weight, cut-out, kind of dimming.");
    expect(words).toContain("Key to the plan");
  });

  it("is no beam where the light falls under half nowhere", () => {
    const globe = {
      lamp: { flux: 806, shape: "A19" },
      shade: { profile: "globe", diameter: "250 mm", finish: "opal glass" },
    };
    const spot = { beam: { flux: 650, angle: 36 }, watts: 7 };
    const words = JSON.stringify(scheduleSheets(handoverOf(kitchen({ luminaires: { dome: globe, spot } }))));
    expect(words).toContain('"all round"');
    expect(words).not.toContain("360°");
  });
});

it("orders every lamp of a luminaire that takes several", () => {
  const lamps = new Map([["dome", { flux: 450, watts: 4, shape: "candle", finish: "clear", count: 3 }]]);
  const handover = handoverOf(kitchen());
  const words = JSON.stringify(scheduleSheets({ ...handover, lamps: lamps as typeof handover.lamps }));
  // Three domes of three lamps each.
  expect(words).toMatch(/"lamps in all".*"9".*"candle"/);
});

// The demonstration's globe on its cap falls under half its maximum behind the cap alone: some 328°.
it("calls no beam all round that ends", () => {
  const bytes = readFileSync(
    new URL("../../fixtures-data/boathouse/photometry/globe-opal.ldt", import.meta.url),
  );
  const read = readPhotometry(bytes, { file: "globe-opal.ldt" });
  if (!read.ok) throw new Error("the file was not read");
  const { distribution } = read.value;
  const handover = handoverOf(kitchen());
  const options = handover.options.map((option) => {
    const layers = option.scene.layers.map((layer) => ({
      ...layer,
      luminaires: layer.luminaires.map((placed) => ({
        ...placed,
        luminaire: { ...placed.luminaire, distribution },
      })),
    }));
    return { ...option, scene: { ...option.scene, layers } };
  });
  const words = JSON.stringify(scheduleSheets({ ...handover, options }));
  expect(words).not.toContain('"all round"');
  expect(words).toContain('"328°"');
});

describe("where a linear pendant hangs", () => {
  it("is what the study says: only the feed is assumed then, and the schedule assumes nothing", () => {
    const handover = handoverOf(
      bar({
        suspensions: [
          [-0.5, 0],
          [0.5, 0],
        ],
      }),
    );
    const sheet = JSON.stringify(setOutSheets(handover).sheets);
    expect(sheet).toContain("P1: fed at the first point, which the study does not state");
    expect(sheet).not.toContain("assumed where not stated");
    expect(JSON.stringify(scheduleSheets(handover))).not.toContain("(assumed)");
  });

  it("is assumed at 0.4 of its length from the middle, and said so, on the sheet and in boxes.csv", () => {
    const handover = handoverOf(bar());
    const { setOut, sheets } = setOutSheets(handover);
    const [{ suspensions }] = setOut.boxes;
    // The island is turned by 90°: 0.48 m each way from (2.7, 2.1) along y.
    const ys = [2.1 - 0.48, 2.1 + 0.48];
    const worst = Math.max(
      ...(suspensions?.points ?? []).map(([x, y], i) => Math.hypot(x - 2.7, y - ys[i])),
      Math.hypot((suspensions?.feed[0] ?? NaN) - 2.7, (suspensions?.feed[1] ?? NaN) - ys[0]),
    );
    console.log(`worst error of a suspension: ${worst.toExponential(1)} m`);
    expect(worst).toBeLessThan(1e-9);
    const [row] = Papa.parse<Record<string, string>>(boxesCsv(handover, setOut), { header: true }).data;
    expect(row["suspensions x y (m)"]).toBe("2.7 1.62; 2.7 2.58");
    expect(row["suspensions assumed"]).toBe("assumed");
    expect(JSON.stringify(sheets)).toContain("assumed where not stated");
  });

  it("is as the study says, in the luminaire's own plan, and then assumed nowhere", () => {
    const said = {
      suspensions: [
        [-0.5, 0],
        [0.5, 0],
      ],
      feed: [0, 0.1],
    };
    const handover = handoverOf(bar(said));
    const { setOut, sheets } = setOutSheets(handover);
    expect(setOut.boxes[0].suspensions?.assumed).toBe(false);
    expect(setOut.boxes[0].suspensions?.feed[0]).toBeCloseTo(2.6, 9);
    expect(setOut.boxes[0].suspensions?.feed[1]).toBeCloseTo(2.1, 9);
    expect([setOut.boxes[0].x, setOut.boxes[0].y]).toEqual([2.6, 2.1]);
    expect(setOut.boxes[0].middle).toEqual([2.7, 2.1]);
    expect(JSON.stringify(sheets)).not.toContain("assumed where not stated");
  });

  it("is its middle for what is short or round", () => {
    const { luminaire } = handoverOf(kitchen()).options[0].scene.layers[0].luminaires[0];
    expect(suspensionPoints(luminaire)).toBeUndefined();
  });
});

describe("a shade in words", () => {
  const told = (shade: object) => {
    const log = {
      note() {},
      warn() {},
      error() {},
      fill: (given: unknown, _: string, value: unknown) => given ?? value,
    };
    return describeShade(
      resolveShade(
        { flux: 800, finish: "frosted" } as never,
        { profile: "dome", diameter: 0.3, height: 0.2, ...shade } as never,
        log as never,
      ),
    );
  };
  it("calls no opaque dome see-through, whatever closes its mouth", () => {
    expect(told({ finish: "aluminium" })).toContain("in a solid shade");
    expect(told({ finish: "aluminium", bottom: "fabric" })).toContain("in an opaque shade with a diffuser");
    expect(told({ finish: "opal glass" })).not.toContain("see-through");
  });
});
