/** Letters that the font of the PDFs has no form for: said by name, on the cover too; SVG and DXF hold them as they are. */

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { expect, it } from "vitest";
import { handoverFiles } from "../../src/formats/handover-files.ts";
import { letteredFiles, missingLettersWords } from "../../src/formats/pdf/lettered-files.ts";
import { handoverOf } from "../support/handover.ts";
import { ISLAND, kitchen } from "../support/studies.ts";

const { resolve } = createRequire(import.meta.url);
const face = (name: string) => new Uint8Array(readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));
const fonts = { regular: face("DejaVuSansCondensed"), bold: face("DejaVuSansCondensed-Bold") };

it("are missed wherever a paper has them: title, zone, layer, luminaire, arrangement", () => {
  const plain = kitchen();
  const { dome, ...others } = plain.luminaires as Record<string, unknown>;
  const document = kitchen({
    title: "台所",
    island: { ...ISLAND, zones: [{ name: "調理", from: [0, 0], size: [2, 1], target: "preparation" }] },
    luminaires: { ...others, 白球: dome },
    arrangements: [
      {
        name: "三つ",
        layers: [
          {
            name: "吊灯",
            role: "pendant",
            circuit: "回",
            luminaire: "白球",
            row: { count: 3, clearance: 0.85 },
          },
        ],
      },
    ],
  });
  const { files, missing } = letteredFiles(handoverOf(document), fonts);
  const expected = [..."台所調理白球三つ吊灯回"];
  console.log(`${expected.length} letters planted, missed and named: ${missing.join("")}`);
  expect([...missing].sort()).toEqual([...new Set(expected)].sort());
  expect(missingLettersWords(missing)).toContain("empty boxes");
  const cover = files.flatMap((file) =>
    "sheets" in file && file.path === "set.pdf" ? file.sheets[0].marks : [],
  );
  expect(cover.flatMap((mark) => ("text" in mark ? [mark.text] : [])).join(" ")).toMatch(
    /HOLD: the font of these sheets has no form for \d+ letters/,
  );
  const texts = files.flatMap((file) => ("content" in file ? [[file.path, file.content] as const] : []));
  const drawings = texts.filter(([path]) => /set-out.*\.(svg|dxf)$/.test(path));
  expect(drawings.map(([path]) => path.slice(-4)).sort()).toEqual(expect.arrayContaining([".dxf", ".svg"]));
  for (const [path, text] of drawings) expect(text, path).toMatch(/台所|吊灯/);
  expect(letteredFiles(handoverOf(plain), fonts).missing).toEqual([]);
  expect(handoverFiles(handoverOf(plain)).length).toBe(letteredFiles(handoverOf(plain), fonts).files.length);
});
