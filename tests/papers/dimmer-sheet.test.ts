/** The paper for who programs the dimmers: every level and load of every setting, and what a meter then reads. */
import { expect, it } from "vitest";
import { textBox } from "../../src/drawing/drawing.ts";
import { lineMeetsBox, orientedBox } from "../../src/drawing/oriented-box.ts";
import { dimmerSheets } from "../../src/papers/dimmer-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { formatIlluminanceValue } from "../../src/units/illuminance-text.ts";
import { settingsWords } from "../../src/words/settings-text.ts";
import { handoverOf } from "../support/handover.ts";
import { ISLAND, type Json, kitchen, resolved } from "../support/studies.ts";
import { textbookResult } from "../support/tiny-scene.ts";

function sheetsOf(document: Json) {
  const handover = handoverOf(document);
  return dimmerSheets(handover, setOutSheets(handover).setOut);
}

it("lists light output and load of each layer in each setting", () => {
  const document = kitchen({});
  const [arrangement] = document.arrangements as {
    layers: { name: string; dim?: number }[];
    settings?: unknown;
  }[];
  const [{ name: layer }] = arrangement.layers;
  arrangement.settings = [
    { name: "cooking", dim: { [layer]: 1 } },
    { name: "dinner", dim: { [layer]: 0.125 } },
    { name: "night", dim: { [layer]: 0 } },
  ];
  const sheets = sheetsOf(document);
  const words = sheets
    .flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "setting row" ? [mark.text] : []));
  expect(words.filter((word) => ["cooking", "dinner", "night"].includes(word))).toEqual([
    "cooking",
    "dinner",
    "night",
  ]);
  expect(words).toContain("12.5 %");
  expect(words).toContain("off");
  expect(words.filter((word) => word === layer)).toHaveLength(3);
  const plain = sheetsOf(kitchen({})).flatMap(({ marks }) => marks);
  const said = plain.flatMap((mark) => ("text" in mark && mark.depicts === "setting row" ? [mark.text] : []));
  expect(said.filter((word) => word === "as dimmed")).toHaveLength(1);
});

// 2026-11-29: "not stated" of what the set-out sheet calls switched.
it("asks for no dimmer of what is switched alone", () => {
  const said = (dim?: number) => {
    const document = kitchen({});
    const [arrangement] = document.arrangements as { layers: object[]; settings?: unknown }[];
    const [, ambient] = arrangement.layers;
    Object.assign(ambient, { switches: [{ at: [0.1, 1] }] });
    if (dim !== undefined)
      arrangement.settings = [{ name: "dinner", dim: { [(ambient as { name: string }).name]: dim } }];
    return sheetsOf(document)
      .flatMap(({ marks }) => marks)
      .flatMap((mark) => ("text" in mark && mark.depicts === "setting row" ? [mark.text] : []));
  };
  expect(said()).toContain("none: switched");
  expect(said()).toContain("on");
  expect(said(0)).toContain("none: switched");
  expect(said(0)).toContain("off");
  expect(said(0.5)).not.toContain("none: switched");
});

it("says what the dimmer is set to where its control is stated, and that it does not reach a level", () => {
  const document = kitchen({});
  const [arrangement] = document.arrangements as {
    layers: { name: string; dimmer?: object }[];
    settings?: unknown;
  }[];
  const [pendants, ambient] = arrangement.layers;
  pendants.dimmer = { control: "square" };
  ambient.dimmer = {
    control: [
      [0.1, 0.05],
      [1, 1],
    ],
  };
  arrangement.settings = [{ name: "dinner", dim: { [pendants.name]: 0.25, [ambient.name]: 0.01 } }];
  const handover = handoverOf(document);
  const sheets = dimmerSheets(handover, setOutSheets(handover).setOut);
  const words = sheets
    .flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "setting row" ? [mark.text] : []))
    .join(" ");
  expect(words).toMatch(/25 % 50 %/);
  expect(words).toContain("a level it does not reach");
  const [{ scene, assessment }] = handover.options;
  const [{ headline }] = settingsWords(scene, assessment.settings ?? [], [], "lx");
  expect(headline).toContain(`${pendants.name} 25 % (dimmer at 50 %)`);
});

it("says what a meter reads new in the middle of each zone: the layers' full light there by their levels", () => {
  const document = kitchen({
    island: {
      ...ISLAND,
      zones: [
        { name: "prep", from: [0, 0.3], size: [1.4, 0.8], target: "preparation" },
        { name: "eating", from: [0, 0], size: [2.4, 0.3], target: "eating" },
      ],
    },
    planes: [
      {
        name: "counter",
        rectangle: { corner: [0.5, 0.1, 0.9], u: [1, 0, 0], v: [0, 0.5, 0] },
        target: "preparation",
      },
    ],
  });
  const [arrangement] = document.arrangements as { layers: { name: string }[]; settings?: unknown }[];
  const [pendants, ambient] = arrangement.layers.map(({ name }) => name);
  arrangement.settings = [{ name: "dinner", dim: { [pendants]: 0.25, [ambient]: 0.1 } }];
  const marks = sheetsOf(document).flatMap((sheet) => sheet.marks);
  const rows = marks.flatMap((mark) => ("text" in mark && mark.depicts === "meter row" ? [mark] : []));
  const cells = [...new Set(rows.map(({ at }) => at[1]))].map((y) =>
    rows.filter(({ at }) => at[1] === y).map(({ text }) => text),
  );
  expect(marks.filter(({ depicts }) => depicts === "meter point").length).toBe(6);
  // Grids of 2.4 m by 0.3 m and of 1.4 m by 0.8 m have a point within a cell of their middles.
  const study = resolved(document);
  const [scene] = study.scenes;
  const { planes } = textbookResult(scene);
  let compared = 0;
  scene.planes.forEach((plane, p) => {
    const name = plane.zone ?? plane.name;
    const place = cells.find((row) => row[1] === name && row.length >= 5);
    if (place === undefined) return;
    const row = cells.find(
      (each) => each.includes(place[0]) && each !== place && each.join(" ").includes(pendants),
    );
    const lux = row?.flatMap((cell) => [...cell.matchAll(/[\d.]+/g)].map(String)).slice(-4) ?? [];
    // Nearest to the middle by a search of its own: least squares of all distances.
    const n = plane.weights.length;
    const spread = (i: number) =>
      plane.weights.reduce(
        (sum, weight, k) =>
          sum +
          weight *
            [0, 1, 2].reduce((s, a) => s + (plane.points[3 * k + a] - plane.points[3 * i + a]) ** 2, 0),
        0,
      );
    const least = Math.min(...Array.from({ length: n }, (_, i) => spread(i)));
    const nearest = Array.from({ length: n }, (_, i) => i).filter((i) => spread(i) < least + 1e-9);
    const expected = nearest.map((i) => {
      const alone = planes[p].layers.map(
        (layer, l) => (layer.direct[i] + (layer.interreflected?.[i] ?? 0)) * [0.25, 0.1][l],
      );
      const both = alone[0] + alone[1];
      return [...alone, both, both * scene.maintenance].map((lux) => formatIlluminanceValue(lux, "lx"));
    });
    expect(expected.map(String)).toContain(String(lux));
    compared += 1;
  });
  console.log(`meter readings: ${compared} points, 0 figures differ`);
  expect(compared).toBe(3);
});

// 2026-11-29: the name ran over the edge of a narrow zone and of the top.
it("writes the points' names across no edge of a zone", () => {
  for (const width of [0.8, 0.35, 0.2]) {
    const document = kitchen({
      island: {
        ...ISLAND,
        zones: [
          { name: "preparation", from: [0, 0], size: [2.4 - 2 * width, 1.1], target: null },
          { name: "eating", from: [2.4 - 2 * width, 0], size: [width, 1.1], target: null },
          { name: "serving", from: [2.4 - width, 0], size: [width, 1.1], target: null },
        ],
      },
    });
    const marks = sheetsOf(document).flatMap((sheet) => sheet.marks);
    const names = marks.filter((mark) => mark.kind === "text" && mark.depicts === "meter point");
    expect(names.map((mark) => "text" in mark && mark.text.slice(0, 2))).toEqual(["M1", "M2", "M3"]);
    for (const name of names) {
      if (name.kind !== "text") continue;
      for (const edge of marks) {
        if (edge.kind !== "line" || (edge.depicts !== "zone" && edge.depicts !== "island outline")) continue;
        edge.points.forEach((a, i) => {
          const b = edge.points[(i + 1) % edge.points.length];
          expect(lineMeetsBox(a, b, orientedBox(textBox(name))), `${name.text} at ${width}`).toBe(false);
        });
      }
    }
  }
});
