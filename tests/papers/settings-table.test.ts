/** The table for who programs the dimmers: every level and load of every setting. */
import { expect, it } from "vitest";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { settingsWords } from "../../src/words/settings-text.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

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
  const { sheets } = setOutSheets(handoverOf(document));
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
  const plain = setOutSheets(handoverOf(kitchen({}))).sheets.flatMap(({ marks }) => marks);
  expect(plain.some(({ depicts }) => depicts === "setting row")).toBe(false);
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
  const { sheets } = setOutSheets(handover);
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
